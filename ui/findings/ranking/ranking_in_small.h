#pragma once

#include <QPixmap>
#include <QScrollBar>
#include <optional>

namespace ui::findings {

class RankedView;

/// The scroll bar of a RankedView: the whole ranking in small, a line for every row, and a frame
/// round what is in view. A click jumps, dragging scrolls. Confined.
class RankingInSmall : public QScrollBar {
    Q_OBJECT

public:
    /// The view owns the bar.
    explicit RankingInSmall(RankedView& view);

    /// The frame round what is in view.
    [[nodiscard]] QRectF frame() const;
    /// Where a row of the view is drawn, from above.
    [[nodiscard]] double heightOf(int row) const;
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override { return sizeHint(); }
    /// Rows or axis are others.
    void redraw();

protected:
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void changeEvent(QEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void contextMenuEvent(QContextMenuEvent* event) override;
    bool event(QEvent* event) override;

private:
    /// Where the rows are drawn.
    [[nodiscard]] QRectF ground() const;
    void jumpTo(double frameTop);
    void drawLines(QPainter& painter) const;
    /// A line from the edge to the mean, a disc at its end.
    struct Stroke {
        double widthPx{};
        double discRadiusPx{};
    };
    void drawLine(QPainter& painter, int row, Stroke stroke) const;

    RankedView& m_view;
    QPixmap m_lines;               ///< of all rows; null: to be drawn anew
    std::optional<double> m_grip;  ///< from the frame's top to the pointer, while it is dragged
};

}  // namespace ui::findings
