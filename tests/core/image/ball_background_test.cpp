#include "core/image/ball_background.h"

#include <gtest/gtest.h>

#include "drawn_ball.h"

namespace {

using namespace core::image;
using tests::DrawnFlight;

/// Frames 0 to 7 show the still background alone, and nothing is noisy.
const DrawnFlight kBehind{.frames = 24, .noiseLevels = 0.0, .ballFrom = 8, .seed = 41};

/// The true track from frame `first` on.
BallTrack trueTrack(const DrawnFlight& flight, int first, int count) {
    BallTrack track;
    track.pictureWidth = flight.camera.width;
    track.pictureHeight = flight.camera.height;
    for (int frame = first; frame < first + count; ++frame) {
        BallInFrame ball;
        ball.frame = {frame};
        ball.centre = tests::trueCentre(flight, frame);
        ball.radiusPx = tests::trueRadius(flight, frame);
        ball.outline = {ball.centre, ball.radiusPx, ball.radiusPx, {0.0}};
        track.frames.push_back(ball);
        track.motion.emplace_back();
    }
    return track;
}

PixelBox boxAbout(const BallInFrame& ball) {
    const int half = static_cast<int>(1.3 * ball.radiusPx);
    return {static_cast<int>(ball.centre.x) - half, static_cast<int>(ball.centre.y) - half,
            2 * half, 2 * half};
}

TEST(BallBackground, IsWhatTheEmptyFramesShow) {
    tests::MemorySource clip = tests::draw(kBehind);
    const BallTrack track = trueTrack(kBehind, 10, 12);
    const PixelBox box = boxAbout(track.frames[5]);
    const auto behind = backgroundBehind(track, clip, 5, box);
    ASSERT_TRUE(behind.has_value()) << behind.error().message;
    ASSERT_TRUE(behind.value().has_value());
    const auto empty = clip.frame({0}).value()->rgbRegion(box.left, box.top, box.width, box.height);
    EXPECT_TRUE(std::equal(empty.bytes().begin(), empty.bytes().end(),
                           behind.value()->bytes().begin(), behind.value()->bytes().end()));
}

// 75 px a second, a ball 25 px across: in three frames it never leaves its place.
TEST(BallBackground, IsAbsentWhereTheBallNeverKeepsClear) {
    const DrawnFlight slow{
        .frames = 12, .start = {-0.02, 0.0, 1.6}, .velocity = {0.2, 0.0, 0.0}, .gravity = 0.0};
    tests::MemorySource clip = tests::draw(slow);
    const BallTrack track = trueTrack(slow, 4, 3);
    const auto behind = backgroundBehind(track, clip, 1, boxAbout(track.frames[1]));
    ASSERT_TRUE(behind.has_value());
    EXPECT_FALSE(behind.value().has_value());
}

TEST(BallBackground, PassesOnWhatTheSourceSays) {
    tests::MemorySource clip = tests::draw(kBehind);
    const BallTrack track = trueTrack(kBehind, 14, 14);  // beyond the end of the clip
    const auto behind = backgroundBehind(track, clip, 9, boxAbout(track.frames[9]));
    ASSERT_FALSE(behind.has_value());
    EXPECT_EQ(behind.error().code, core::ErrorCode::OutOfRange);
}

}  // namespace
