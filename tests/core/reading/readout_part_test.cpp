#include "core/reading/readout_part.h"

#include <gtest/gtest.h>

namespace tests::reading {
namespace {

using core::Seconds;
using core::image::BallTrack;
using core::reading::readoutPart;
using core::reading::ReadoutSource;

constexpr double kFrame = 1.0 / 120.0;
constexpr double kTol = 1e-9;  // relative; sums of eight numbers

/// A ball that falls by 72 px a frame in a picture of 720: 12 heights of the picture a second.
BallTrack fallingBall() {
    BallTrack track;
    track.pictureWidth = 1280;
    track.pictureHeight = 720;
    track.longestReadout = {kFrame};
    for (int k = 0; k < 8; ++k) {
        core::image::BallInFrame ball;
        ball.frame = {k};
        ball.time = {kFrame * k};
        ball.centre = {640.0, 100.0 + 72.0 * k};
        track.frames.push_back(ball);
    }
    return track;
}

// By hand: of 1 ms more of readout each frame of a ball that falls by a tenth of the picture shows
// it 0.1 ms later than the one before, so the time between frames is 1.2 % longer and the rate
// lower.
TEST(ReadoutPart, AFallingBallTurnsSlowerThanItsFramesSay) {
    const BallTrack track = fallingBall();
    const auto part = readoutPart(track, {});
    EXPECT_NEAR(part.relativePerSecond, -12.0, 12.0 * kTol);
    EXPECT_NEAR(rateFactor(track, part, {0.001}), 1.0 / 1.012, kTol);
    EXPECT_NEAR(rateFactor(track, part, {0.0}), 1.0, kTol);
}

TEST(ReadoutPart, SaysWhereTheReadoutComesFrom) {
    BallTrack track = fallingBall();
    EXPECT_EQ(readoutPart(track, {}).source, ReadoutSource::Unknown);
    track.readoutSeen = core::image::ReadoutEstimate{{0.004}, {0.0003}, {0.0}};
    const auto seen = readoutPart(track, {});
    EXPECT_EQ(seen.source, ReadoutSource::Outlines);
    EXPECT_NEAR(seen.relativeSigma(), -12.0 * 0.0003, 1e-5);
    core::reading::FilmingFacts facts;
    facts.readout = Seconds{0.006};
    const auto stated = readoutPart(track, facts);
    EXPECT_EQ(stated.source, ReadoutSource::Stated);
    EXPECT_EQ(stated.readout.mean, Seconds{0.006});
    EXPECT_EQ(stated.relativeSigma(), 0.0);
}

}  // namespace
}  // namespace tests::reading
