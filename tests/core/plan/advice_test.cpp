#include "core/plan/advice.h"

#include <gtest/gtest.h>

#include "tests/core/plan/plans.h"
#include "tests/support/in_german.h"

namespace core::plan {
namespace {

using tests::plan::planOf;

constexpr double kArithmetic = 1e-9;  // of a few multiplications

bool isSaid(const Advice& advice, std::string_view part) {
    return std::any_of(advice.lines.begin(), advice.lines.end(), [part](const AdviceLine& line) {
        return line.text.find(part) != std::string::npos;
    });
}

int warnings(const Advice& advice) {
    return static_cast<int>(std::count_if(advice.lines.begin(), advice.lines.end(),
                                          [](const AdviceLine& line) { return line.isWarning; }));
}

// R: power.t.test(delta = 1, sd = 1, power = 0.8, strict = TRUE) gives n = 16.715; with n = 10 in
// place of the power it gives 0.562; with sig.level = 0.05/28 (eight implements) n = 33.924.
TEST(AdviceTest, ShotsForAStepOfOneStandardDeviationAreSeventeen) {
    Plan plan = planOf(2, 1);
    plan.assumedScatterRpm = 300.0;
    const auto advice = adviceFor(plan, {300.0, std::nullopt});
    EXPECT_EQ(advice.shotsForOnePair, 17);
    EXPECT_FALSE(advice.shotsForAllPairs.has_value());
    EXPECT_TRUE(isSaid(advice, "17 shots"));
    EXPECT_TRUE(isSaid(advice, "assumed"));
    EXPECT_EQ(warnings(advice), 1) << "ten are planned";
    constexpr double kAsPrinted = 5e-4;
    EXPECT_NEAR(*advice.powerAsPlanned, 0.562, kAsPrinted);
    Plan wide = planOf(8, 1);
    wide.assumedScatterRpm = 300.0;
    EXPECT_EQ(adviceFor(wide, {300.0, std::nullopt}).shotsForAllPairs, 34);
}

// R: power.t.test(n = 6, sd = 150, power = 0.8, strict = TRUE) gives delta = 269.33.
TEST(AdviceTest, SmallestDifferenceIsSaidForEachNumberOfShots) {
    Plan plan = planOf(8, 2);
    plan.shotsPerCell = 6;
    EXPECT_TRUE(adviceFor(plan, {300.0, std::nullopt}).smallestSteps.empty());
    plan.assumedScatterRpm = 150.0;
    const auto advice = adviceFor(plan, {});
    ASSERT_TRUE(advice.smallestStepAsPlannedRpm.has_value());
    EXPECT_NEAR(*advice.smallestStepAsPlannedRpm, 269.33, 5e-3);
    const auto& steps = advice.smallestSteps;
    ASSERT_GE(steps.size(), 2U);
    EXPECT_EQ(steps.front().shotsPerCell, 3);
    EXPECT_EQ(steps.back().shotsPerCell, 18);
    for (std::size_t i = 1; i < steps.size(); ++i) {
        EXPECT_LT(steps[i - 1].shotsPerCell, steps[i].shotsPerCell) << i;
        EXPECT_GT(steps[i - 1].rpm, steps[i].rpm) << i;
    }
    plan.shotsPerCell = 2;
    EXPECT_EQ(adviceFor(plan, {}).smallestSteps.front().shotsPerCell, 2);
}

TEST(AdviceTest, MeasuredScatterGoesBeforeTheAssumedOne) {
    Plan plan = planOf(2, 1);
    plan.assumedScatterRpm = 300.0;
    const auto advice = adviceFor(plan, {300.0, 100.0});
    ASSERT_TRUE(advice.shotsForOnePair.has_value());
    // R: power.t.test(delta = 3, sd = 1, power = 0.8, strict = TRUE) gives n = 3.07.
    EXPECT_EQ(*advice.shotsForOnePair, 4);
    EXPECT_TRUE(isSaid(advice, "measured"));
    EXPECT_TRUE(isSaid(advice, "are not used"));
    EXPECT_EQ(warnings(advice), 0);
}

// The worked example of the trade: at 120 frames per second a ball at 1500 rpm turns once in 4.8
// frames, and a whole-frame count says 1440 (5 frames) or 1800 (4 frames).
TEST(AdviceTest, CoarsenessOfWholeFrameCountsIsSaid) {
    Plan plan = planOf(2, 1);
    plan.filming = {120.0, 0.001, 1500.0};
    const auto advice = adviceFor(plan, {});
    EXPECT_NEAR(*advice.framesPerTurn, 4.8, kArithmetic);
    EXPECT_NEAR(*advice.countedBelowRpm, 1440.0, kArithmetic);
    EXPECT_NEAR(*advice.countedAboveRpm, 1800.0, kArithmetic);
    EXPECT_NEAR(*advice.blurDegrees, 9.0, kArithmetic);  // 25 turns a second, 360°, 1 ms
    EXPECT_TRUE(isSaid(advice, "4.8 frames"));
    EXPECT_TRUE(isSaid(advice, "1440 rpm or 1800 rpm"));
    EXPECT_TRUE(isSaid(advice, "9°"));
    EXPECT_EQ(warnings(advice), 0);
}

TEST(AdviceTest, GermanHasADecimalComma) {
    Plan plan = planOf(2, 1);
    plan.filming = {120.0, 0.0016, 1500.0};
    const InGerman german;
    const auto advice = adviceFor(plan, {});
    EXPECT_TRUE(isSaid(advice,
                       "Bei 120 Bildern pro Sekunde dreht sich ein Ball mit 1500 U/min einmal in "
                       "4,8 Bildern."));
    EXPECT_TRUE(isSaid(advice, "(1,6 ms), dreht sich die Markierung um 14°"));
    EXPECT_TRUE(isSaid(advice, "entweder 1440 U/min oder 1800 U/min"));
}

TEST(AdviceTest, WholeFramesPerTurnAreTheStroboscope) {
    Plan plan = planOf(2, 1);
    plan.filming = {120.0, std::nullopt, 1800.0};  // exactly 4 frames
    const auto advice = adviceFor(plan, {});
    EXPECT_NEAR(*advice.countedBelowRpm, 1800.0, kArithmetic);
    EXPECT_NEAR(*advice.countedAboveRpm, 1800.0, kArithmetic);
    EXPECT_TRUE(isSaid(advice, "1440 rpm and 2400 rpm"));  // 5 and 3 frames
}

TEST(AdviceTest, FewFramesAndBlurAreWarnedOf) {
    Plan plan = planOf(2, 1);
    plan.filming = {120.0, 0.008, 3000.0};  // 2.4 frames a turn; 50 turns · 360° · 8 ms = 144°
    auto advice = adviceFor(plan, {});
    EXPECT_EQ(warnings(advice), 2);
    EXPECT_NEAR(*advice.blurDegrees, 144.0, kArithmetic);
    EXPECT_TRUE(isSaid(advice, "150 frames per second"));  // 3 · 50
    EXPECT_TRUE(isSaid(advice, "2.5 ms"));                 // 45° ÷ (50 · 360°)
    plan.marking = BallMarking::Band;                      // looks alike after 1.2 frames
    advice = adviceFor(plan, {});
    EXPECT_TRUE(isSaid(advice, "cannot be told"));
    EXPECT_TRUE(isSaid(advice, "300 frames per second"));
}

TEST(AdviceTest, WhatIsNotKnownIsAskedFor) {
    const auto advice = adviceFor(planOf(2, 1), {});
    EXPECT_EQ(advice.lines.size(), 2U);
    EXPECT_EQ(warnings(advice), 0);
    EXPECT_TRUE(isSaid(advice, "noticeable step"));
    EXPECT_TRUE(isSaid(advice, "capture rate"));
}

}  // namespace
}  // namespace core::plan
