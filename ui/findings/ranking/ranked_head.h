#pragma once

#include <QHeaderView>
#include <optional>

namespace ui::findings {

class RankedView;

/// The head of a RankedView: names of the columns, and over the chart its axis with bands and the
/// ruler of the noticeable step, which can be dragged along it. Confined.
class RankedHead : public QHeaderView {
    Q_OBJECT

public:
    /// The view owns the head.
    explicit RankedHead(RankedView& view);

    /// Where the ruler is drawn, in the viewport; empty for none.
    [[nodiscard]] QRectF ruler() const;
    [[nodiscard]] QSize sizeHint() const override;

protected:
    void paintSection(QPainter* painter, const QRect& rect, int section) const override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;

private:
    [[nodiscard]] QRectF chartRoom() const;
    [[nodiscard]] double rpmAt(double x) const;

    RankedView& m_view;
    std::optional<double> m_dragOffset;  ///< from the ruler's lower end to the pointer, rpm
};

}  // namespace ui::findings
