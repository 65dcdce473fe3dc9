#include "core/stats/model/studentized_range.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <map>
#include <string>

#include "tests/core/stats/digits.h"
#include "tests/support/reference_csv.h"

namespace {

using namespace core::stats;
using tests::agrees;
using tests::ReferenceTable;

const StudentizedRange& rangeOf(int groups) {
    static std::map<int, StudentizedRange> ranges;
    return ranges.try_emplace(groups, groups).first->second;
}

DegreesOfFreedom dofOf(double tabled) {  // an empty field stands for infinity
    return {std::isnan(tabled) ? std::numeric_limits<double>::infinity() : tabled};
}

// High-precision quadrature with mpmath, reference of SciPy's own tests (BSD-3-Clause).
TEST(StudentizedRange, CdfMatchesHighPrecisionQuadrature) {
    constexpr double kAbsolute = 1e-12;  // SciPy asks 1e-11 of itself at these points
    const auto table = ReferenceTable::load("tables/studentized_range_mpmath.csv");
    int checked = 0;
    for (std::size_t row = 0; row < table.rowCount(); ++row) {
        if (table.text(row, "kind") != "cdf") {
            continue;
        }
        const double q = table.number(row, "q");
        const int k = static_cast<int>(table.number(row, "k"));
        EXPECT_NEAR(rangeOf(k).cdf(q, dofOf(table.number(row, "v"))), table.number(row, "value"),
                    kAbsolute)
            << "q " << q << " k " << k << " v " << table.text(row, "v");
        ++checked;
    }
    EXPECT_GT(checked, 70);
}

// SciPy 1.10.1 scipy.stats.studentized_range. The quantiles were written with nine digits, the
// tails with their own.
TEST(StudentizedRange, TailsAndQuantilesAreThoseOfSciPy) {
    const auto table = ReferenceTable::load("tables/studentized_range_scipy.csv");
    ASSERT_GT(table.rowCount(), 1200U);
    for (std::size_t row = 0; row < table.rowCount(); ++row) {
        const int k = static_cast<int>(table.number(row, "k"));
        const DegreesOfFreedom dof = dofOf(table.number(row, "dof"));
        const double p = table.number(row, "p");
        const double q = table.number(row, "q");
        const bool isQuantile = table.text(row, "kind") == "quantile";
        const double computed =
            isQuantile ? rangeOf(k).upperQuantile({1.0 - p}, dof) : rangeOf(k).upperTail(q, dof);
        EXPECT_TRUE(agrees(computed, isQuantile ? q : p, 8.0))
            << table.text(row, "kind") << " k " << k << " dof " << dof.value;
    }
}

// What R 4.2.2 gives, within what its tables say of their own error: tails to 1e-5, quantiles to
// 3e-4 (q(0.99; 20 groups, 4 dof) is 14.3898 in R and 14.3939 by SciPy and mpmath, which rule).
TEST(StudentizedRange, IsAsCloseToRAsRIsToTheTruth) {
    const auto tails = ReferenceTable::load("tables/studentized_range_pvalues.csv");
    for (std::size_t row = 0; row < tails.rowCount(); ++row) {
        const double p = rangeOf(static_cast<int>(tails.number(row, "k")))
                             .upperTail(tails.number(row, "q"), {tails.number(row, "dof")});
        EXPECT_TRUE(agrees(p, tails.number(row, "p_upper"), 5.0)) << row;
    }
    const auto quantiles = ReferenceTable::load("tables/studentized_range_quantiles.csv");
    for (std::size_t row = 0; row < quantiles.rowCount(); ++row) {
        const double q = rangeOf(static_cast<int>(quantiles.number(row, "k")))
                             .upperQuantile({1.0 - quantiles.number(row, "p")},
                                            dofOf(quantiles.number(row, "dof")));
        EXPECT_TRUE(agrees(q, quantiles.number(row, "q"), 3.5)) << row;
    }
    EXPECT_NEAR(rangeOf(20).upperQuantile({0.01}, {4.0}), 14.3939, 5e-5);
}

// Two values: the range is |difference|, so Q / sqrt 2 is |t| exactly.
TEST(StudentizedRange, TwoGroupsAreStudentsT) {
    for (const double dof : {1.0, 1.3, 2.7, 5.0, 30.0, 1000.0, 1e6}) {
        for (const double q : {0.1, 1.0, 3.5, 7.0}) {
            EXPECT_TRUE(agrees(rangeOf(2).upperTail(q, {dof}),
                               StudentT{{dof}}.twoSided(q / std::sqrt(2.0)), 12.0))
                << dof << ' ' << q;
        }
    }
}

TEST(StudentizedRange, QuantileInvertsTheTail) {
    for (const int k : {3, 10, 50}) {
        for (const double dof : {2.0, 7.5, 1000.0, std::numeric_limits<double>::infinity()}) {
            for (const double alpha : {1e-9, 0.001, 0.05, 0.5, 0.95}) {
                const double q = rangeOf(k).upperQuantile({alpha}, {dof});
                EXPECT_TRUE(agrees(rangeOf(k).upperTail(q, {dof}), alpha, 9.0))
                    << k << ' ' << dof << ' ' << alpha;
            }
        }
    }
}

TEST(StudentizedRange, LargeDegreesOfFreedomReachTheLimit) {
    const double limit = rangeOf(10).upperTail(4.0, {std::numeric_limits<double>::infinity()});
    EXPECT_TRUE(agrees(rangeOf(10).upperTail(4.0, {1e12}), limit, 9.0));
    EXPECT_EQ(rangeOf(10).upperTail(0.0, {5.0}), 1.0);
}

TEST(StudentizedRangeDeathTest, OneGroupHasNoRange) {
    EXPECT_DEATH(StudentizedRange{1}, "precondition");
}

}  // namespace
