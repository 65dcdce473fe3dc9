#pragma once

#include <QTimer>
#include <QWidget>
#include <optional>

#include "ui/reading/grid/ball_pictures.h"
#include "ui/reading/reading_desk.h"

namespace ui::reading {

/// The ball of the current frame, cut out and magnified, so that only the rotation is left. A click
/// moves the centre of the ball there, the wheel changes its radius. With the dial on, dragging
/// turns the hand to the mark and makes an angle reading of this frame.
///
/// Angles count counter-clockwise from the right, 0 to 360 degrees.
class BallView : public QWidget {
    Q_OBJECT

public:
    BallView(ReadingDesk& desk, const BallPictures& pictures, QWidget* parent = nullptr);

    void setDialShown(bool shown);
    /// Turns the hand by this many degrees counter-clockwise and marks the attitude.
    void nudgeDial(double degrees);
    /// Where the picture and the ball in it are drawn.
    [[nodiscard]] QRectF pictureRect() const;
    [[nodiscard]] double ballRadiusPx() const;

    [[nodiscard]] QSize sizeHint() const override { return {320, 320}; }
    [[nodiscard]] QSize minimumSizeHint() const override { return {140, 120}; }

protected:
    void paintEvent(QPaintEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void wheelEvent(QWheelEvent* event) override;

private:
    [[nodiscard]] double degreesAt(QPointF widgetPx) const;
    /// The marked attitude of this frame, or the one being set.
    [[nodiscard]] std::optional<double> attitudeDegrees() const;
    void commitAngle();
    void commitRadius();
    void paintDial(QPainter& painter) const;
    void paintLabels(QPainter& painter) const;

    ReadingDesk& m_desk;
    const BallPictures& m_pictures;
    bool m_isDialShown{false};
    std::optional<double> m_angleBeingSet;  ///< degrees, counter-clockwise
    double m_lastDegrees{90.0};             ///< where the hand rests in frames without a mark
    std::optional<BallRing> m_placeBeingSet;
    QTimer m_settle;  ///< one edit for a burst of wheel steps or key presses
};

}  // namespace ui::reading
