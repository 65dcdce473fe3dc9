#include "ui/reading/shot/shot_view.h"

#include <gtest/gtest.h>

namespace ui::reading {
namespace {

// Frames 0 to 4, ten milliseconds apart; the ball comes in from the left, half of it in frame 2.
ShotView viewOfABallThatComesIn() {
    using core::reading::KnownPlace;
    ShotView view;
    view.clip.width = 200;
    view.clip.height = 100;
    view.shot.firstFrame = {0};
    view.shot.lastFrame = {4};
    view.shot.strikeFrame = {{1}};
    const std::vector<KnownPlace> known{{{0}, {-80.0, 50.0, 10.0}}, {{4}, {80.0, 50.0, 10.0}}};
    view.path = {known,
                 core::timebase::ClipClock::stamped({{0, 10, 20, 30, 40}, {1, 1000}}).value()};
    return view;
}

TEST(ShotView, IsLookedAtWhereTheWholeBallIsInThePicture) {
    ShotView view = viewOfABallThatComesIn();
    EXPECT_EQ(view.tellingFrame(), core::timebase::FrameIndex{3});
    view.shot.marks.start = {{2}, {}};
    EXPECT_EQ(view.tellingFrame(), core::timebase::FrameIndex{2}) << "the start is marked";
    view.shot.marks.start.reset();
    view.path = {};
    EXPECT_EQ(view.tellingFrame(), core::timebase::FrameIndex{1}) << "nobody knows where it is";
}

}  // namespace
}  // namespace ui::reading
