#pragma once

#include <QAbstractScrollArea>
#include <QHash>
#include <QPixmap>
#include <optional>

#include "ui/reading/grid/ball_pictures.h"
#include "ui/reading/grid/turn_grid_layout.h"
#include "ui/reading/grid/turn_sense.h"
#include "ui/reading/reading_desk.h"
#include "ui/style/spoken_parts.h"

namespace ui::reading {

/// Every frame of the shot as a small ball picture, row under row, one row one turn at the present
/// rate. A click goes to a frame, a double click marks it (start, then returns), the chips on the
/// current picture mark it too, and the handle at the end of the rows changes their length.
class TurnGrid : public QAbstractScrollArea, public style::SpokenParts {
    Q_OBJECT

public:
    TurnGrid(ReadingDesk& desk, const BallPictures& pictures, QWidget* parent = nullptr);

    [[nodiscard]] const TurnGridLayout& gridLayout() const noexcept { return m_layout; }
    [[nodiscard]] bool isHeldStill() const noexcept { return m_isHeldStill; }
    void setHeldStill(bool held);
    /// Lays ticks over the grid where the mark would be back by other readings of the shot.
    void setOtherRatesShown(bool shown);
    [[nodiscard]] TurnSense sense() const noexcept { return m_sense; }
    void setSense(TurnSense sense);
    /// Where a picture, the chips on the current one, and the handle are, in viewport coordinates.
    [[nodiscard]] QRectF cellRect(core::timebase::FrameIndex frame) const;
    [[nodiscard]] QRectF startChipRect() const;
    [[nodiscard]] QRectF returnChipRect() const;
    [[nodiscard]] QRectF handleRect() const;
    /// Clockwise degrees by which a picture is shown turned.
    [[nodiscard]] double shownTurnDegrees(core::timebase::FrameIndex frame) const;

    [[nodiscard]] std::vector<style::SpokenPart> spokenParts() override;
    /// To look at: a click goes to a frame, nothing is marked, the rows have no handle.
    void setOnlyLookedAt();
    /// Times as long and pictures as large as in another grid; absent: as there is room.
    void setScale(std::optional<TurnGridInput::Scale> scale);
    void setRowsAtLeast(std::optional<TurnGridInput::Rows> rows);
    /// Scrolls to the first row, so that rows before the start are above the edge.
    void showReference();

    [[nodiscard]] QSize sizeHint() const override { return {640, 300}; }
    [[nodiscard]] QSize minimumSizeHint() const override { return {260, 120}; }

Q_SIGNALS:
    void senseChanged();
    void laidOut();

protected:
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void mouseDoubleClickEvent(QMouseEvent* event) override;
    void wheelEvent(QWheelEvent* event) override;
    void changeEvent(QEvent* event) override;

private:
    static constexpr double kCaptionHalfWidthPx = 80.0;

    void layOut();
    [[nodiscard]] TurnGridInput layoutInput() const;
    void fitScrollBars();
    void showCurrent();
    /// What a cell covers of the viewport with everything painted around it.
    [[nodiscard]] QRect placeOf(const GridCell& cell) const;
    void guessSense();
    [[nodiscard]] QPointF scrollOffset() const;
    [[nodiscard]] QPointF toContent(QPointF viewportPoint) const;
    [[nodiscard]] QRectF chipRect(int fromRight) const;
    [[nodiscard]] QPixmap scaledPicture(core::timebase::FrameIndex frame);
    void paintRows(QPainter& painter, const QRectF& wanted);
    void paintOtherRates(QPainter& painter);
    [[nodiscard]] QPainterPath outlineOf(const QRectF& rect, double pxPerPoint) const;
    void paintCell(QPainter& painter, const GridCell& cell);
    void paintPicture(QPainter& painter, const GridCell& cell);
    void paintMarks(QPainter& painter, const GridCell& cell);
    void paintCaption(QPainter& painter, const GridCell& cell);
    void paintChips(QPainter& painter);
    void paintHandle(QPainter& painter);
    void paintHint(QPainter& painter, const QString& hint);

    ReadingDesk& m_desk;
    const BallPictures& m_pictures;
    TurnGridLayout m_layout;
    bool m_isHeldStill{false};
    bool m_areOtherRatesShown{false};
    bool m_isOnlyLookedAt{false};
    std::optional<TurnGridInput::Scale> m_scale;  ///< of another grid
    std::optional<TurnGridInput::Rows> m_rowsAtLeast;
    TurnSense m_sense{TurnSense::CounterClockwise};
    bool m_isSenseChosen{false};  ///< by the reviewer, for this shot
    struct Drag {
        double startXPx{};
        double startRowSeconds{};
        TurnGridInput::Scale scale;
    };
    std::optional<Drag> m_drag;
    core::timebase::FrameIndex m_shownFrame;  ///< the one painted as the current one
    QHash<qint64, QPixmap> m_scaled;          ///< pictures in the present cell size and outline
};

}  // namespace ui::reading
