#include "core/project/ball_place.h"

#include <gtest/gtest.h>

namespace core::project {
namespace {

core::project::Shot shotWithClicks() {
    core::project::Shot shot;
    shot.clicks = {{{10}, 100.0, 50.0, 20.0}, {{14}, 140.0, 70.0, 24.0}};
    return shot;
}

TEST(BallPlaces, BetweenClicksTheBallIsOnAStraightLine) {
    const BallPlaces places{shotWithClicks(), nullptr};
    const auto middle = places.at(11);  // a quarter of the way
    ASSERT_TRUE(middle.has_value());
    EXPECT_DOUBLE_EQ(middle->xPx, 110.0);
    EXPECT_DOUBLE_EQ(middle->yPx, 55.0);
    EXPECT_DOUBLE_EQ(middle->radiusPx, 21.0);
    EXPECT_FALSE(places.at(9).has_value());
    EXPECT_FALSE(places.at(15).has_value());
}

// The track as FORMAT.md, R22, describes it.
TEST(BallPlaces, TrackOfAFitGoesBeforeClicks) {
    project::Reading reading;
    reading.method = project::ReadingMethod::RotationFit;
    reading.inputsJson = R"({"track": [{"frame": 12, "centre_px": [7.5, 8.5], "radius_px": 9.0}]})";
    const BallPlaces places{shotWithClicks(), &reading};
    ASSERT_FALSE(places.isEmpty());
    EXPECT_EQ(places.first(), 12);
    EXPECT_DOUBLE_EQ(places.at(12)->xPx, 7.5);
}

TEST(BallPlaces, UnreadableTrackLeavesTheClicks) {
    project::Reading reading;
    reading.method = project::ReadingMethod::RotationFit;
    reading.inputsJson = R"({"track": [{"frame": "x"}, 3]})";
    EXPECT_EQ((BallPlaces{shotWithClicks(), &reading}.first()), 10);
    EXPECT_TRUE((BallPlaces{core::project::Shot{}, nullptr}.isEmpty()));
}

}  // namespace
}  // namespace core::project
