#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "core/words/findings.h"
#include "tests/core/findings/made_project.h"

namespace {

using core::spin::CountingHabit;
using core::words::sentence;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using tests::MadeProject;

// Ten counts of 5 at 120 frames per second allow 7200/5.5 = 1309 to 7200/4.5 = 1600 rpm, whatever
// their number; they were said to be 1449.8 rpm within 1.6.
TEST(CoarseFindings, TenEqualCountsAreAsWideAsOne) {
    MadeProject project;
    const auto implement = project.implement("X");
    for (int i = 0; i < 10; ++i) {
        project.keepCount(implement, "A", 5.0);
    }
    const auto found = project.findings();
    const auto& cell = found.cells.front();
    ASSERT_TRUE(cell.mean) << cell.mean.whyNot().message;
    EXPECT_NEAR(cell.mean->interval95.low, 1309.1, 10.0);
    EXPECT_NEAR(cell.mean->interval95.high, 1600.0, 10.0);
    EXPECT_THAT(sentence(cell), HasSubstr("too coarse to show how much the shots differed"));
    EXPECT_NEAR(found.implements.front().row.mean->interval95->high.rpm, cell.mean->interval95.high,
                1e-6);
    EXPECT_THAT(core::words::methodSentences(found).front(),
                HasSubstr("10 shots from whole-frame counts (start exact, nearest return)"));
}

// The same counts by a habit that is not known: nearest or half a frame later.
TEST(CoarseFindings, AHabitThatIsNotKnownIsLessSure) {
    const auto halfWidth = [](CountingHabit habit) {
        MadeProject project;
        const auto implement = project.implement("X");
        for (int i = 0; i < 10; ++i) {
            project.keepCount(implement, "A", i < 5 ? 5.0 : 6.0, habit);
        }
        const auto found = project.findings();
        const auto interval = found.cells.front().mean->interval95;
        return 0.5 * (interval.high - interval.low);
    };
    // A quarter of a frame at about 5.25 frames: 7200/5.25² · 0.25 = 65 rpm, 1.96 of it 128.
    EXPECT_GT(halfWidth(CountingHabit::Unknown), halfWidth(CountingHabit::Nearest) + 20.0);
    EXPECT_GT(halfWidth(CountingHabit::Unknown), 128.0);
}

// Within one session a difference takes out the habit.
TEST(CoarseFindings, ADifferenceTakesOutTheHabitThatBothShare) {
    const auto errorOf = [](CountingHabit habit) {
        MadeProject project;
        for (const char* name : {"X", "Y"}) {
            const auto implement = project.implement(name);
            for (int i = 0; i < 10; ++i) {
                project.keepCount(implement, "A", i < 5 ? 5.0 : 6.0, habit);
            }
        }
        const auto found = project.findings();
        return found.together().pairs.front().standardErrorRpm;
    };
    EXPECT_LT(errorOf(CountingHabit::Unknown), 1.3 * errorOf(CountingHabit::Nearest));
}

// Grubbs' test of the rounded values calls every such neighbour an outlier.
TEST(CoarseFindings, ANeighbouringCountIsNoOddShot) {
    MadeProject project;
    for (int i = 0; i < 5; ++i) {
        const auto implement = project.implement("implement " + std::to_string(i));
        for (int shot = 0; shot < 10; ++shot) {
            project.keepCount(implement, "A", shot == 0 ? 6.0 : 5.0);
        }
    }
    EXPECT_THAT(project.findings().oddShots(), IsEmpty());
}

// Five cells scatter by 10 rpm, the sixth by 450 because of one shot at 1600. Its three shots alone
// cannot show it: of three values none lies beyond Grubbs' 1.155.
TEST(CoarseFindings, CochransTestNamesTheShotThatPutsAScatterOutOfLine) {
    MadeProject project;
    for (int i = 0; i < 5; ++i) {
        const auto implement = project.implement("implement " + std::to_string(i));
        for (const double noise : {-10.0, 0.0, 10.0}) {
            project.keep(implement, "A", 2000.0 + 100.0 * i + noise);
        }
    }
    const auto last = project.implement("last");
    project.keep(last, "A", 2600.0);
    project.keep(last, "A", 2612.0);
    project.keep(last, "A", 2590.0);
    const auto odd = project.keep(last, "A", 1600.0);
    const auto found = project.findings();
    ASSERT_EQ(found.oddShots().size(), 1U);
    EXPECT_EQ(found.oddShots().front().shot, odd);
}

/// New and worn on two days whose clocks err by themselves; a reference struck on both.
MadeProject twoDays(double clock) {
    MadeProject project;
    const auto fresh = project.implement("X", "new");
    const auto worn = project.implement("X", "worn");
    const auto reference = project.implement("reference");
    for (const double noise : {-30.0, -10.0, 0.0, 10.0, 30.0}) {
        project.keep(fresh, "A", 1560.0 + noise, 0.0, clock, "first");
        project.keep(reference, "A", 1500.0 + noise, 0.0, clock, "first");
        project.keep(worn, "A", 1500.0 + 0.9 * noise, 0.0, clock, "second");
        project.keep(reference, "A", 1500.0 + 1.1 * noise, 0.0, clock, "second");
    }
    return project;
}

// One question, one answer: the contrast is the pair.
TEST(SharedParts, NewAgainstWornIsThePair) {
    const auto found = twoDays(0.01).findings();
    ASSERT_EQ(found.conditions.size(), 1U);
    const auto& contrast = *found.conditions.front().difference;
    const auto* pair = found.together().pair({1}, {2});
    ASSERT_NE(pair, nullptr);
    EXPECT_EQ(std::abs(contrast.estimate), pair->differenceRpm);
    EXPECT_EQ(contrast.standardError, pair->standardErrorRpm);
    EXPECT_EQ(contrast.interval.high, pair->interval95.high);
    EXPECT_THAT(sentence(found.conditions.front(), found.noticeableStep),
                HasSubstr(pair->differs ? "they differ" : "cannot be told apart"));
}

// What a day's clock does to new less worn by way of the reference: 1 % of 1560 - 1500 on the first
// day and of 1500 - 1500 on the second, and not 1 % of 1560 and of 1500.
TEST(SharedParts, AReferenceTakesOutTheClockOfItsDay) {
    const auto exact = twoDays(0.0).findings();
    const auto clocked = twoDays(0.01).findings();
    const double own = exact.together().pair({1}, {2})->standardErrorRpm;
    const double both = clocked.together().pair({1}, {2})->standardErrorRpm;
    EXPECT_NEAR(std::sqrt(both * both - own * own), 0.01 * 60.0, 1e-6);
}

// The line of sight is shared by the shots of a session: ten shots do not make it smaller.
TEST(SharedParts, TheLineOfSightDoesNotShrinkWithTheCount) {
    MadeProject project;
    const auto implement = project.implement("X");
    for (int i = 0; i < 10; ++i) {
        project.keep(implement, "A", 2000.0 + (i % 2 == 0 ? 10.0 : -10.0), 40.0);
        project.withView(0.01);
    }
    const auto found = project.findings();
    // Scatter sqrt(10 · 100 / 9 / 10); 1 % of 2000 shared.
    EXPECT_NEAR(found.cells.front().mean->standardUncertainty,
                std::hypot(std::sqrt(100.0 / 9.0), 20.0), 0.01);
}

}  // namespace
