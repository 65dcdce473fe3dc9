#include "core/doubts/rules_of_readings.h"

#include <gtest/gtest.h>

#include "core/doubts/rules_of_groups.h"
#include "tests/core/doubts/doubts_project.h"

namespace tests::doubts {
namespace {

using core::doubts::Doubt;
using core::doubts::Grade;
using core::doubts::modifiedZScore;
using core::doubts::PictureOpinion;
using core::doubts::turnsMiscounted;

PictureOpinion says(double rpm, double sigma) {
    PictureOpinion opinion;
    opinion.rate = core::Measured<core::Rpm>{{rpm}, {sigma}};
    opinion.interval95 = core::Interval<core::Rpm>{{rpm - 2.0 * sigma}, {rpm + 2.0 * sigma}};
    return opinion;
}

/// The doubt of a shot for a reason; fails the test when there is none.
Doubt doubtOf(const Doubts& doubts, ShotId shot, Reason reason) {
    const auto* item = DoubtsProject::of(doubts, shot);
    if (item != nullptr) {
        for (const auto& doubt : item->doubts) {
            if (doubt.reason == reason) {
                return doubt;
            }
        }
    }
    ADD_FAILURE() << "not doubted for " << reasonName(reason);
    return {};
}

// The mark is back after 1.5, 2.5 turns and one turn more than was counted: N f_pictures/f_marks.
TEST(TurnsMiscounted, AreWholeNumbersOfHalfTurns) {
    EXPECT_EQ(turnsMiscounted(1, {1000.0}, {{1500.0}, {10.0}}), 0.5);
    EXPECT_EQ(turnsMiscounted(2, {2000.0}, {{1500.0}, {10.0}}), -0.5);
    EXPECT_EQ(turnsMiscounted(2, {1000.0}, {{1500.0}, {10.0}}), 1.0);
    EXPECT_FALSE(turnsMiscounted(1, {1490.0}, {{1500.0}, {10.0}}));  // 1.007 turns
    EXPECT_FALSE(turnsMiscounted(1, {1200.0}, {{1500.0}, {10.0}}));  // 1.25: neither
    EXPECT_FALSE(turnsMiscounted(3, {1000.0}, {{1500.0}, {90.0}}));  // 4.5 +- 0.54: not known
    EXPECT_FALSE(turnsMiscounted(0, {1000.0}, {{1500.0}, {10.0}}));
}

// Median 3, deviations 2 1 0 1 97, median deviation 1: 0.6745 * 97.
TEST(ModifiedZScore, IsThatOfIglewiczAndHoaglin) {
    EXPECT_NEAR(*modifiedZScore(100.0, {1.0, 2.0, 3.0, 4.0, 100.0}), 65.4265, 1e-9);
    EXPECT_NEAR(*modifiedZScore(2.0, {1.0, 2.0, 3.0, 4.0, 100.0}), -0.6745, 1e-12);
    EXPECT_FALSE(modifiedZScore(1.0, {1.0, 2.0, 3.0, 4.0}));
    EXPECT_FALSE(modifiedZScore(7.0, {5.0, 5.0, 5.0, 5.0, 7.0}));
}

TEST(Severity, FollowsTheGradeFirst) {
    const Doubt grave{Reason::Marked, Grade::Grave, 0.0, {}};
    const Doubt strong{Reason::Outlier, Grade::Question, 1e9, {}};
    const Doubt weak{Reason::Outlier, Grade::Question, 1.0, {}};
    EXPECT_GT(grave.severity(), strong.severity());
    EXPECT_GT(strong.severity(), weak.severity());
}

class DoubtRules : public ::testing::Test, protected DoubtsProject {};

TEST_F(DoubtRules, ASoundShotIsNotDoubted) {
    const auto shot = addShot(0, 50);
    keepMarks(shot, 10, 20, 1);  // 10 frames of 1/240 s: 1440 rpm
    EXPECT_TRUE(doubts({{shot, says(1450.0, 8.0)}}).items.empty());
}

// Three turns in 15 frames: five a turn. A count from a sheet has no other than whole frames.
TEST_F(DoubtRules, WholeFramesATurnAreDoubtedWhereTheyWereMarkedAndNotWhereTheyWereCounted) {
    const auto marked = addShot(0, 50);
    keepMarks(marked, 10, 25, 3);
    EXPECT_EQ(doubtOf(doubts(), marked, Reason::Stroboscope).grade, Grade::Note);
    const auto noted = addShot(60, 99);
    keepMarks(noted, 70, 85, 3, core::spin::CountingHabit::Nearest);
    EXPECT_EQ(DoubtsProject::of(doubts(), noted), nullptr);
}

// One turn in 15 frames is 960 rpm; the ball turned once and a half: 1440 rpm.
TEST_F(DoubtRules, HalfATurnTakenForAWholeOneIsNamed) {
    const auto shot = addShot(0, 50);
    keepMarks(shot, 10, 25, 1);
    const auto doubt = doubtOf(doubts({{shot, says(1440.0, 5.0)}}), shot, Reason::Miscount);
    EXPECT_EQ(doubt.grade, Grade::Grave);
    EXPECT_EQ(std::get<core::doubts::TurnsOff>(doubt.facts).off, 0.5);
}

TEST_F(DoubtRules, MarksAndPicturesThatDoNotMeetAreNamed) {
    const auto shot = addShot(0, 50);
    keepMarks(shot, 10, 20, 1);  // 1440 rpm, 1371 to 1516
    const auto found = doubts({{shot, says(1730.0, 5.0)}});
    EXPECT_EQ(doubtOf(found, shot, Reason::MethodsDiffer).grade, Grade::Grave);
}

TEST_F(DoubtRules, PicturesThatSayNothingDoNotConfirm) {
    const auto shot = addShot(0, 50);
    keepMarks(shot, 10, 20, 1);
    PictureOpinion nothing;
    nothing.reason = "The marking hardly tells.";
    const auto doubt = doubtOf(doubts({{shot, nothing}}), shot, Reason::NotConfirmed);
    EXPECT_EQ(std::get<core::doubts::SilentPictures>(doubt.facts).why, nothing.reason);
}

TEST_F(DoubtRules, AClockThatGravityRefutesComesFirst) {
    const auto shot = addShot(0, 50);
    keepMarks(shot, 10, 20, 1);
    PictureOpinion refuted = says(2880.0, 5.0);
    refuted.clockRefuted = "The flight fits a capture rate of 120, not 240.";
    const auto found = doubts({{shot, refuted}});
    ASSERT_EQ(found.items.size(), 1U);
    EXPECT_EQ(found.items[0].doubts[0].reason, Reason::ClockRefuted);
    EXPECT_FALSE(found.items[0].has(Reason::MethodsDiffer));  // the same trouble, not another one
}

TEST_F(DoubtRules, AClockThatChangedSinceIsNamed) {
    const auto shot = addShot(0, 50);
    keepMarks(shot, 10, 20, 1);
    ClockSetting counted;
    counted.kind = core::timebase::ClockKind::Counted;
    counted.counted = core::timebase::CaptureRate{{120}};
    ASSERT_TRUE(store->setClipClock(clip, {}, counted, {}));
    doubtOf(doubts(), shot, Reason::ClockChanged);
}

// Stamps leave two frames out after frame 300.
TEST_F(DoubtRules, FramesMissingInsideAReadingAreNamed) {
    const auto across = addShot(290, 330);
    const auto before = addShot(200, 250);
    keepMarks(across, 295, 305, 1);
    keepMarks(before, 210, 220, 1);
    const auto found = doubts();
    const auto doubt = doubtOf(found, across, Reason::FramesDropped);
    EXPECT_EQ(std::get<core::doubts::MissingFrames>(doubt.facts).count, 2);
    EXPECT_EQ(std::get<core::doubts::MissingFrames>(doubt.facts).after.value, 300);
    EXPECT_EQ(of(found, before), nullptr);
}

TEST_F(DoubtRules, AReadingThatDiffersFromTheCountingOneIsNamed) {
    const auto shot = addShot(0, 50);
    keepNumber(shot, 1700.0, 5.0, "first");
    keepNumber(shot, 1500.0, 5.0, "second");
    const auto doubt = doubtOf(doubts(), shot, Reason::ReadingsDiffer);
    EXPECT_EQ(std::get<core::doubts::RepeatedReading>(doubt.facts).other, core::Rpm{1700.0});
    EXPECT_EQ(std::get<core::doubts::RepeatedReading>(doubt.facts).reader, "first");
    const auto other = addShot(60, 90);
    keepNumber(other, 1505.0, 5.0, "first");
    keepNumber(other, 1500.0, 5.0, "second");
    EXPECT_FALSE(of(doubts(), other) != nullptr &&
                 of(doubts(), other)->has(Reason::ReadingsDiffer));
}

// 10 frames of 1/240 s a turn are 1440 rpm, and 720 rpm at half the rate: no repeated reading.
TEST_F(DoubtRules, ReadingsOnTwoClocksAreNoRepeatedReadings) {
    const auto shot = addShot(0, 50);
    keepMarks(shot, 10, 20, 1);
    ClockSetting half;
    half.kind = core::timebase::ClockKind::Counted;
    half.counted = core::timebase::CaptureRate{{120}};
    ASSERT_TRUE(store->setClipClock(clip, {}, half, {}));
    keepMarks(shot, 10, 20, 1);
    EXPECT_EQ(of(doubts(), shot), nullptr);
    ASSERT_EQ(store->snapshot()->readings.size(), 2U);
}

// Without the diameter of the ball its fall cannot check the clock; a clock check is as good.
TEST_F(DoubtRules, AClockThatNothingChecksIsNamed) {
    const auto shot = addShot(0, 50);
    keepMarks(shot, 10, 20, 1);
    Session day = *store->snapshot()->sessions.find(session);
    day.ballDiameterMm.reset();
    ASSERT_TRUE(store->changeSession(day));
    EXPECT_EQ(doubtOf(doubts(), shot, Reason::ClockUnchecked).grade, Grade::Question);
    ASSERT_TRUE(store->setClipClock(clip, {core::timebase::ClockCheck{}}, ClockSetting{}, {}));
    EXPECT_EQ(of(doubts(), shot), nullptr);
}

TEST_F(DoubtRules, OutliersWideIntervalsAndOddSpeedsAreSeenAmongTheirCell) {
    std::map<ShotId, PictureOpinion> opinions;
    std::vector<ShotId> shots;
    for (int i = 0; i < 8; ++i) {
        shots.push_back(addShot(30 * i, 30 * i + 20));
        const bool isOdd = i == 7;
        keepNumber(shots.back(), isOdd ? 1900.0 : 1500.0 + 10.0 * (i % 4), isOdd ? 60.0 : 5.0);
        auto opinion = says(isOdd ? 1900.0 : 1500.0 + 10.0 * (i % 4), 5.0);
        opinion.speedMetresPerSecond = isOdd ? 12.0 : 20.0 + 0.1 * i;
        opinions[shots.back()] = opinion;
    }
    const auto found = doubts(opinions);
    for (const auto reason : {Reason::Outlier, Reason::WideInterval, Reason::BallSpeed}) {
        doubtOf(found, shots.back(), reason);
    }
    EXPECT_EQ(found.items.size(), 1U);
    EXPECT_EQ(found.keptShots, 8U);
    EXPECT_EQ(found.withoutPictures, 0U);
}

TEST_F(DoubtRules, WhatIsSetAsideIsNotDoubted) {
    const auto shot = addShot(0, 50);
    keepNumber(shot, 1500.0, 5.0);
    ASSERT_TRUE(store->setDoubtful(shot, true));
    EXPECT_TRUE(of(doubts(), shot)->has(Reason::Marked));
    ASSERT_TRUE(store->setAside(shot, "mishit"));
    EXPECT_TRUE(doubts().items.empty());
}

}  // namespace
}  // namespace tests::doubts
