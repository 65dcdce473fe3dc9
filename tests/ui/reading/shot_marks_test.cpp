#include "ui/reading/shot/shot_marks.h"

#include <gtest/gtest.h>

namespace ui::reading {
namespace {

using core::spin::MarkSet;
using core::spin::ReturnMark;
using core::timebase::FrameIndex;

TEST(ShotMarks, TheSameKeyTakesTheStartBack) {
    const MarkSet once = withStartToggled({}, {4});
    ASSERT_TRUE(once.start.has_value());
    EXPECT_EQ(once.start->frame, FrameIndex{4});
    EXPECT_FALSE(withStartToggled(once, {4}).start.has_value());
}

TEST(ShotMarks, TheStartMovesToAnotherFrame) {
    EXPECT_EQ(withStartToggled(withStartToggled({}, {4}), {6}).start->frame, FrameIndex{6});
}

TEST(ShotMarks, AReturnMakesWayForTheStart) {
    const MarkSet marks = withStartToggled(withReturnToggled({}, {9}, 1), {9});
    EXPECT_TRUE(marks.returns.empty());
}

TEST(ShotMarks, ReturnsStayInTheOrderOfTime) {
    MarkSet marks = withReturnToggled({}, {14}, 3);
    marks = withReturnToggled(marks, {5}, 1);
    marks = withReturnToggled(marks, {10}, 2);
    ASSERT_EQ(marks.returns.size(), 3U);
    EXPECT_EQ(marks.returns[0], ReturnMark::nearest({5}, 1));
    EXPECT_EQ(marks.returns[1], ReturnMark::nearest({10}, 2));
    EXPECT_EQ(marks.returns[2], ReturnMark::nearest({14}, 3));
    EXPECT_EQ(withReturnToggled(marks, {10}, 2).returns.size(), 2U);
}

TEST(ShotMarks, ABracketTakesThePlaceOfReturnsAtItsEnds) {
    const MarkSet marks = withBracketToggled(withReturnToggled({}, {5}, 1), {5}, {6}, 1);
    ASSERT_EQ(marks.returns.size(), 1U);
    EXPECT_EQ(marks.returns[0], ReturnMark::between({5}, {6}, 1));
    EXPECT_EQ(returnAt(marks, {6}), marks.returns.data());
    EXPECT_TRUE(withBracketToggled(marks, {5}, {6}, 1).returns.empty());
}

TEST(ShotMarks, AReturnInABracketBecomesTheNearest) {
    const MarkSet marks = withReturnToggled(withBracketToggled({}, {5}, {6}, 1), {6}, 1);
    ASSERT_EQ(marks.returns.size(), 1U);
    EXPECT_EQ(marks.returns[0], ReturnMark::nearest({6}, 1));
}

TEST(ShotMarks, DigitsChangeTheReturnHereElseTheLast) {
    MarkSet marks = withReturnToggled(withReturnToggled({}, {5}, 1), {10}, 2);
    EXPECT_EQ(withTurns(marks, {5}, 4).returns[0].turns, 4);
    EXPECT_EQ(withTurns(marks, {7}, 4).returns[1].turns, 4);
    EXPECT_EQ(withTurns({}, {7}, 4), MarkSet{});
}

TEST(ShotMarks, AnAngleIsReplacedAndRemoved) {
    MarkSet marks =
        withAngle(withAngle({}, {8}, core::fromDegrees(90.0)), {3}, core::fromDegrees(10.0));
    marks = withAngle(marks, {8}, core::fromDegrees(95.0));
    ASSERT_EQ(marks.angles.size(), 2U);
    EXPECT_EQ(marks.angles[0].frame, FrameIndex{3});
    EXPECT_EQ(angleAt(marks, {8})->angle, core::fromDegrees(95.0));
    EXPECT_EQ(angleAt(withoutAngle(marks, {8}), {8}), nullptr);
}

}  // namespace
}  // namespace ui::reading
