#include "core/doubts/decisions.h"

#include <gtest/gtest.h>

#include "tests/core/doubts/doubts_project.h"

namespace tests::doubts {
namespace {

using namespace core::doubts;

class DoubtDecisions : public ::testing::Test, protected DoubtsProject {
protected:
    DoubtDecisions() : shot{addShot(290, 330)} {
        keepMarks(shot, 295, 305, 1);  // across a hole in the time stamps
        must(store->setDoubtful(shot, true));
    }
    ShotId shot;
};

TEST_F(DoubtDecisions, KeptAsItIsTheShotComesLastAndStaysSettled) {
    auto before = doubts();
    ASSERT_EQ(before.unsettled(), 1U);
    ASSERT_TRUE(keepAsIs(*store, before, before.items[0]));
    const auto after = doubts();
    ASSERT_EQ(after.items.size(), 1U);
    EXPECT_TRUE(after.items[0].isSettled);
    EXPECT_EQ(after.unsettled(), 0U);
    EXPECT_FALSE(after.items[0].has(Reason::Marked));
    EXPECT_EQ(store->historyOf(shot).value().back().what,
              "Looked at shot 1 of clip a.mp4 again and kept it as it is.");
    ASSERT_TRUE(store->undo());
    EXPECT_EQ(doubts().unsettled(), 1U);
    EXPECT_TRUE(doubts().items[0].has(Reason::Marked));
}

TEST_F(DoubtDecisions, ANewReasonOpensTheMatterAgain) {
    const auto before = doubts();
    ASSERT_TRUE(keepAsIs(*store, before, before.items[0]));
    ASSERT_TRUE(store->orderSecondReadings(std::vector{shot}));
    const auto second = waitingSecondReadings(*store->snapshot()).front()->id;
    must(store->keepSecondReading(second, number(shot, 1000.0, 2.0, "another")));
    EXPECT_EQ(doubts().unsettled(), 1U);
}

TEST_F(DoubtDecisions, FilmedAgainItStandsOnTheList) {
    ASSERT_TRUE(filmAgain(*store, shot, "mark hidden"));
    EXPECT_TRUE(isToFilmAgain(*store->snapshot()->shots.find(shot)));
    const auto list = filmList(*store->snapshot());
    ASSERT_EQ(list.size(), 1U);
    EXPECT_EQ(list[0].card, (core::plan::SlateCard{"day", "gut", "", "A"}));
    EXPECT_EQ(list[0].shots, 1);
    ASSERT_TRUE(store->undo());
    EXPECT_TRUE(filmList(*store->snapshot()).empty());
    ASSERT_TRUE(store->setAside(shot, "mishit"));
    EXPECT_TRUE(filmList(*store->snapshot()).empty());
}

TEST_F(DoubtDecisions, ACellIsDoubtedAsAWholeAndUndoneInOneStep) {
    const auto other = addShot(0, 50);
    keepMarks(other, 10, 20, 1);
    ASSERT_TRUE(doubtCell(*store, cell));
    EXPECT_EQ(doubts().unsettled(), 2U);
    ASSERT_TRUE(store->undo());
    EXPECT_EQ(of(doubts(), other), nullptr);
    EXPECT_EQ(doubtCell(*store, {99}).error().code, core::ErrorCode::InvalidInput);
}

}  // namespace
}  // namespace tests::doubts
