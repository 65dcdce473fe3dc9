#include <gtest/gtest.h>

#include <cmath>

#include "tests/core/project/project_maker.h"

namespace tests::project {
namespace {

using namespace core::project;
using core::ErrorCode;
using core::timebase::FrameIndex;

class ProjectShots : public ::testing::Test {
protected:
    TemporaryFolder folder;
    std::unique_ptr<Store> store = Store::create(folder.path() / "p.turnmark").value();
    SmallProject small = fill(*store);

    [[nodiscard]] const Shot& shot(int n) const {
        return *store->snapshot()->shots.find(small.shots[static_cast<std::size_t>(n)]);
    }
};

TEST_F(ProjectShots, AreNumberedInTheOrderOfTheFilm) {
    const auto added = store->addShots(std::vector{shotOver(small.clip, 150, 200)}).value();
    EXPECT_EQ(store->snapshot()->shots.find(added.front())->ordinal, 3);
    EXPECT_EQ(shot(0).ordinal, 1);
    EXPECT_EQ(shot(1).ordinal, 2);
    EXPECT_EQ(shot(2).ordinal, 4);
    ASSERT_TRUE(store->setShotRange(small.shots[0], {300}, {340}, {}));
    EXPECT_EQ(shot(0).ordinal, 4);
    ASSERT_TRUE(store->removeShots(std::vector{small.shots[1]}));
    EXPECT_EQ(shot(0).ordinal, 3);
    const auto snapshot = store->snapshot();
    const auto inOrder = shotsInOrder(*snapshot);
    ASSERT_EQ(inOrder.size(), 3U);
    EXPECT_EQ(inOrder.front()->id, added.front());
    EXPECT_EQ(inOrder.back()->id, small.shots[0]);
    EXPECT_EQ(shotName(*snapshot, *inOrder.front()), "shot 1 of clip b.mp4");
}

TEST_F(ProjectShots, NumbersOfRemovedShotsAreNotGivenAgain) {
    ASSERT_TRUE(store->removeShots(std::vector{small.shots[2]}));
    const auto added = store->addShots(std::vector{shotOver(small.clip, 1, 2)}).value();
    EXPECT_GT(added.front(), small.shots[2]);
    ASSERT_TRUE(store->undo());
    const auto again = store->addShots(std::vector{shotOver(small.clip, 1, 2)}).value();
    EXPECT_GT(again.front(), added.front());
}

TEST_F(ProjectShots, FramesOutsideTheClipAreRefused) {
    EXPECT_EQ(store->addShots(std::vector{shotOver(small.clip, 590, 600)}).error().code,
              ErrorCode::OutOfRange);
    EXPECT_EQ(store->addShots(std::vector{shotOver(small.clip, 20, 10)}).error().code,
              ErrorCode::InvalidInput);
    EXPECT_EQ(store->addShots(std::vector{shotOver({9}, 0, 1)}).error().code, ErrorCode::NotFound);
    EXPECT_EQ(store->addShots({}).error().code, ErrorCode::InvalidInput);
    EXPECT_EQ(store->setShotRange(small.shots[0], {-1}, {5}, {}).error().code,
              ErrorCode::OutOfRange);
    EXPECT_EQ(store->setMarks(small.shots[0], startAndReturn(12, 600)).error().code,
              ErrorCode::OutOfRange);
    EXPECT_EQ(store->snapshot()->shots.size(), 3U);
    EXPECT_EQ(shot(0).firstFrame, FrameIndex{10});
}

TEST_F(ProjectShots, ClicksAreSortedAndLookedAt) {
    const BallClick late{{20}, 1.5, 2.5, 10.0};
    const BallClick early{{12}, 3.5, 4.5, 11.0};
    ASSERT_TRUE(store->setClicks(small.shots[0], {late, early}));
    EXPECT_EQ(shot(0).clicks, (std::vector{early, late}));
    EXPECT_EQ(store->setClicks(small.shots[0], {late, late}).error().code, ErrorCode::InvalidInput);
    EXPECT_EQ(store->setClicks(small.shots[0], {{{20}, 1, 1, 0}}).error().code,
              ErrorCode::OutOfRange);
    EXPECT_EQ(store->setClicks(small.shots[0], {{{20}, NAN, 1, 2}}).error().code,
              ErrorCode::NotFinite);
}

TEST_F(ProjectShots, ManyAreAssignedAtOnce) {
    const CellId cell = store->cellFor(small.session, small.implement, small.hitter).value();
    ASSERT_TRUE(store->assignShots(small.shots, cell));
    EXPECT_EQ(shot(2).cell, cell);
    EXPECT_EQ(store->undoText(), "Assigned 3 shots of clip b.mp4 to polyester 23 kg · hitter A.");
    EXPECT_EQ(store->assignShots(small.shots, CellId{99}).error().code, ErrorCode::NotFound);
    EXPECT_EQ(store->assignShots(std::vector{ShotId{99}}, cell).error().code, ErrorCode::NotFound);
    ASSERT_TRUE(store->assignShots(small.shots, std::nullopt));
    EXPECT_FALSE(shot(2).cell);
}

TEST_F(ProjectShots, TheHistoryTellsWhatChangedInTheMarks) {
    ASSERT_TRUE(store->setMarks(small.shots[0], startAndReturn(12, 17)));
    EXPECT_EQ(store->undoText(),
              "Marked shot 1 of clip b.mp4: start at frame 12; return at frame 17 (1 turn) added.");
    core::spin::MarkSet marks = startAndReturn(12, 17);
    marks.returns[0] = core::spin::ReturnMark::between({17}, {18}, 2, {{0.25, 0.1}});
    ASSERT_TRUE(store->setMarks(small.shots[0], marks));
    EXPECT_EQ(store->undoText(),
              "Marked shot 1 of clip b.mp4: return between frames 17 and 18 at 0.25 (2 turns) "
              "added; return at frame 17 (1 turn) removed.");
    ASSERT_TRUE(store->setMarks(small.shots[0], {}));
    EXPECT_EQ(store->undoText(), "Cleared the marks of shot 1 of clip b.mp4.");
}

TEST_F(ProjectShots, AnEditThatChangesNothingLeavesNoTrace) {
    ASSERT_TRUE(store->setMarks(small.shots[0], startAndReturn(12, 17)));
    const std::int64_t revision = store->snapshot()->revision;
    int told = 0;
    const auto token = store->listen([&told](const Store::Change&) { ++told; });
    ASSERT_TRUE(store->setMarks(small.shots[0], startAndReturn(12, 17)));
    ASSERT_TRUE(store->setDoubtful(small.shots[0], false));
    EXPECT_EQ(store->snapshot()->revision, revision);
    EXPECT_EQ(store->history().value().size(), static_cast<std::size_t>(revision));
    EXPECT_EQ(told, 0);
}

}  // namespace
}  // namespace tests::project
