#include "core/image/track_ball.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "drawn_ball.h"

namespace {

using namespace core::image;
using core::ErrorCode;
using core::timebase::CaptureRate;
using core::timebase::ClipClock;
using core::timebase::Rational;
using tests::DrawnFlight;

constexpr double kCentreTolPx = 0.15;  // median; a tenth of a pixel is what single frames scatter
constexpr double kDrawnRadiusTol = 0.01;  // relative

ClipClock clockOf(const DrawnFlight& flight) {
    return ClipClock::counted(flight.frames, CaptureRate{Rational(std::lround(flight.captureFps))})
        .value();
}

core::Result<BallTrack> followDrawn(const DrawnFlight& flight, const TrackOptions& options = {}) {
    tests::MemorySource clip = tests::draw(flight);
    return trackBall(clip, clockOf(flight), {{0}, {flight.frames - 1}}, options);
}

struct DrawnErrors {
    double medianPx{};
    double worstRadius{};  ///< relative
    std::size_t whole{};   ///< measured frames that are not cut by the border
};

DrawnErrors drawnErrorsOf(const BallTrack& track, const DrawnFlight& flight) {
    DrawnErrors errors;
    std::vector<double> centres;
    for (const BallInFrame& ball : track.frames) {
        const int frame = static_cast<int>(ball.frame.value);
        const PointPx truth = tests::trueCentre(flight, frame);
        if (ball.source == BallSource::Measured && !ball.isPartial) {
            centres.push_back(std::hypot(ball.centre.x - truth.x, ball.centre.y - truth.y));
            errors.worstRadius =
                std::max(errors.worstRadius,
                         std::abs(ball.radiusPx / tests::trueRadius(flight, frame) - 1.0));
        }
    }
    errors.whole = centres.size();
    if (!centres.empty()) {
        std::sort(centres.begin(), centres.end());
        errors.medianPx = centres[centres.size() / 2];
    }
    return errors;
}

void expectFollowed(const DrawnFlight& flight, std::size_t wholeFrames) {
    const auto track = followDrawn(flight, {.focalPx = flight.camera.focalPx, .readout = {}});
    ASSERT_TRUE(track.has_value()) << track.error().message;
    const DrawnErrors errors = drawnErrorsOf(track.value(), flight);
    EXPECT_GE(errors.whole, wholeFrames);
    EXPECT_LT(errors.medianPx, kCentreTolPx);
    EXPECT_LT(errors.worstRadius, kDrawnRadiusTol);
}

// The ball crosses 640 px at 28 px a frame: about 20 frames show it whole.
TEST(TrackBall, FollowsALightBallOnADarkGround) {
    expectFollowed({}, 16);
}

TEST(TrackBall, FollowsADarkBallOnALightGround) {
    expectFollowed({.ballLight = 0.06, .markLight = 0.03, .groundLight = 0.55, .seed = 2}, 16);
}

TEST(TrackBall, FollowsABallOfTwentyPixels) {
    expectFollowed({.start = {-1.0, -0.1, 2.0}, .seed = 3}, 16);
}

TEST(TrackBall, FollowsABallOfAHundredAndTwentyPixels) {
    expectFollowed({.start = {-0.24, -0.05, 0.36}, .velocity = {4.0, -0.3, 0.1}, .seed = 4}, 8);
}

TEST(TrackBall, FollowsThroughASwayingCamera) {
    DrawnFlight flight{.shakePx = 3.0, .seed = 5};
    const auto track = followDrawn(flight, {.focalPx = flight.camera.focalPx, .readout = {}});
    ASSERT_TRUE(track.has_value()) << track.error().message;
    const DrawnErrors errors = drawnErrorsOf(track.value(), flight);
    EXPECT_GE(errors.whole, 16U);
    constexpr double kSwayTolPx = 0.3;  // registration adds about a tenth of a pixel
    EXPECT_LT(errors.medianPx, kSwayTolPx);
    EXPECT_FALSE(track.value().motion.front() == FrameMotion{});
}

TEST(TrackBall, KnowsThatAFixedCameraIsFixed) {
    const auto track = followDrawn({});
    ASSERT_TRUE(track.has_value()) << track.error().message;
    for (const FrameMotion& motion : track.value().motion) {
        EXPECT_EQ(motion, FrameMotion{});
    }
}

// Nothing but the ball has edges before a plain wall; an alignment would follow it.
TEST(TrackBall, KnowsThatACameraBeforeAPlainWallIsFixed) {
    for (const std::uint32_t seed : {21U, 22U, 23U}) {
        DrawnFlight flight{.groundTexture = 0.0, .noiseLevels = 11.0, .seed = seed};
        const auto track = followDrawn(flight, {.focalPx = flight.camera.focalPx, .readout = {}});
        ASSERT_TRUE(track.has_value()) << track.error().message;
        EXPECT_LT(drawnErrorsOf(track.value(), flight).medianPx, kCentreTolPx);
        for (const FrameMotion& motion : track.value().motion) {
            EXPECT_EQ(motion, FrameMotion{});
        }
    }
}

// While the rows down to the ball are read, it flies on by several times its radius.
TEST(TrackBall, FollowsUnderARollingShutter) {
    DrawnFlight flight{.start = {-1.3, 0.45, 1.6},
                       .velocity = {26.0, -1.0, 0.5},
                       .groundTexture = 0.0,
                       .readoutSeconds = 0.007,
                       .seed = 6};
    const auto track = followDrawn(flight, {.focalPx = flight.camera.focalPx,
                                            .readout = core::Seconds{flight.readoutSeconds}});
    ASSERT_TRUE(track.has_value()) << track.error().message;
    const DrawnErrors errors = drawnErrorsOf(track.value(), flight);
    EXPECT_GE(errors.whole, 6U);
    EXPECT_LT(errors.medianPx, kCentreTolPx);
    EXPECT_LT(errors.worstRadius, kDrawnRadiusTol);
}

TEST(TrackBall, FlagsTheBallThatIsCutByTheBorder) {
    const DrawnFlight flight;
    const auto track = followDrawn(flight);
    ASSERT_TRUE(track.has_value()) << track.error().message;
    for (const BallInFrame& ball : track.value().frames) {
        const int frame = static_cast<int>(ball.frame.value);
        const double x = tests::trueCentre(flight, frame).x;
        const double reach = 1.3 * tests::trueRadius(flight, frame) + 6.0;  // clearly inside
        if (x > reach && x < flight.camera.width - reach) {
            EXPECT_FALSE(ball.isPartial) << frame;
        }
        if (x < 0.7 * reach - 6.0 || x > flight.camera.width - 0.5 * reach) {
            EXPECT_TRUE(ball.isPartial) << frame;
        }
    }
}

TEST(TrackBall, FindsTheExposureFromTheSmear) {
    const auto track = followDrawn({.exposureSeconds = 0.002});
    ASSERT_TRUE(track.has_value()) << track.error().message;
    constexpr double kExposureTol = 0.1;  // relative; edges are softened by the pixels too
    EXPECT_NEAR(track.value().exposure.value.seconds, 0.002, 0.002 * kExposureTol);
}

double meanSigmaPx(const BallTrack& track) {
    double sum = 0.0;
    for (const BallInFrame& ball : track.frames) {
        sum += 0.5 * (ball.centreSigma.x + ball.centreSigma.y);
    }
    return sum / static_cast<double>(track.frames.size());
}

// The drawn ball has neither gloss nor compression, for which the uncertainty allows: its errors
// stay well inside. clip_track_test.cpp holds the uncertainty against pictures that have both.
TEST(TrackBall, UncertaintiesHoldTheErrors) {
    double square = 0.0;
    int count = 0;
    for (std::uint32_t seed = 20; seed < 24; ++seed) {
        const DrawnFlight flight{.noiseLevels = 3.0, .seed = seed};
        const auto track = followDrawn(flight, {.focalPx = flight.camera.focalPx, .readout = {}});
        ASSERT_TRUE(track.has_value()) << track.error().message;
        for (const BallInFrame& ball : track.value().frames) {
            const PointPx truth = tests::trueCentre(flight, static_cast<int>(ball.frame.value));
            if (!ball.isPartial) {
                square += std::pow((ball.centre.x - truth.x) / ball.centreSigma.x, 2) +
                          std::pow((ball.centre.y - truth.y) / ball.centreSigma.y, 2);
                count += 2;
            }
        }
    }
    EXPECT_LT(std::sqrt(square / count), 1.0);
}

// A bright ball is found to a hundredth of a pixel however much noise a camera makes; a faint one,
// a few levels above its background, is not.
TEST(TrackBall, UncertaintyIsLargerForAFaintBallInNoise) {
    const auto clear = followDrawn({.noiseLevels = 1.0});
    const auto faint =
        followDrawn({.ballLight = 0.3, .markLight = 0.2, .groundLight = 0.08, .noiseLevels = 15.0});
    ASSERT_TRUE(clear.has_value()) << clear.error().message;
    ASSERT_TRUE(faint.has_value()) << faint.error().message;
    EXPECT_GT(meanSigmaPx(faint.value()), meanSigmaPx(clear.value()));
}

TEST(TrackBall, SaysWhenNothingFlies) {
    const auto track = followDrawn({.ballFrom = 1000});
    ASSERT_FALSE(track.has_value());
    EXPECT_EQ(track.error().code, ErrorCode::NotFound);
}

TEST(TrackBall, RefusesARangeOutsideTheClip) {
    DrawnFlight flight{.frames = 8};
    tests::MemorySource clip = tests::draw(flight);
    const auto outside = trackBall(clip, clockOf(flight), {{0}, {8}}, {});
    ASSERT_FALSE(outside.has_value());
    EXPECT_EQ(outside.error().code, ErrorCode::OutOfRange);
    const auto tooFew = trackBall(clip, clockOf(flight), {{0}, {3}}, {});
    ASSERT_FALSE(tooFew.has_value());
    EXPECT_EQ(tooFew.error().code, ErrorCode::OutOfRange);
}

TEST(TrackBall, StopsWhenAsked) {
    DrawnFlight flight{.frames = 8};
    tests::MemorySource clip = tests::draw(flight);
    std::stop_source stop;
    stop.request_stop();
    const auto track = trackBall(clip, clockOf(flight), {{0}, {7}}, {}, stop.get_token());
    ASSERT_FALSE(track.has_value());
    EXPECT_EQ(track.error().code, ErrorCode::Cancelled);
}

class Clicks : public testing::Test {
protected:
    core::Result<BallTrack> lead(const std::vector<BallHint>& clicks) {
        return trackFromClicks(m_clip, clockOf(m_flight), {{0}, {m_flight.frames - 1}}, clicks, {});
    }
    [[nodiscard]] BallHint near(int frame, double dx, double dy) const {
        const PointPx at = tests::trueCentre(m_flight, frame);
        return {{frame}, {at.x + dx, at.y + dy}, std::nullopt};
    }
    DrawnFlight m_flight{};
    tests::MemorySource m_clip = tests::draw(m_flight);
};

TEST_F(Clicks, RoughOnesLeadToTheSameFit) {
    const auto track = lead({near(6, 1.5, -1.0), near(15, -1.0, 1.5)});
    ASSERT_TRUE(track.has_value()) << track.error().message;
    const DrawnErrors errors = drawnErrorsOf(track.value(), m_flight);
    EXPECT_GE(errors.whole, 14U);
    constexpr double kLedTolPx = 0.3;  // the hand pulls a little
    EXPECT_LT(errors.medianPx, kLedTolPx);
}

TEST_F(Clicks, OneIsEnoughWhenSomethingFliesThere) {
    const auto track = lead({near(10, 1.0, 1.0)});
    ASSERT_TRUE(track.has_value()) << track.error().message;
    EXPECT_GE(drawnErrorsOf(track.value(), m_flight).whole, 14U);
}

TEST_F(Clicks, AwayFromAnyFlightAreJoinedByStraightLines) {
    const auto track = lead({{{4}, {100.0, 320.0}, 20.0}, {{8}, {140.0, 330.0}, 20.0}});
    ASSERT_TRUE(track.has_value()) << track.error().message;
    ASSERT_EQ(track.value().frames.size(), 5U);
    const BallInFrame& between = track.value().frames[2];  // half-way
    EXPECT_EQ(between.source, BallSource::Clicked);
    EXPECT_NEAR(between.centre.x, 120.0, 1e-9);
    EXPECT_NEAR(between.centre.y, 325.0, 1e-9);
    EXPECT_NEAR(between.radiusPx, 20.0, 1e-9);
}

TEST_F(Clicks, MustBeInTheRangeAndOnePerFrame) {
    for (const auto& clicks : std::vector<std::vector<BallHint>>{
             {}, {near(3, 0, 0), near(3, 1, 1)}, {{{99}, {10.0, 10.0}, std::nullopt}}}) {
        const auto track = lead(clicks);
        ASSERT_FALSE(track.has_value());
        EXPECT_EQ(track.error().code, ErrorCode::InvalidInput);
    }
}

}  // namespace
