#include "ui/reading/grid/turn_grid_layout.h"

#include <gtest/gtest.h>

namespace ui::reading {
namespace {

using core::timebase::FrameIndex;

constexpr double kFrame = 1.0 / 120.0;  // seconds
constexpr double kGridPx = 1e-9;        // positions are sums of a few doubles below 1e4

/// Frames 0 … count-1 at 120 frames per second, without the one that was dropped.
TurnGridInput input(double framesPerRow, int count, int dropped = -1) {
    TurnGridInput made;
    made.rowSeconds = framesPerRow * kFrame;
    made.frameSeconds = kFrame;
    made.widthPx = 900.0;
    made.gutterPx = 40.0;
    made.captionPx = 14.0;
    int index = 0;
    for (int k = 0; k < count; ++k) {
        if (k != dropped) {
            made.frames.push_back({FrameIndex{index++}, k * kFrame});
        }
    }
    return made;
}

TEST(TurnGridLayout, FramesAWholeTurnApartStandInOneColumn) {
    const TurnGridLayout layout{input(5.0, 16)};
    const auto* first = layout.cellOf({0});
    for (const int turn : {1, 2, 3}) {
        const auto* cell = layout.cellOf({5 * turn});
        EXPECT_EQ(cell->row, turn);
        EXPECT_NEAR(cell->rect.left(), first->rect.left(), kGridPx);
        EXPECT_GT(cell->rect.top(), first->rect.bottom());
    }
}

TEST(TurnGridLayout, ColumnsSlantByWhatTheRowIsTooLong) {
    // 5 frames a turn, rows 2 % too long: each turn falls short of its row by 0.1 frame, 0.1/5.1 of
    // a row.
    const TurnGridLayout layout{input(5.1, 16)};
    const double rowPx = layout.rowEndXPx() - layout.referenceXPx();
    for (const int turn : {1, 2, 3}) {
        const auto* cell = layout.cellOf({5 * turn});
        EXPECT_EQ(cell->row, turn);
        EXPECT_NEAR(cell->rect.center().x() - layout.referenceXPx(), -turn * 0.1 / 5.1 * rowPx,
                    kGridPx);
    }
}

TEST(TurnGridLayout, ARowBeginsWithTheFrameNearestToTheReference) {
    // 4.8 frames a turn (1500 rpm at 120 frames per second): frame 5 is 0.2 frames late, frame 10
    // 0.4; frame 14 is 0.4 early for turn 3 (14.4) and still the nearest.
    const TurnGridLayout layout{input(4.8, 16)};
    EXPECT_EQ(layout.cellOf({5})->row, 1);
    EXPECT_EQ(layout.cellOf({10})->row, 2);
    EXPECT_EQ(layout.cellOf({14})->row, 3);
    EXPECT_EQ(layout.cellOf({13})->row, 2);
    EXPECT_LT(layout.cellOf({14})->rect.center().x(), layout.referenceXPx());
}

TEST(TurnGridLayout, ADroppedFrameLeavesAHoleWhereItWouldBe) {
    const TurnGridLayout whole{input(5.0, 16)};
    const TurnGridLayout holed{input(5.0, 16, 7)};
    ASSERT_EQ(holed.holes().size(), 1U);
    const auto* missing = whole.cellOf({7});
    EXPECT_EQ(holed.holes()[0].row, missing->row);
    EXPECT_NEAR(holed.holes()[0].centre.x(), missing->rect.center().x(), kGridPx);
    EXPECT_NEAR(holed.holes()[0].centre.y(), missing->rect.center().y(), kGridPx);
    // The frame after the hole keeps its place in time although its number is one less.
    EXPECT_NEAR(holed.cellOf({7})->rect.left(), whole.cellOf({8})->rect.left(), kGridPx);
    EXPECT_TRUE(whole.holes().empty());
}

TEST(TurnGridLayout, TwoDroppedFramesLeaveTwoHoles) {
    TurnGridInput made = input(5.0, 3);
    made.frames.push_back({FrameIndex{3}, 5 * kFrame});  // 3 and 4 are missing
    const TurnGridLayout layout{made};
    ASSERT_EQ(layout.holes().size(), 2U);
    EXPECT_LT(layout.holes()[0].centre.x(), layout.holes()[1].centre.x());
}

TEST(TurnGridLayout, FramesBeforeTheReferenceStandInRowsAboveIt) {
    TurnGridInput made = input(5.0, 16);
    for (TimedFrame& timed : made.frames) {
        timed.secondsFromReference -= 7 * kFrame;  // the start is frame 7
    }
    const TurnGridLayout layout{made};
    EXPECT_EQ(layout.cellOf({7})->row, 0);
    EXPECT_EQ(layout.cellOf({2})->row, -1);
    EXPECT_EQ(layout.firstRow(), -2);
    EXPECT_NEAR(layout.cellOf({2})->rect.left(), layout.cellOf({7})->rect.left(), kGridPx);
}

TEST(TurnGridLayout, TheHandleStandsOneRowAfterTheReference) {
    const TurnGridLayout layout{input(4.83, 16)};
    EXPECT_NEAR(layout.rowEndXPx() - layout.referenceXPx(),
                4.83 * kFrame * layout.scale().pxPerSecond, kGridPx);
}

TEST(TurnGridLayout, TheScaleStaysWhileTheRowIsDragged) {
    const TurnGridLayout before{input(5.0, 16)};
    TurnGridInput dragged = input(5.4, 16);
    dragged.fixedScale = before.scale();
    EXPECT_NEAR(TurnGridLayout{dragged}.scale().pxPerSecond, before.scale().pxPerSecond, kGridPx);
    EXPECT_EQ(TurnGridLayout{dragged}.cellPx(), before.cellPx());
}

TEST(TurnGridLayout, PicturesOfOneRowDoNotOverlap) {
    for (const double framesPerRow : {1.5, 3.0, 4.83, 8.0, 24.0, 60.0}) {
        const TurnGridLayout layout{input(framesPerRow, 40)};
        for (std::size_t k = 1; k < layout.cells().size(); ++k) {
            EXPECT_FALSE(layout.cells()[k].rect.intersects(layout.cells()[k - 1].rect))
                << framesPerRow << " frames a row, frame " << k;
        }
    }
}

TEST(TurnGridLayout, APointFindsThePictureThatIsThere) {
    const TurnGridLayout layout{input(5.0, 16)};
    EXPECT_EQ(layout.cellAt(layout.cellOf({8})->rect.center())->frame, FrameIndex{8});
    EXPECT_EQ(layout.cellAt({-5.0, -5.0}), nullptr);
}

}  // namespace
}  // namespace ui::reading
