#include "core/reading/ball_places.h"

#include <gtest/gtest.h>

#include "core/reading/inputs_json.h"

namespace core::reading {
namespace {

constexpr double kPx = 1e-9;  // a few operations on doubles below 1e3

// Frames 0 … 4 at 0, 10, 20, 40 and 50 ms: frame 3 comes late because one before it was dropped.
timebase::ClipClock unevenClock() {
    return timebase::ClipClock::stamped({{0, 10, 20, 40, 50}, {1, 1000}}).value();
}

BallPlaces clicked(std::vector<project::BallClick> clicks) {
    return {placesOf(clicks), unevenClock()};
}

project::Shot shotWithClicks() {
    project::Shot shot;
    shot.clicks = {{{0}, 100.0, 50.0, 20.0}, {{4}, 140.0, 70.0, 24.0}};
    return shot;
}

TEST(BallPlaces, AreEmptyWithoutClicks) {
    EXPECT_TRUE(clicked({}).isEmpty());
    EXPECT_FALSE(clicked({}).at({0}));
    EXPECT_FALSE(clicked({}).covers({0}));
    EXPECT_FALSE(BallPlaces{}.at({0}));
}

TEST(BallPlaces, OneClickHoldsForEveryFrame) {
    const auto places = clicked({{{1}, 30.0, 40.0, 9.0}});
    EXPECT_EQ(places.at({4})->xPx, 30.0);
    EXPECT_EQ(places.at({4})->radiusPx, 9.0);
    EXPECT_TRUE(places.covers({1}));
    EXPECT_FALSE(places.covers({4}));
}

TEST(BallPlaces, RunStraightInCaptureTimeNotInFrames) {
    const auto places = clicked({{{4}, 200.0, 150.0, 20.0}, {{0}, 100.0, 50.0, 10.0}});
    // Frame 3 at 40 of 50 ms is four fifths of the way, not three quarters.
    EXPECT_NEAR(places.at({3})->xPx, 180.0, kPx);
    EXPECT_NEAR(places.at({3})->yPx, 130.0, kPx);
    EXPECT_NEAR(places.at({3})->radiusPx, 18.0, kPx);
}

TEST(BallPlaces, GoOnBeyondTheClicks) {
    const auto places = clicked({{{0}, 100.0, 50.0, 10.0}, {{1}, 110.0, 45.0, 10.0}});
    EXPECT_NEAR(places.at({4})->xPx, 150.0, kPx);
    EXPECT_NEAR(places.at({4})->yPx, 25.0, kPx);
    EXPECT_EQ(places.last(), timebase::FrameIndex{1});
}

TEST(BallPlaces, FarIsMoreThanThreeBallWidthsFromTheBallAtThatTime) {
    const auto places = clicked({{{0}, 100.0, 50.0, 10.0}, {{1}, 110.0, 50.0, 10.0}});
    EXPECT_FALSE(places.isFarFrom({4}, 150.0, 109.0));  // at (150, 50) then, 60 px are three widths
    EXPECT_TRUE(places.isFarFrom({4}, 150.0, 111.0));
    EXPECT_TRUE(places.isFarFrom({0}, 161.0, 50.0));
    EXPECT_FALSE(clicked({{{0}, 100.0, 50.0, 10.0}}).isFarFrom({4}, 900.0, 50.0))
        << "the second click shows where it flies";
    EXPECT_FALSE(BallPlaces{}.isFarFrom({0}, 0.0, 0.0));
}

TEST(BallPlaces, ARadiusNeverVanishes) {
    EXPECT_GT(clicked({{{0}, 0.0, 0.0, 20.0}, {{1}, 1.0, 1.0, 10.0}}).at({4})->radiusPx, 0.0);
}

TEST(BallPlaces, PassThroughEveryClickAndLeaveOutThoseOfOtherFrames) {
    const auto places = clicked({{{0}, 0.0, 0.0, 5.0},
                                 {{2}, 10.0, 30.0, 6.0},
                                 {{4}, 50.0, 10.0, 7.0},
                                 {{5}, 900.0, 900.0, 5.0}});
    EXPECT_EQ(places.count(), 3U);
    EXPECT_NEAR(places.at({2})->yPx, 30.0, kPx);
    EXPECT_NEAR(places.at({4})->xPx, 50.0, kPx);
    EXPECT_NEAR(places.at({1})->xPx, 5.0, kPx);
}

TEST(BallPlaces, AClickLaidOverATrackHolds) {
    const auto track = clicked({{{0}, 0.0, 0.0, 5.0}, {{1}, 10.0, 0.0, 5.0}});
    const std::vector<project::BallClick> correction{{{1}, 12.0, 1.0, 5.0}};
    EXPECT_NEAR(track.with(placesOf(correction)).at({1})->xPx, 12.0, kPx);
    EXPECT_NEAR(track.at({1})->xPx, 10.0, kPx);
}

TEST(BallPlaces, TheTrackOfAFitGoesBeforeClicks) {
    KeptFit kept;
    kept.track.resize(1);
    kept.track[0].frame = {2};
    kept.track[0].centre = {7.5, 8.5};
    project::Reading reading;
    reading.method = project::ReadingMethod::RotationFit;
    reading.inputsJson = toJson(kept);
    const auto places = ballPlacesOf({}, shotWithClicks(), &reading, unevenClock());
    ASSERT_FALSE(places.isEmpty());
    EXPECT_EQ(places.first(), timebase::FrameIndex{2});
    EXPECT_EQ(places.at({2})->xPx, 7.5);
}

TEST(BallPlaces, AnUnreadableTrackLeavesTheClicks) {
    project::Reading reading;
    reading.method = project::ReadingMethod::RotationFit;
    reading.inputsJson = R"({"track": [{"frame": "x"}, 3]})";
    EXPECT_EQ(ballPlacesOf({}, shotWithClicks(), &reading, unevenClock()).last(),
              timebase::FrameIndex{4});
    EXPECT_TRUE(ballPlacesOf({}, {}, nullptr, unevenClock()).isEmpty());
}

}  // namespace
}  // namespace core::reading
