#include <gtest/gtest.h>

#include <cmath>

#include "core/spin/fit/shot_samples.h"

namespace core::spin::fit {
namespace {

/// So far away that all rays are parallel: 20 px of radius at a focal length of 100,000 px.
const Pinhole kTelescope{1e5, {640.0, 360.0}};
const SphereImage kPlace{{640.0, 360.0}, 20.0};
/// The ball moves by its width to the right.
const Eigen::Vector2d kSmear{40.0, 0.0};
constexpr double kParallel = 1e-3;  // rays differ by 40/100000

Eigen::Vector3d rayAt(double x, double y) {
    return rayThrough(kTelescope, kPlace.centrePx + Eigen::Vector2d{x, y});
}

// At x radii from the middle the ball's own coordinate is x - 2 t, and the slant there
// sqrt(1 - (x - 2 t)^2 - y^2).
TEST(MovingBall, CoversAPlaceWhileItsDiscIsThere) {
    const MovingBall ball{kTelescope, kPlace, kSmear};
    const auto middle = ball.whileSlantAbove(rayAt(0.0, 0.0), 0.0);
    EXPECT_NEAR(middle.low, -0.5, kParallel);
    EXPECT_NEAR(middle.high, 0.5, kParallel);
    const auto right = ball.whileSlantAbove(rayAt(20.0, 0.0), 0.0);  // from 1 - 2 t = 1 on
    EXPECT_NEAR(right.low, 0.0, kParallel);
    EXPECT_NEAR(right.high, 0.5, kParallel);
    const auto below = ball.whileSlantAbove(rayAt(0.0, 16.0), 0.0);  // (2 t)^2 < 1 - 0.64
    EXPECT_NEAR(below.low, -0.3, kParallel);
    EXPECT_NEAR(below.high, 0.3, kParallel);
    const auto beside = ball.whileSlantAbove(rayAt(0.0, 21.0), 0.0);
    EXPECT_EQ(beside.low, beside.high);
}

TEST(MovingBall, SlantsMoreTowardsItsRim) {
    const MovingBall ball{kTelescope, kPlace, kSmear};
    const auto facing = ball.whileSlantAbove(rayAt(0.0, 0.0), 0.6);  // (2 t)^2 < 1 - 0.36
    EXPECT_NEAR(facing.low, -0.4, kParallel);
    EXPECT_NEAR(facing.high, 0.4, kParallel);
    EXPECT_NEAR(ball.slantAt(rayAt(0.0, 0.0), 0.3), 0.8, kParallel);
    EXPECT_EQ(ball.slantAt(rayAt(20.0, 0.0), -0.4), 0.0);
}

TEST(MovingBall, AtRestCoversAPlaceAlwaysOrNever) {
    const MovingBall ball{kTelescope, kPlace, Eigen::Vector2d::Zero()};
    EXPECT_EQ(ball.whileSlantAbove(rayAt(10.0, 0.0), 0.5), (Interval<double>{-0.5, 0.5}));
    const auto outside = ball.whileSlantAbove(rayAt(19.0, 0.0), 0.5);  // slant 0.31
    EXPECT_EQ(outside.low, outside.high);
}

/// One block 10 px right of the middle, covered from a quarter before the middle on.
FrameSamples oneBlock() {
    FrameSamples frame;
    frame.place = kPlace;
    frame.smearPx = kSmear;
    frame.pointPx = Eigen::MatrixX2f::Zero(1, 2);
    frame.pointPx.row(0) << 650.0F, 360.0F;
    frame.lateS = Eigen::VectorXf::Zero(1);
    frame.middle = Eigen::VectorXf::Constant(1, 0.125F);
    frame.cover = Eigen::VectorXf::Constant(1, 0.75F);
    return frame;
}

TEST(MovingBall, ABlockShowsWhatPassesItInItsOwnTime) {
    const MovingBall ball{kTelescope, kPlace, kSmear};
    const FrameSamples frame = oneBlock();
    // Half a radius right of the middle: in the middle of its time, 0.125 exposures late, the
    // ball's own coordinate is 0.5 - 2 0.125, at its end 0.5 - 2 0.5.
    EXPECT_NEAR(ball.seenBy(frame, {0.0, 1.0})(0, 0), 0.25, kParallel);
    EXPECT_NEAR(ball.seenBy(frame, {0.5, 1.0})(0, 0), -0.5, kParallel);
    EXPECT_NEAR(ball.seenBy(frame, {0.5, 1.0})(0, 2), -std::sqrt(0.75), kParallel);
}

// Gauss's quadrature with n points is exact to degree 2 n - 1: of t^4 over [-1/2, 1/2] the mean is
// 1/80, and offsets lie symmetrically.
TEST(MovingBall, InstantsStandForTheWholeTime) {
    FrameSamples frame = oneBlock();
    for (const double smearPx : {0.0, 5.0, 15.0, 40.0}) {
        frame.smearPx = {smearPx, 0.0};
        double weight = 0.0;
        double first = 0.0;
        double fourth = 0.0;
        for (const CoveredInstant& instant : instantsOf(frame)) {
            weight += instant.weight;
            first += instant.weight * instant.offset;
            fourth += instant.weight * std::pow(instant.offset, 4);
        }
        EXPECT_NEAR(weight, 1.0, 1e-12);
        EXPECT_NEAR(first, 0.0, 1e-12);
        if (smearPx > 0.0) {
            EXPECT_NEAR(fourth, 1.0 / 80.0, 1e-9);
        }
    }
}

}  // namespace
}  // namespace core::spin::fit
