#include "core/doubts/decisions.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "core/report/summary.h"
#include "core/words/findings.h"
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

TEST_F(DoubtDecisions, AClockThatTheFlightRefutesKeepsItsShotsOutOfEveryNumber) {
    const auto kept = [this] {
        const auto summary = must(core::report::summarise(*store->snapshot()));
        return summary.cells.front().counts.kept;
    };
    ASSERT_EQ(kept(), 1U);
    ASSERT_TRUE(store->noteRefutation(shot, "The flight fits a capture rate of 480, not 240."));
    EXPECT_EQ(kept(), 0U);
    const auto findings = must(core::findings::findFindings(*store->snapshot()));
    const auto& summary = findings.summary;
    ASSERT_EQ(summary.leftOut.size(), 1U);
    EXPECT_EQ(summary.leftOut.front().shots, 1U);
    EXPECT_EQ(summary.cells.front().counts.leftOut, 1U);
    const auto sentence = core::report::leftOutSentence(summary.leftOut.front());
    EXPECT_EQ(sentence.find("1 kept shot of a.mp4 is left out of every number: The flight fits"),
              0U)
        << sentence;
    // The command line's summary and the method on the published page say the same sentence.
    EXPECT_NE(core::report::summaryText(summary).find(sentence), std::string::npos);
    const auto method = core::words::methodSentences(findings);
    EXPECT_EQ(std::count(method.begin(), method.end(), sentence), 1);
    const auto doubted = doubts();
    ASSERT_NE(of(doubted, shot), nullptr);
    EXPECT_TRUE(of(doubted, shot)->has(Reason::ClockRefuted));
}

TEST_F(DoubtDecisions, APersonOverrulesTheFlightWithAReason) {
    EXPECT_EQ(overruleFlight(*store, clip, "x").error().code, core::ErrorCode::InvalidInput)
        << "nothing speaks against it";
    ASSERT_TRUE(store->noteRefutation(shot, "It falls too slowly."));
    EXPECT_EQ(overruleFlight(*store, clip, "  ").error().code, core::ErrorCode::InvalidInput);
    ASSERT_TRUE(overruleFlight(*store, clip, "filmed from a moving cart"));
    const auto findings = must(core::findings::findFindings(*store->snapshot()));
    EXPECT_TRUE(findings.summary.leftOut.empty());
    EXPECT_EQ(findings.summary.cells.front().counts.kept, 1U);
    ASSERT_EQ(findings.method.overruled.size(), 1U);
    EXPECT_EQ(findings.method.overruled.front().why, "filmed from a moving cart");
    ASSERT_TRUE(store->undo());
    EXPECT_EQ(must(core::report::summarise(*store->snapshot())).cells.front().counts.kept, 0U);
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

TEST_F(DoubtDecisions, ACellIsFilmedAgainAsAWholeAndUndoneInOneStep) {
    const auto other = addShot(0, 50);
    keepMarks(other, 10, 20, 1);
    const auto toRead = addShot(0, 80);
    ASSERT_TRUE(filmAgain(*store, cell, "hitters disagree"));
    const auto snapshot = store->snapshot();
    for (const auto each : {shot, other}) {
        EXPECT_TRUE(isToFilmAgain(*snapshot->shots.find(each)));
        EXPECT_EQ(snapshot->shots.find(each)->reason, "film again: hitters disagree");
    }
    EXPECT_EQ(snapshot->shots.find(toRead)->standing, core::project::ShotStanding::Open);
    const auto list = filmList(*snapshot);
    ASSERT_EQ(list.size(), 1U);
    EXPECT_EQ(list[0].shots, 2);
    EXPECT_EQ(filmAgain(*store, cell, "once more").error().code, core::ErrorCode::InvalidInput);
    ASSERT_TRUE(store->undo());
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
