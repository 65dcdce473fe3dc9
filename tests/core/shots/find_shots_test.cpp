#include "core/shots/find_shots.h"

#include <gtest/gtest.h>

#include <cmath>

#include "../image/drawn_ball.h"
#include "../image/painting.h"

namespace {

using namespace core::shots;
using core::timebase::ClipClock;
using core::timebase::FrameStamps;
using core::timebase::Rational;

constexpr int kTake = 45;  // frames of one drawn take; the ball appears in its 12th
constexpr int kBallFrom = 12;
constexpr int kFps = 120;
constexpr std::int64_t kStrikeTol = 1;  // frames

tests::DrawnFlight take(double speed, double rise) {
    return {.camera = {400, 224, 400.0},
            .frames = kTake,
            .start = {-0.75 - 0.1 * speed, -0.1, 1.5},
            .velocity = {speed, rise, 0.3},
            .ballFrom = kBallFrom};
}

tests::MemorySource session(const std::vector<tests::DrawnFlight>& takes, bool withFigure) {
    tests::MemorySource clip;
    int frame = 0;
    for (const auto& one : takes) {
        tests::MemorySource part = tests::draw(one);
        for (int i = 0; i < kTake; ++i, ++frame) {
            core::PixelBuffer picture = part.frame({i}).value()->rgb();
            if (withFigure) {
                tests::paintFigure(picture, 20 + frame * 3 / 2, 80, frame);
            }
            clip.add(std::move(picture));
        }
    }
    return clip;
}

FrameStamps stampsOf(const tests::MemorySource& clip) {
    FrameStamps stamps{{}, Rational(1, kFps)};
    for (std::int64_t i = 0; i < clip.frameCount(); ++i) {
        stamps.ticks.push_back(i);
    }
    return stamps;
}

core::Result<std::vector<FoundShot>> find(tests::MemorySource& clip,
                                          const std::optional<core::media::SoundEnvelope>& sound) {
    const FrameStamps stamps = stampsOf(clip);
    return findShots(clip, ClipClock::stamped(stamps).value(), stamps, sound);
}

core::media::SoundEnvelope soundWith(double seconds, const std::vector<double>& blows,
                                     float peak = 0.3F) {
    core::media::SoundEnvelope sound{
        {0.0}, std::vector<float>(static_cast<std::size_t>(seconds * 1000.0), 0.01F)};
    for (const double blow : blows) {
        const auto at = static_cast<std::size_t>(std::lround(blow * 1000.0));
        for (std::size_t k = at; k < std::min(at + 40, sound.level.size()); ++k) {
            sound.level[k] += peak * std::pow(0.5F, static_cast<float>(k - at) / 8.0F);
        }
    }
    return sound;
}

void expectStrikes(const std::vector<FoundShot>& shots, const std::vector<std::int64_t>& strikes) {
    ASSERT_EQ(shots.size(), strikes.size());
    for (std::size_t k = 0; k < shots.size(); ++k) {
        EXPECT_NEAR(static_cast<double>(shots[k].strike.value), static_cast<double>(strikes[k]),
                    static_cast<double>(kStrikeTol));
        EXPECT_LE(shots[k].searchRange.first, shots[k].flight.first);
        EXPECT_GE(shots[k].searchRange.last, shots[k].flight.last);
    }
}

TEST(FindShots, FindsTheOneFlightOfAClipWithoutSound) {
    auto clip = session({take(6.0, -0.8)}, false);
    const auto shots = find(clip, std::nullopt);
    ASSERT_TRUE(shots.has_value()) << shots.error().message;
    expectStrikes(shots.value(), {kBallFrom});
    EXPECT_FALSE(shots.value()[0].isHeard);
}

TEST(FindShots, RejectsAWalkingFigure) {
    auto clip = session({take(6.0, -0.8), take(7.0, -0.5)}, true);
    const auto shots = find(clip, std::nullopt);
    ASSERT_TRUE(shots.has_value()) << shots.error().message;
    expectStrikes(shots.value(), {kBallFrom, kTake + kBallFrom});
}

TEST(FindShots, RejectsSoundsWithoutAFlight) {
    tests::DrawnFlight empty = take(6.0, -0.8);
    empty.ballFrom = 1000;
    auto clip = session({take(6.0, -0.8), empty, take(7.0, -0.5)}, false);
    const double second = static_cast<double>(kTake + kBallFrom) / kFps;  // a clap
    const double third = static_cast<double>(2 * kTake + kBallFrom) / kFps;
    const auto shots = find(clip, soundWith(1.12, {0.1, second, third}));
    ASSERT_TRUE(shots.has_value()) << shots.error().message;
    expectStrikes(shots.value(), {kBallFrom, 2 * kTake + kBallFrom});
    EXPECT_TRUE(shots.value()[0].isHeard);
    EXPECT_TRUE(shots.value()[1].isHeard);
}

TEST(FindShots, IsSurerOfAStrikeThatIsHeard) {
    auto clip = session({take(6.0, -0.8)}, false);
    const double silent = find(clip, std::nullopt).value().at(0).confidence;
    const double heard = find(clip, soundWith(0.37, {0.1})).value().at(0).confidence;
    EXPECT_GT(heard, silent);
}

// Something falls 40 ms before the strike: the strike is no echo of it.
TEST(FindShots, HearsTheStrikeInTheTailOfAnotherSound) {
    auto clip = session({take(6.0, -0.8)}, false);
    const double strike = static_cast<double>(kBallFrom) / kFps;
    auto sound = soundWith(0.37, {strike - 0.04}, 0.2F);
    const auto blow = soundWith(0.37, {strike});
    for (std::size_t k = 0; k < sound.level.size(); ++k) {
        sound.level[k] += blow.level[k];
    }
    const auto shots = find(clip, sound);
    ASSERT_TRUE(shots.has_value()) << shots.error().message;
    expectStrikes(shots.value(), {kBallFrom});
    EXPECT_TRUE(shots.value()[0].isHeard);
}

/// 120 frames of a disc of 24 px that comes in with frame 8, falls by 4 px a frame, bounces in
/// frame 30 and is in view until the end, longer than any window that is searched at once.
tests::MemorySource bounceThatStaysInView() {
    constexpr int kFrames = 120;
    constexpr int kFirst = 8;
    constexpr int kBounce = 30;
    tests::MemorySource ground =
        tests::draw({.camera = {640, 224, 600.0}, .frames = kFrames, .ballFrom = 1000});
    tests::MemorySource clip;
    for (int frame = 0; frame < kFrames; ++frame) {
        core::PixelBuffer picture = ground.frame({frame}).value()->rgb();
        const double after = frame - kBounce;
        const double y = after < 0.0 ? 150.0 + 4.0 * after : 150.0 + after * (0.05 * after - 4.0);
        if (frame >= kFirst) {
            tests::paintDisc(picture, {20.0 + 5.2 * (frame - kFirst), y}, 12.0, {220, 220, 210});
        }
        clip.add(std::move(picture));
    }
    return clip;
}

TEST(FindShots, AFlightThatIsInViewLongAfterABounceIsNoShotOfItsOwn) {
    auto clip = bounceThatStaysInView();
    const auto shots = find(clip, std::nullopt);
    ASSERT_TRUE(shots.has_value()) << shots.error().message;
    ASSERT_EQ(shots.value().size(), 2U);
    const auto& shot = shots.value()[0];
    const auto& after = shots.value()[1];
    EXPECT_FALSE(shot.isAfterKink);
    EXPECT_NEAR(static_cast<double>(shot.flight.first.value), 8.0, kStrikeTol);
    EXPECT_LE(shot.flight.last.value, 30);
    EXPECT_TRUE(after.isAfterKink);
    EXPECT_NEAR(static_cast<double>(after.flight.first.value), 30.0, kStrikeTol);
    EXPECT_NEAR(static_cast<double>(after.flight.last.value), 119.0, 3.0);
}

TEST(FindShots, FindsNothingWhereNothingFlies) {
    tests::DrawnFlight empty = take(6.0, -0.8);
    empty.ballFrom = 1000;
    auto clip = session({empty}, true);
    const auto shots = find(clip, std::nullopt);
    ASSERT_TRUE(shots.has_value()) << shots.error().message;
    EXPECT_TRUE(shots.value().empty());
}

TEST(FindShots, NeedsAStampForEachFrame) {
    auto clip = session({take(6.0, -0.8)}, false);
    FrameStamps stamps = stampsOf(clip);
    const auto clock = ClipClock::stamped(stamps).value();
    stamps.ticks.pop_back();
    const auto shots = findShots(clip, clock, stamps, std::nullopt);
    ASSERT_FALSE(shots.has_value());
    EXPECT_EQ(shots.error().code, core::ErrorCode::InvalidInput);
}

TEST(FindShots, StopsWhenAsked) {
    auto clip = session({take(6.0, -0.8)}, false);
    const FrameStamps stamps = stampsOf(clip);
    std::stop_source stop;
    stop.request_stop();
    const auto shots =
        findShots(clip, ClipClock::stamped(stamps).value(), stamps, std::nullopt, stop.get_token());
    ASSERT_FALSE(shots.has_value());
    EXPECT_EQ(shots.error().code, core::ErrorCode::Cancelled);
}

}  // namespace
