#include "core/synthesis/bounce.h"

#include <gtest/gtest.h>

namespace core::synthesis {
namespace {

constexpr double kBounceRounding = 1e-12;
constexpr double kRadiusM = 0.03;
/// Flies right and falls onto level ground (y is down).
constexpr BallMotion kFalling{{10.0, 5.0, 0.0}, {0.0, 0.0, 0.0}};

Bounce ground(double friction) {
    return {.time = {}, .restitution = 0.6, .friction = friction};
}

TEST(Bounce, WithoutFrictionOnlyTheFallTurnsRound) {
    const BallMotion after = afterBounce(kFalling, kRadiusM, ground(0.0));
    EXPECT_NEAR(after.velocityMPerS[0], 10.0, kBounceRounding);
    EXPECT_NEAR(after.velocityMPerS[1], -3.0, kBounceRounding);  // 0.6 of 5 m/s
    EXPECT_EQ(after.spinRadPerS, kFalling.spinRadPerS);
}

// Sliding: 0.1 of the impulse 1.6 5 m/s is 0.8 m/s. Its moment over 2/3 r^2 is 1.2/r = 40 rad/s,
// about z: the top goes forward, topspin.
TEST(Bounce, SlidingFrictionIsAShareOfTheImpulseOffTheGround) {
    const BallMotion after = afterBounce(kFalling, kRadiusM, ground(0.1));
    EXPECT_NEAR(after.velocityMPerS[0], 9.2, kBounceRounding);
    EXPECT_NEAR(after.spinRadPerS[2], 40.0, kBounceRounding);
}

// Enough friction makes it roll: a hollow ball keeps 3/5 of its speed along the ground and turns
// at 6/0.03 = 200 rad/s.
TEST(Bounce, GripEndsInRolling) {
    const BallMotion after = afterBounce(kFalling, kRadiusM, ground(5.0));
    EXPECT_NEAR(after.velocityMPerS[0], 6.0, kBounceRounding);
    EXPECT_NEAR(after.spinRadPerS[2], 200.0, 1e-9);
}

TEST(Bounce, ARollingBallIsNotRubbed) {
    const BallMotion rolling{{6.0, 5.0, 0.0}, {0.0, 0.0, 200.0}};
    const BallMotion after = afterBounce(rolling, kRadiusM, ground(0.5));
    EXPECT_NEAR(after.velocityMPerS[0], 6.0, kBounceRounding);
    EXPECT_NEAR(after.spinRadPerS[2], 200.0, 1e-9);
}

TEST(Bounce, ABallThatMovesOffIsLeftAsItIs) {
    const BallMotion rising{{10.0, -5.0, 0.0}, {0.0, 0.0, 7.0}};
    const BallMotion after = afterBounce(rising, kRadiusM, ground(0.5));
    EXPECT_EQ(after.velocityMPerS, rising.velocityMPerS);
    EXPECT_EQ(after.spinRadPerS, rising.spinRadPerS);
}

}  // namespace
}  // namespace core::synthesis
