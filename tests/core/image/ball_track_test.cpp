#include "core/image/ball_track.h"

#include <gtest/gtest.h>

namespace {

using namespace core::image;

BallPath somePath() {
    BallPath path;
    path.referenceTime = {0.5};
    path.principalPoint = {640.0, 360.0};
    path.x = {-3.0, 200.0, -40.0, 5.0};
    path.y = {1.0, -30.0, 140.0, 0.0};
    path.inverseRadius = {0.04, 0.01};
    return path;
}

TEST(BallPath, IsAPolynomialOverDepth) {
    // At 0.1 s after the reference: X = -3 + 20 - 0.4 + 0.005 = 16.605, Y = 1 - 3 + 1.4 = -0.6,
    // D = 0.041.
    const PointPx at = somePath().centreAt({0.6});
    EXPECT_NEAR(at.x, 640.0 + 16.605 / 0.041, 1e-9);
    EXPECT_NEAR(at.y, 360.0 - 0.6 / 0.041, 1e-9);
    EXPECT_NEAR(somePath().axialRadiusPxAt({0.6}), 1.0 / 0.041, 1e-12);
}

TEST(BallPath, VelocityIsTheSlopeOfItsCentre) {
    constexpr double kStep = 1e-6;
    const PointPx before = somePath().centreAt({0.6 - kStep});
    const PointPx after = somePath().centreAt({0.6 + kStep});
    const PointPx velocity = somePath().velocityAt({0.6});
    constexpr double kDifferenceTol = 1e-3;  // px/s, of a central difference over 2 microseconds
    EXPECT_NEAR(velocity.x, (after.x - before.x) / (2.0 * kStep), kDifferenceTol);
    EXPECT_NEAR(velocity.y, (after.y - before.y) / (2.0 * kStep), kDifferenceTol);
}

TEST(FrameMotion, UndoBringsAPointBack) {
    const FrameMotion motion{.a = 1.01, .b = 0.02, .shift = {3.0, -4.0}};
    const PointPx middle{320.0, 180.0};
    const PointPx back = motion.undo(motion.apply({100.0, 50.0}, middle), middle);
    EXPECT_NEAR(back.x, 100.0, 1e-9);
    EXPECT_NEAR(back.y, 50.0, 1e-9);
}

TEST(FrameMotion, TurnsAboutTheMiddleOfThePicture) {
    const FrameMotion quarter{.a = 0.0, .b = 1.0, .shift = {}};
    const PointPx turned = quarter.apply({330.0, 180.0}, {320.0, 180.0});  // x goes to y
    EXPECT_NEAR(turned.x, 320.0, 1e-12);
    EXPECT_NEAR(turned.y, 190.0, 1e-12);
}

TEST(BallTrack, FindsAFrameAndCountsTheMeasured) {
    BallTrack track;
    track.frames.resize(3);
    for (int i = 0; i < 3; ++i) {
        track.frames[static_cast<std::size_t>(i)].frame = {7 + i};
    }
    track.frames[1].source = BallSource::Bridged;
    EXPECT_EQ(track.measuredCount(), 2U);
    ASSERT_NE(track.find({8}), nullptr);
    EXPECT_EQ(track.find({8})->source, BallSource::Bridged);
    EXPECT_EQ(track.find({10}), nullptr);
}

}  // namespace
