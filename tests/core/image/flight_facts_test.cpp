#include "core/image/flight_facts.h"

#include <gtest/gtest.h>

#include <cmath>

#include "tests/support/reference_csv.h"

namespace {

using namespace core::image;
using core::ErrorCode;
using core::timebase::CaptureRate;
using core::timebase::Rational;

// A track as an ideal camera would give it: ball of 66.7 mm at 2 m, 12 m/s to the right, 2 m/s up,
// 1 m/s away, focal length 1000 px, clock running at 1/clockFactor of the true speed.
constexpr double kBallRadius = 0.03335;
constexpr double kFocal = 1000.0;

BallTrack idealTrack(double downward, double clockFactor) {
    BallTrack track;
    track.pictureWidth = 1280;
    track.pictureHeight = 720;
    track.focal = {{kFocal}, {20.0}};
    track.scatter = {0.1};
    track.path.referenceTime = {0.0};
    track.path.principalPoint = {640.0, 360.0};
    const double k = clockFactor;
    track.path.x = {-0.8 / kBallRadius, 12.0 / kBallRadius / k, 0.0, 0.0};
    track.path.y = {0.1 / kBallRadius, -2.0 / kBallRadius / k,
                    0.5 * downward / kBallRadius / (k * k), 0.0};
    track.path.inverseRadius = {2.0 / (kBallRadius * kFocal), 1.0 / (kBallRadius * kFocal) / k};
    for (int i = 0; i < 20; ++i) {
        BallInFrame ball;
        ball.frame = {i};
        ball.time = {k * i / 120.0};
        ball.centre = track.path.centreAt(ball.time);
        ball.radiusPx = track.path.axialRadiusPxAt(ball.time);
        ball.radiusSigmaPx = 0.05;
        track.frames.push_back(ball);
    }
    return track;
}

const core::Measured<Metres> kDiameter{{2.0 * kBallRadius}, {0.0002}};

TEST(FlightFacts, SpeedAndLaunchAngleComeFromTheBallsDiameter) {
    const FlightFacts flight = flightOf(idealTrack(9.80665, 1.0), kDiameter).value();
    EXPECT_NEAR(flight.velocity.x, 12.0, 1e-9);
    EXPECT_NEAR(flight.velocity.y, -2.0, 1e-9);
    EXPECT_NEAR(flight.velocity.z, 1.0, 1e-9);
    EXPECT_NEAR(flight.speed.value.metresPerSecond, std::sqrt(149.0), 1e-9);  // 144 + 4 + 1
    // tan = 2 / sqrt(145)
    EXPECT_NEAR(toDegrees(flight.launchAngle.value), 9.4303, 1e-3);
    EXPECT_NEAR(flight.distance.value.metres, 2.0, 1e-9);
    EXPECT_NEAR(flight.downwardAcceleration.value.metresPerSecondSquared, 9.80665, 1e-9);
    EXPECT_GT(flight.speed.sigma.metresPerSecond, 0.0);
}

TEST(FlightFacts, NeedsADiameterAndFourFrames) {
    BallTrack track = idealTrack(9.80665, 1.0);
    EXPECT_EQ(flightOf(track, {{0.0}, {0.0}}).error().code, ErrorCode::OutOfRange);
    track.frames.resize(3);
    EXPECT_EQ(flightOf(track, kDiameter).error().code, ErrorCode::Untrustworthy);
}

TEST(GravityCheck, AcceptsTheTrueRate) {
    const auto verdict = checkGravity(flightOf(idealTrack(9.80665, 1.0), kDiameter).value(),
                                      CaptureRate{Rational(120)});
    EXPECT_EQ(verdict.kind, GravityVerdict::Kind::Fits);
    EXPECT_NEAR(verdict.factor, 1.0, 1e-9);
    EXPECT_EQ(verdict.statement, "The flight fits a capture rate of 120.");
}

// 240 frames per second played as 30: every time is eight times too long, g 64 times too small.
TEST(GravityCheck, NamesTheRateOfASlowMotionClip) {
    const auto verdict = checkGravity(flightOf(idealTrack(9.80665, 8.0), kDiameter).value(),
                                      CaptureRate{Rational(30)});
    EXPECT_EQ(verdict.kind, GravityVerdict::Kind::DoesNotFit);
    EXPECT_NEAR(verdict.factor, 8.0, 1e-9);
    ASSERT_TRUE(verdict.likelier.has_value());
    EXPECT_EQ(verdict.likelier->fps, Rational(240));
    EXPECT_EQ(verdict.statement, "The flight fits a capture rate of 240, not 30.");
}

TEST(GravityCheck, SeesARateThatIsTwiceTooHigh) {
    const auto verdict = checkGravity(flightOf(idealTrack(9.80665, 0.5), kDiameter).value(),
                                      CaptureRate{Rational(240)});
    EXPECT_EQ(verdict.kind, GravityVerdict::Kind::DoesNotFit);
    EXPECT_EQ(verdict.likelier->fps, Rational(120));
}

// The centres of a ball that moves by 24 px while the shutter is open may be off by 0.75 px along
// its path, which over nine frames bends a path as much as gravity does.
TEST(GravityCheck, AShortSmearedFlightRefutesNothing) {
    BallTrack track = idealTrack(9.80665, 0.5);
    track.frames.resize(9);
    const auto kindOf = [&] {
        return checkGravity(flightOf(track, kDiameter).value(), CaptureRate{Rational(240)}).kind;
    };
    EXPECT_EQ(kindOf(), GravityVerdict::Kind::DoesNotFit);
    for (BallInFrame& ball : track.frames) {
        ball.smear = {24.0, 0.0};
    }
    EXPECT_EQ(kindOf(), GravityVerdict::Kind::CannotTell);
}

// Lift of half the weight up or down (strong backspin, strong topspin) is no wrong clock.
TEST(GravityCheck, AllowsForLift) {
    for (const double share : {0.55, 1.8}) {
        const auto verdict =
            checkGravity(flightOf(idealTrack(share * 9.80665, 1.0), kDiameter).value(),
                         CaptureRate{Rational(120)});
        EXPECT_EQ(verdict.kind, GravityVerdict::Kind::Fits) << share;
    }
}

TEST(GravityCheck, SaysNothingOfABallThatDoesNotFall) {
    for (const double downward : {-2.0, 0.0, 0.4 * 9.80665}) {
        const auto verdict = checkGravity(flightOf(idealTrack(downward, 1.0), kDiameter).value(),
                                          CaptureRate{Rational(120)});
        EXPECT_EQ(verdict.kind, GravityVerdict::Kind::CannotTell) << downward;
        EXPECT_FALSE(verdict.likelier.has_value());
    }
}

// Every ball of the rules can be measured: the diameters of tests/data/image/balls.csv.
TEST(FlightFacts, SpeedScalesWithTheDiameterOfTheRules) {
    const auto balls = tests::ReferenceTable::load("image/balls.csv");
    const double perDiameter =
        flightOf(idealTrack(9.80665, 1.0), kDiameter).value().speed.value.metresPerSecond /
        kDiameter.value.metres;
    int compared = 0;
    for (std::size_t row = 0; row < balls.rowCount(); ++row) {
        if (balls.text(row, "diameter_min_mm").empty()) {
            continue;  // the rule gives a circumference
        }
        const double diameter = 1e-3 * balls.number(row, "diameter_min_mm");
        const FlightFacts flight = flightOf(idealTrack(9.80665, 1.0), {{diameter}, {0.0}}).value();
        EXPECT_NEAR(flight.speed.value.metresPerSecond, perDiameter * diameter, 1e-9);
        ++compared;
    }
    EXPECT_GE(compared, 6);
}

}  // namespace
