#include "ui/bridge/cut_out.h"

#include <gtest/gtest.h>

#include <QColor>
#include <algorithm>

#include "tests/ui/bridge/drawn_frame.h"

namespace ui::bridge {
namespace {

TEST(CutOut, ACutOutShowsTheSquareAroundItsCentre) {
    // A bright pixel at column 20, row 10: its centre is at (20.5, 10.5).
    const tests::DrawnFrame frame{64, 48,
                                  [](int x, int y) { return x == 20 && y == 10 ? 255 : 0; }};
    const QImage image = cutOutPicture(frame, {{0}, {20.5, 10.5}, 4.5, 9});
    ASSERT_EQ(image.size(), QSize(9, 9));
    EXPECT_EQ(qRed(image.pixel(4, 4)), 255);
    EXPECT_EQ(qRed(image.pixel(3, 4)), 0);
    EXPECT_EQ(qRed(image.pixel(4, 5)), 0);
}

TEST(CutOut, ACutOutMovesByPartsOfAPixel) {
    // A bright column; half a pixel to the left of it both neighbours show it half.
    const tests::DrawnFrame frame{64, 48, [](int x, int) { return x == 20 ? 200 : 0; }};
    const QImage image = cutOutPicture(frame, {{0}, {20.0, 10.5}, 4.5, 9});
    constexpr int kLevels = 2;  // fixed-point weights of the interpolation
    EXPECT_NEAR(qRed(image.pixel(4, 4)), 100, kLevels);
    EXPECT_NEAR(qRed(image.pixel(5, 4)), 100, kLevels);
}

TEST(CutOut, OutsideThePictureIsBlack) {
    const tests::DrawnFrame frame{64, 48, [](int, int) { return 180; }};
    const QImage image = cutOutPicture(frame, {{0}, {0.0, 24.0}, 10.0, 20});
    EXPECT_EQ(qRed(image.pixel(2, 10)), 0);
    EXPECT_EQ(qRed(image.pixel(17, 10)), 180);
}

TEST(CutOut, TheWholePictureFitsIntoTheBox) {
    const tests::DrawnFrame frame{64, 48, [](int, int) { return 90; }};
    EXPECT_EQ(wholePicture(frame, {32, 32}).size(), QSize(32, 24));
    EXPECT_EQ(wholePicture(frame, {}).size(), QSize(64, 48));
    EXPECT_EQ(wholePicture(frame, {640, 480}).size(), QSize(64, 48));
}

}  // namespace
}  // namespace ui::bridge
