#include "core/spin/fit/spin_words.h"

#include <gtest/gtest.h>

#include <limits>

namespace core::spin::fit {
namespace {

// Expected values follow from the definitions: topspin moves the top of the ball forward (a ball
// that rolls along the ground has it), and by Robins and Magnus the ball bends to the side towards
// which its front turns (common practice, no source).
constexpr double kTolRpm = 1e-9;
constexpr double kTurn = 2.0 * kPi;  // rad/s of 60 rpm

TEST(SpinWords, ABallThatRollsToTheRightTurnsClockwiseAndHasTopspin) {
    // z points away from the camera: about +z x turns into y, right into down, clockwise as seen.
    const auto words = describeSpin({0.0, 0.0, kTurn}, {3.0, 0.0, 0.0});
    ASSERT_TRUE(words.has_value()) << words.error().message;
    EXPECT_NEAR(words.value().topspin.rpm, 60.0, kTolRpm);
    EXPECT_NEAR(words.value().sidespin.rpm, 0.0, kTolRpm);
    EXPECT_NEAR(words.value().gyrospin.rpm, 0.0, kTolRpm);
    EXPECT_EQ(words.value().text, "topspin");
}

TEST(SpinWords, TheSameTurnIsBackspinWhenTheBallFliesToTheLeft) {
    const auto words = describeSpin({0.0, 0.0, kTurn}, {-3.0, 0.5, 0.0});
    ASSERT_TRUE(words.has_value()) << words.error().message;
    EXPECT_NEAR(words.value().topspin.rpm, -60.0, kTolRpm);
    EXPECT_EQ(words.value().text, "backspin");
}

TEST(SpinWords, CounterClockwiseFromAboveBendsToTheLeft) {
    // About up = -y. Away from the camera lies to the left of a flight to the right.
    const auto words = describeSpin({0.0, -kTurn, 0.0}, {1.0, 0.0, 0.0});
    ASSERT_TRUE(words.has_value()) << words.error().message;
    EXPECT_NEAR(words.value().sidespin.rpm, 60.0, kTolRpm);
    EXPECT_EQ(words.value().text, "sidespin to the left");
    const auto other = describeSpin({0.0, kTurn, 0.0}, {1.0, 0.0, 0.0});
    ASSERT_TRUE(other.has_value());
    EXPECT_EQ(other.value().text, "sidespin to the right");
}

TEST(SpinWords, AFlightAwayFromTheCameraWithTopspinTurnsAboutLeft) {
    // up x v with v = +z is -x.
    const auto words = describeSpin({-kTurn, 0.0, 0.0}, {0.0, 0.0, 2.0});
    ASSERT_TRUE(words.has_value()) << words.error().message;
    EXPECT_NEAR(words.value().topspin.rpm, 60.0, kTolRpm);
}

TEST(SpinWords, NamesThePartsThatMatterStrongestFirst) {
    const auto words = describeSpin({0.0, 0.5 * kTurn, -kTurn}, {1.0, 0.0, 0.0});
    ASSERT_TRUE(words.has_value()) << words.error().message;
    EXPECT_EQ(words.value().text, "backspin with sidespin to the right");
    const auto rifled = describeSpin({kTurn, -0.1 * kTurn, 0.1 * kTurn}, {1.0, 0.0, 0.0});
    ASSERT_TRUE(rifled.has_value());
    EXPECT_EQ(rifled.value().text, "spin about the line of flight");
    EXPECT_NEAR(rifled.value().gyrospin.rpm, 60.0, kTolRpm);
}

TEST(SpinWords, RefusesWhatHasNoForward) {
    EXPECT_EQ(describeSpin({1.0, 0.0, 0.0}, {0.0, 2.0, 0.0}).error().code, ErrorCode::OutOfRange);
    EXPECT_EQ(describeSpin({0.0, 0.0, 0.0}, {1.0, 0.0, 0.0}).error().code, ErrorCode::OutOfRange);
    EXPECT_EQ(describeSpin({std::numeric_limits<double>::quiet_NaN(), 0.0, 0.0}, {1.0, 0.0, 0.0})
                  .error()
                  .code,
              ErrorCode::NotFinite);
}

}  // namespace
}  // namespace core::spin::fit
