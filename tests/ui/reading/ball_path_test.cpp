#include "ui/reading/ball_path.h"

#include <gtest/gtest.h>

namespace ui::reading {
namespace {

using core::project::BallClick;
using core::timebase::FrameIndex;

constexpr double kPx = 1e-9;  // a few operations on doubles below 1e3

// Frames 10 … 14; frame 13 comes late because one before it was dropped.
const std::vector<double> kSeconds{0.0, 0.01, 0.02, 0.04, 0.05};

TEST(BallPath, IsEmptyWithoutClicks) {
    const BallPath path{{}, FrameIndex{10}, kSeconds};
    EXPECT_TRUE(path.isEmpty());
    EXPECT_FALSE(path.at(0.0).has_value());
}

TEST(BallPath, OneClickHoldsForEveryFrame) {
    const BallPath path{{{FrameIndex{11}, 30.0, 40.0, 9.0}}, FrameIndex{10}, kSeconds};
    EXPECT_EQ(path.at(0.05)->centrePx, (QPointF{30.0, 40.0}));
    EXPECT_EQ(path.at(0.05)->radiusPx, 9.0);
}

TEST(BallPath, RunsStraightInCaptureTime) {
    const BallPath path{{{FrameIndex{14}, 200.0, 150.0, 20.0}, {FrameIndex{10}, 100.0, 50.0, 10.0}},
                        FrameIndex{10},
                        kSeconds};
    // Frame 13 at 0.04 s is four fifths of the way, not three quarters.
    EXPECT_NEAR(path.at(0.04)->centrePx.x(), 180.0, kPx);
    EXPECT_NEAR(path.at(0.04)->centrePx.y(), 130.0, kPx);
    EXPECT_NEAR(path.at(0.04)->radiusPx, 18.0, kPx);
}

TEST(BallPath, GoesOnBeyondTheClicks) {
    const BallPath path{{{FrameIndex{10}, 100.0, 50.0, 10.0}, {FrameIndex{11}, 110.0, 45.0, 10.0}},
                        FrameIndex{10},
                        kSeconds};
    EXPECT_NEAR(path.at(0.05)->centrePx.x(), 150.0, kPx);
    EXPECT_NEAR(path.at(0.05)->centrePx.y(), 25.0, kPx);
}

TEST(BallPath, PassesThroughEveryClick) {
    const BallPath path{{{FrameIndex{10}, 0.0, 0.0, 5.0},
                         {FrameIndex{12}, 10.0, 30.0, 6.0},
                         {FrameIndex{14}, 50.0, 10.0, 7.0}},
                        FrameIndex{10},
                        kSeconds};
    EXPECT_NEAR(path.at(0.02)->centrePx.y(), 30.0, kPx);
    EXPECT_NEAR(path.at(0.05)->centrePx.x(), 50.0, kPx);
    EXPECT_NEAR(path.at(0.01)->centrePx.x(), 5.0, kPx);
}

TEST(BallPath, FarIsMoreThanThreeBallWidthsFromTheBallAtThatTime) {
    const BallPath path{{{FrameIndex{10}, 100.0, 50.0, 10.0}, {FrameIndex{11}, 110.0, 50.0, 10.0}},
                        FrameIndex{10},
                        kSeconds};
    EXPECT_FALSE(
        path.isFarFrom(0.05, {150.0, 109.0}));  // at (150, 50) then, 60 px are three widths
    EXPECT_TRUE(path.isFarFrom(0.05, {150.0, 111.0}));
    EXPECT_TRUE(path.isFarFrom(0.0, {161.0, 50.0}));
    const BallPath one{{{FrameIndex{10}, 100.0, 50.0, 10.0}}, FrameIndex{10}, kSeconds};
    EXPECT_FALSE(one.isFarFrom(0.05, {900.0, 50.0})) << "the second click shows where it flies";
    EXPECT_FALSE(BallPath{}.isFarFrom(0.0, {0.0, 0.0}));
}

TEST(BallPath, LeavesOutClicksOfOtherFrames) {
    const BallPath path{{{FrameIndex{3}, 1.0, 1.0, 5.0}, {FrameIndex{15}, 2.0, 2.0, 5.0}},
                        FrameIndex{10},
                        kSeconds};
    EXPECT_TRUE(path.isEmpty());
}

}  // namespace
}  // namespace ui::reading
