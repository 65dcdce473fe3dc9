// Drawn scenes in which something besides the struck ball asks for attention.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "core/image/flight_facts.h"
#include "core/image/track_ball.h"
#include "drawn_ball.h"
#include "painting.h"

namespace {

using namespace core::image;
using core::ErrorCode;
using core::timebase::CaptureRate;
using core::timebase::ClipClock;
using core::timebase::Rational;
using tests::DrawnFlight;

constexpr double kCentreRmsPx = 0.3;  // what the rotation fit wants
constexpr double kRadiusTol = 0.01;   // relative
constexpr double kHardSigmas = 2.0;   // errors of one path go together

core::Result<BallTrack> follow(tests::MemorySource clip, const DrawnFlight& flight) {
    const auto clock =
        ClipClock::counted(flight.frames, CaptureRate{Rational(std::lround(flight.captureFps))})
            .value();
    return trackBall(clip, clock, {{0}, {flight.frames - 1}}, {});
}

bool isWhole(const DrawnFlight& flight, int frame) {
    const PointPx at = tests::trueCentre(flight, frame);
    const double reach = 1.3 * tests::trueRadius(flight, frame) + 8.0;
    return frame >= flight.ballFrom && at.x > reach && at.x < flight.camera.width - reach &&
           at.y > reach && at.y < flight.camera.height - reach;
}

void expectOnTheBall(const core::Result<BallTrack>& track, const DrawnFlight& flight) {
    ASSERT_TRUE(track.has_value()) << track.error().message;
    double square = 0.0;
    double sigmas = 0.0;
    int whole = 0;
    for (int frame = 0; frame < flight.frames; ++frame) {
        if (!isWhole(flight, frame)) {
            continue;
        }
        const BallInFrame* ball = track.value().find({frame});
        ASSERT_NE(ball, nullptr) << frame;
        EXPECT_EQ(ball->source, BallSource::Measured) << frame;
        const PointPx truth = tests::trueCentre(flight, frame);
        const double dx = ball->centre.x - truth.x;
        const double dy = ball->centre.y - truth.y;
        square += dx * dx + dy * dy;
        sigmas +=
            0.5 * (std::pow(dx / ball->centreSigma.x, 2) + std::pow(dy / ball->centreSigma.y, 2));
        EXPECT_NEAR(ball->radiusPx / tests::trueRadius(flight, frame), 1.0, kRadiusTol) << frame;
        ++whole;
    }
    ASSERT_GE(whole, 3);
    EXPECT_LT(std::sqrt(square / whole), kCentreRmsPx);
    EXPECT_LT(std::sqrt(sigmas / whole), kHardSigmas);
}

void expectNotFound(const core::Result<BallTrack>& track) {
    ASSERT_FALSE(track.has_value());
    EXPECT_EQ(track.error().code, ErrorCode::NotFound);
    EXPECT_FALSE(track.error().message.empty());
}

// The ball flies at a height of about 140 px; what is painted stays below 200 px.
TEST(HardScene, AFigureThatWalksByIsNotTheBall) {
    const DrawnFlight flight{.frames = 30, .seed = 31};
    expectOnTheBall(follow(tests::painted(tests::draw(flight),
                                          [](auto& picture, int frame) {
                                              tests::paintFigure(picture, 260 + 2 * frame, 210,
                                                                 frame);
                                          }),
                           flight),
                    flight);
}

TEST(HardScene, ABallThatLiesStillIsNotTheStruckOne) {
    const DrawnFlight flight{.frames = 30, .seed = 32};
    expectOnTheBall(
        follow(tests::painted(tests::draw(flight),
                              [](auto& picture, int) {
                                  tests::paintDisc(picture, {300.0, 280.0}, 14.0, {220, 220, 210});
                              }),
               flight),
        flight);
}

// Seen in more frames than the struck ball, but slower.
TEST(HardScene, ABallThatRollsByIsNotTheStruckOne) {
    const DrawnFlight struck{.frames = 45, .start = {-1.8, -0.1, 1.6}, .ballFrom = 12, .seed = 33};
    expectOnTheBall(
        follow(
            tests::painted(
                tests::draw(struck),
                [](auto& picture, int frame) {
                    tests::paintDisc(picture, {60.0 + 7.0 * frame, 300.0}, 14.0, {220, 220, 210});
                }),
            struck),
        struck);
}

TEST(HardScene, TheShadowOnTheGroundIsNotTheBall) {
    const DrawnFlight flight{.frames = 30, .groundLight = 0.25, .seed = 34};
    expectOnTheBall(
        follow(tests::painted(tests::draw(flight),
                              [&flight](auto& picture, int frame) {
                                  const PointPx ball = tests::trueCentre(flight, frame);
                                  tests::paintShadow(picture, {ball.x + 30.0, 290.0}, 26.0, 0.5);
                              }),
               flight),
        flight);
}

// 3375 px/s and 7 ms: 24 px, the ball's width, so that the ground shows through all of it for a
// part of the exposure.
TEST(HardScene, ABallThatMovesByItsWidthDuringTheExposureIsNoShadow) {
    const DrawnFlight flight{.frames = 30,
                             .exposureSeconds = 0.007,
                             .ballLight = 0.2,
                             .markLight = 0.1,
                             .groundLight = 0.35,
                             .groundTexture = 0.5,
                             .seed = 37};
    const auto track = follow(tests::draw(flight), flight);
    ASSERT_TRUE(track.has_value()) << track.error().message;
    EXPECT_NEAR(track.value().exposure.value.seconds, 0.007, 0.0007);
}

TEST(HardScene, AFlightOfFiveFramesIsEnough) {
    // 40 m/s at 1.6 m and 600 px: 125 px a frame across 640 px.
    const DrawnFlight flight{.frames = 26,
                             .exposureSeconds = 0.0005,
                             .start = {-4.8, -0.1, 1.6},
                             .velocity = {40.0, -1.0, 0.0},
                             .ballFrom = 12,
                             .seed = 35};
    expectOnTheBall(follow(tests::draw(flight), flight), flight);
}

TEST(HardScene, ABallOfTwoHundredPixelsIsFollowed) {
    // 1280 px wide: 2 x 1000 x 0.0335 / 0.335 = 200 px across.
    const DrawnFlight flight{.camera = {1280, 720, 1000.0},
                             .frames = 26,
                             .start = {-0.34, 0.0, 0.335},
                             .velocity = {4.0, -0.4, 0.02},
                             .seed = 36};
    expectOnTheBall(follow(tests::draw(flight), flight), flight);
}

TEST(HardScene, AFigureAloneIsNoBall) {
    const DrawnFlight empty{.frames = 40, .ballFrom = 1000, .seed = 37};
    expectNotFound(follow(tests::painted(tests::draw(empty),
                                         [](auto& picture, int frame) {
                                             tests::paintFigure(picture, 200 + 3 * frame, 180,
                                                                frame);
                                         }),
                          empty));
}

TEST(HardScene, ABallThatOnlyLiesThereIsNoFlight) {
    const DrawnFlight empty{.frames = 30, .ballFrom = 1000, .seed = 38};
    expectNotFound(
        follow(tests::painted(tests::draw(empty),
                              [](auto& picture, int) {
                                  tests::paintDisc(picture, {300.0, 200.0}, 14.0, {220, 220, 210});
                              }),
               empty));
}

// Standard gravity: 3rd CGPM, 1901. The focal length is known here; a guessed one would scale the
// fall with it only where the ball comes nearer or goes away.
TEST(HardScene, ADrawnBallFallsWithStandardGravity) {
    const DrawnFlight flight{.frames = 30, .velocity = {6.0, -1.5, 0.2}, .seed = 39};
    tests::MemorySource clip = tests::draw(flight);
    const auto clock = ClipClock::counted(flight.frames, CaptureRate{Rational(120)}).value();
    const auto track = trackBall(clip, clock, {{0}, {flight.frames - 1}},
                                 {.focalPx = flight.camera.focalPx, .readout = {}});
    ASSERT_TRUE(track.has_value()) << track.error().message;
    const auto ball = flightOf(track.value(), {{2.0 * flight.radiusMetres}, {0.0}});
    ASSERT_TRUE(ball.has_value()) << ball.error().message;
    const auto fall = ball.value().downwardAcceleration;
    constexpr double kGravity = 9.80665;
    constexpr double kFallTol = 0.05;  // relative; a tenth of a pixel over a fifth of a second
    EXPECT_NEAR(fall.value.metresPerSecondSquared, kGravity, kFallTol * kGravity);
    EXPECT_NEAR(fall.value.metresPerSecondSquared, kGravity,
                3.0 * fall.sigma.metresPerSecondSquared);
    const double speed = std::hypot(6.0, 1.5, 0.2);
    EXPECT_NEAR(ball.value().speed.value.metresPerSecond, speed, 0.01 * speed);
}

}  // namespace
