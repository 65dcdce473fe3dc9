#include "core/stats/model/distributions.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <string>

#include "tests/core/stats/digits.h"
#include "tests/support/reference_csv.h"

namespace {

using namespace core::stats;
using tests::agrees;
using tests::ReferenceTable;

// The tables were written with 10 significant digits (quantiles) and 12 (tail probabilities).
constexpr double kQuantileDigits = 9.0;
constexpr double kTailDigits = 10.5;

// Column "p0.975" holds the quantiles of 0.975.
constexpr const char* kTColumns[] = {"p0.75", "p0.9",   "p0.95",  "p0.975",
                                     "p0.99", "p0.995", "p0.999", "p0.9995"};
constexpr const char* kChiColumns[] = {"p0.005", "p0.01", "p0.025", "p0.05", "p0.1",  "p0.5",
                                       "p0.9",   "p0.95", "p0.975", "p0.99", "p0.995"};

Probability probabilityOf(const std::string& column) {
    return {std::stod(column.substr(1))};
}

TEST(Distributions, TQuantilesAreThoseOfR) {  // R 4.2.2 qt; agrees with JCGM 100:2008 table G.2
    const auto table = ReferenceTable::load("tables/t_quantiles.csv");
    ASSERT_EQ(table.rowCount(), 42U);
    for (std::size_t row = 0; row < table.rowCount(); ++row) {
        const double dof = table.number(row, "dof");
        const StudentT t{{std::isnan(dof) ? std::numeric_limits<double>::infinity() : dof}};
        for (const char* column : kTColumns) {
            EXPECT_TRUE(agrees(t.quantile(probabilityOf(column)), table.number(row, column),
                               kQuantileDigits))
                << "dof " << dof << ' ' << column;
        }
    }
}

TEST(Distributions, ChiSquareQuantilesAreThoseOfR) {  // R 4.2.2 qchisq
    const auto table = ReferenceTable::load("tables/chi2_quantiles.csv");
    ASSERT_GT(table.rowCount(), 30U);
    for (std::size_t row = 0; row < table.rowCount(); ++row) {
        const ChiSquare chi{{table.number(row, "dof")}};
        for (const char* column : kChiColumns) {
            EXPECT_TRUE(agrees(chi.quantile(probabilityOf(column)), table.number(row, column),
                               kQuantileDigits))
                << table.text(row, "dof") << ' ' << column;
        }
    }
}

TEST(Distributions, FQuantilesAreThoseOfR) {  // R 4.2.2 qf
    const auto table = ReferenceTable::load("tables/f_quantiles.csv");
    ASSERT_GT(table.rowCount(), 890U);
    for (std::size_t row = 0; row < table.rowCount(); ++row) {
        const FDistribution f{{{table.number(row, "df1")}, {table.number(row, "df2")}}};
        const double p = table.number(row, "p");
        EXPECT_TRUE(agrees(f.quantile({p}), table.number(row, "F"), kQuantileDigits)) << row;
        EXPECT_TRUE(agrees(f.upperQuantile({1.0 - p}), table.number(row, "F"), kQuantileDigits));
    }
}

TEST(Distributions, TailProbabilitiesAreThoseOfR) {  // R 4.2.2 pt, pf, pchisq
    const auto table = ReferenceTable::load("tables/p_values.csv");
    ASSERT_EQ(table.rowCount(), 20U);
    for (std::size_t row = 0; row < table.rowCount(); ++row) {
        const std::string kind = table.text(row, "dist");
        const double x = table.number(row, "x");
        const DegreesOfFreedom dof{table.number(row, "df1")};
        double tail = std::numeric_limits<double>::quiet_NaN();
        if (kind == "t two-sided") {
            tail = StudentT{dof}.twoSided(x);
        } else if (kind == "F upper") {
            tail = FDistribution{{dof, {table.number(row, "df2")}}}.upperTail(x);
        } else if (kind == "chi2 upper") {
            tail = ChiSquare{dof}.upperTail(x);
        }
        EXPECT_TRUE(agrees(tail, table.number(row, "p"), kTailDigits)) << kind << ' ' << x;
    }
}

// Abramowitz and Stegun 1964, table 26.1: P(1.96) = 0.97500 21048 51780 (from memory, to be
// confirmed); the quantile is the last row of JCGM 100:2008 table G.2 and of
// tables/t_quantiles.csv.
TEST(Distributions, NormalMatchesTheHandbook) {
    EXPECT_NEAR(NormalDistribution{}.cdf(1.96), 0.975002104851780, 1e-15);
    EXPECT_NEAR(NormalDistribution{}.upperTail(1.96), 0.024997895148220, 1e-15);
    EXPECT_NEAR(NormalDistribution{}.quantile({0.975}), 1.959963985, 5e-10);
}

TEST(Distributions, CoverageFactorIsTheTwoSidedQuantile) {  // JCGM 100:2008 G.2: 2.57 at 5, 95 %
    EXPECT_DOUBLE_EQ(StudentT{{5.0}}.coverageFactor({0.95}), StudentT{{5.0}}.quantile({0.975}));
}

TEST(Distributions, LowerAndUpperTailMakeOne) {
    EXPECT_NEAR(StudentT{{7.0}}.cdf(1.3) + StudentT{{7.0}}.upperTail(1.3), 1.0, 1e-15);
    const NoncentralT t{{7.0}, {2.0}};
    EXPECT_NEAR(t.cdf(1.3) + t.upperTail(1.3), 1.0, 1e-14);
}

TEST(DistributionsDeathTest, DegreesOfFreedomBelowZeroAreABug) {
    EXPECT_DEATH(StudentT{{-1.0}}, "precondition");
    EXPECT_DEATH(static_cast<void>(StudentT{{3.0}}.quantile({1.0})), "precondition");
}

}  // namespace
