#include "core/stats/comparison/power.h"

#include <gtest/gtest.h>

#include <cmath>

#include "tests/support/reference_csv.h"

namespace {

using namespace core::stats;
using core::ErrorCode;
using tests::ReferenceTable;

// R 4.2.2 power.t.test(strict = TRUE); statsmodels agrees. Ten digits were written; R's noncentral
// t is good to about 1e-10 absolute.
TEST(Power, OfTheTwoSampleTestIsThatOfR) {
    constexpr double kAbsolute = 2e-10;
    const auto table = ReferenceTable::load("models/power_shots.csv");
    ASSERT_GT(table.rowCount(), 50U);
    for (std::size_t row = 0; row < table.rowCount(); ++row) {
        const StepDesign design{.step = table.number(row, "delta_over_sd"),
                                .standardDeviation = 1.0};
        EXPECT_NEAR(powerForStep(design, table.number(row, "n")).value(),
                    table.number(row, "power_two_sample_t"), kAbsolute)
            << row;
    }
}

// The table's n leaves out the far tail (strict = FALSE), which costs most at a power of 0.8 and
// the fewest shots: R 4.2.2 gives 63.7657637248 without it and 63.7656101909 with strict = TRUE and
// tol = 1e-12. Ours has both tails.
constexpr double kFarTail = 1.6e-4;

TEST(Power, ShotsPerCellAreThoseOfR) {
    const auto table = ReferenceTable::load("models/sample_size_shots.csv");
    ASSERT_EQ(table.rowCount(), 18U);
    for (std::size_t row = 0; row < table.rowCount(); ++row) {
        const StepDesign design{.step = table.number(row, "delta_over_sd"),
                                .standardDeviation = 1.0};
        const double shots = shotsForStep(design, {table.number(row, "power")}).value();
        EXPECT_NEAR(shots, table.number(row, "n_exact"), kFarTail) << row;
        EXPECT_EQ(std::ceil(shots), table.number(row, "n_shots")) << row;
    }
}

// R 4.2.2 power.t.test(strict = TRUE, tol = 1e-13), 0.9 and 0.8 of power, and one-sided.
TEST(Power, ShotsPerCellAreThoseOfRWhenItLooksClosely) {
    const auto shotsFor = [](const StepDesign& design, double power) {
        return shotsForStep(design, {power}).value();
    };
    EXPECT_NEAR(shotsFor({.step = 1.0, .standardDeviation = 1.0}, 0.9), 22.021088426374, 1e-10);
    EXPECT_NEAR(shotsFor({.step = 1.5, .standardDeviation = 1.0}, 0.8), 8.0602942779683, 1e-10);
    EXPECT_NEAR(shotsFor({.step = 1.0, .standardDeviation = 1.0, .isOneSided = true}, 0.9),
                17.847120626537, 1e-10);
}

// R 4.2.2 power.t.test(n =, sd = 1, power =, sig.level =, strict = TRUE, tol = 1e-12)$delta.
TEST(Power, SmallestStepsAreThoseOfR) {
    constexpr double kAbsolute = 1e-10;
    const auto stepOf = [](double shots, double power, double alpha, double deviation) {
        return smallestStep({.standardDeviation = deviation, .alpha = alpha}, shots, {power})
            .value();
    };
    EXPECT_NEAR(stepOf(2.0, 0.8, 0.05, 1.0), 5.65348926619, kAbsolute);
    EXPECT_NEAR(stepOf(3.0, 0.8, 0.05, 1.0), 3.07089226636, kAbsolute);
    EXPECT_NEAR(stepOf(6.0, 0.8, 0.05, 1.0), 1.79554092062, kAbsolute);
    EXPECT_NEAR(stepOf(40.0, 0.8, 0.05, 1.0), 0.634298529137, kAbsolute);
    EXPECT_NEAR(stepOf(10.0, 0.9, 0.05 / 28.0, 1.0), 2.286333085, 1e-9);
    EXPECT_NEAR(stepOf(10.0, 0.8, 0.05, 150.0), 150.0 * 1.32494739258, 150.0 * kAbsolute);
    EXPECT_EQ(smallestStep({.standardDeviation = 1.0}, 1.0, {0.8}).error().code,
              ErrorCode::OutOfRange);
}

// R help page power.t.test, printed with seven digits (from memory, matched).
// The page's own two-sided power leaves out the far region, which is 2.3e-7 here.
TEST(Power, ExamplesOfTheHelpPages) {
    const StepDesign unit{.step = 1.0, .standardDeviation = 1.0};
    EXPECT_NEAR(powerForStep(unit, 20.0).value(), 0.8689528, 3e-7);
    EXPECT_NEAR(shotsForStep(unit, {0.90}).value(), 22.02110, kFarTail);
    const StepDesign oneSided{.step = 1.0, .standardDeviation = 1.0, .isOneSided = true};
    EXPECT_NEAR(shotsForStep(oneSided, {0.90}).value(), 17.84713, kFarTail);
}

// Equal variances and counts: Welch's test is the pooled one. power.t.test(delta = 1, power = 0.9):
// 22.02 shots, so with 17 a cell six more (23) are needed, and with 23 none.
TEST(Power, SixMoreShotsEachSeparateAPair) {
    const auto extraFor = [](double count) {
        const PresentPair pair{.difference = -1.0,
                               .firstVariance = 1.0,
                               .secondVariance = 1.0,
                               .firstCount = count,
                               .secondCount = count};
        return extraShotsToSeparate(pair, 0.05, {0.90}).value();
    };
    EXPECT_EQ(extraFor(17.0), 6);
    EXPECT_EQ(extraFor(22.0), 1);
    EXPECT_EQ(extraFor(23.0), 0);
}

TEST(Power, BadInputIsNamed) {
    const StepDesign good{.step = 1.0, .standardDeviation = 1.0};
    EXPECT_EQ(powerForStep({.step = 0.0, .standardDeviation = 1.0}, 5.0).error().code,
              ErrorCode::OutOfRange);
    EXPECT_EQ(powerForStep(good, 1.0).error().code, ErrorCode::OutOfRange);
    EXPECT_EQ(powerForStep(good, std::nan("")).error().code, ErrorCode::NotFinite);
    EXPECT_EQ(shotsForStep(good, {0.04}).error().code, ErrorCode::OutOfRange);
    EXPECT_EQ(shotsForStep({.step = 1e-6, .standardDeviation = 1.0}, {0.8}).error().code,
              ErrorCode::OutOfRange);
    const PresentPair same{.difference = 0.0,
                           .firstVariance = 1.0,
                           .secondVariance = 1.0,
                           .firstCount = 5.0,
                           .secondCount = 5.0};
    EXPECT_EQ(extraShotsToSeparate(same, 0.05, {0.8}).error().code, ErrorCode::OutOfRange);
}

}  // namespace
