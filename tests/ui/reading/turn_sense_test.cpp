#include "ui/reading/grid/turn_sense.h"

#include <gtest/gtest.h>

#include <QPainter>

namespace ui::reading {
namespace {

/// A ball with a dark sector whose middle points this many degrees counter-clockwise from the
/// right.
QImage ball(double degrees) {
    QImage image{96, 96, QImage::Format_RGB32};
    image.fill(QColor{90, 110, 90});
    QPainter painter{&image};
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(Qt::NoPen);
    painter.setBrush(QColor{230, 230, 80});
    painter.drawEllipse(QPointF{48, 48}, 33, 33);
    painter.setBrush(QColor{40, 40, 40});
    painter.drawPie(QRectF{15, 15, 66, 66}, static_cast<int>((degrees - 40.0) * 16), 80 * 16);
    return image;
}

std::vector<PhasedPicture> turning(double degreesPerFrame) {
    std::vector<PhasedPicture> pictures;
    for (int k = 0; k < 6; ++k) {
        pictures.push_back(
            {ball(20.0 + k * degreesPerFrame), k * std::abs(degreesPerFrame) / 360.0});
    }
    return pictures;
}

TEST(TurnSense, IsSeenInThePictures) {
    EXPECT_EQ(likelySense(turning(75.0)), TurnSense::CounterClockwise);
    EXPECT_EQ(likelySense(turning(-75.0)), TurnSense::Clockwise);
}

TEST(TurnSense, NeedsTwoPictures) {
    EXPECT_FALSE(likelySense({}).has_value());
    EXPECT_FALSE(likelySense({{ball(0.0), 0.0}}).has_value());
}

TEST(TurnSense, APictureIsTurnedBackByItsPhase) {
    // A quarter turn counter-clockwise is undone by 90° clockwise; whole turns need nothing.
    EXPECT_DOUBLE_EQ(turnBackDegrees(1.25, TurnSense::CounterClockwise), 90.0);
    EXPECT_DOUBLE_EQ(turnBackDegrees(1.25, TurnSense::Clockwise), -90.0);
    EXPECT_DOUBLE_EQ(turnBackDegrees(3.0, TurnSense::Clockwise), 0.0);
}

}  // namespace
}  // namespace ui::reading
