#include "core/stats/readers/correlation.h"

#include <gtest/gtest.h>

#include <stdexcept>
#include <string>
#include <vector>

#include "tests/core/stats/digits.h"
#include "tests/support/reference_csv.h"

namespace {

using namespace core::stats;
using core::ErrorCode;
using tests::agrees;
using tests::ReferenceTable;

// Efron and Tibshirani 1993, law school data: r = 0.776; Fisher's 90 % interval 0.508978 to
// 0.907118 (computed with R).
TEST(Correlation, LawSchoolsOfEfronAndTibshirani) {
    const auto data = ReferenceTable::load("models/data_law.csv");
    const auto lsat = data.numbers("LSAT");
    const auto gpa = data.numbers("GPA");
    const auto expected = ReferenceTable::load("models/bootstrap_law.csv");
    const auto result = pearson({lsat, gpa}, {0.90}).value();
    const auto valueOf = [&](const std::string& quantity) {
        for (std::size_t row = 0; row < expected.rowCount(); ++row) {
            if (expected.text(row, "quantity") == quantity) {
                return expected.number(row, "computed");
            }
        }
        throw std::out_of_range(quantity);
    };
    EXPECT_TRUE(agrees(result.coefficient, valueOf("correlation"), 5.8));  // six digits written
    EXPECT_TRUE(agrees(result.interval->low, valueOf("Fisher z 90 % low"), 5.8));
    EXPECT_TRUE(agrees(result.interval->high, valueOf("Fisher z 90 % high"), 5.8));
}

// Bland and Altman 1986: r of the first readings of the two meters is 0.94.
TEST(Correlation, FlowMetersOfBlandAndAltman) {
    const auto data = ReferenceTable::load("agreement/pefr.csv");
    const auto wright = data.numbers("wright1");
    const auto mini = data.numbers("mini1");
    const auto expected = ReferenceTable::load("agreement/pefr_expected.csv");
    ASSERT_EQ(expected.text(15, "quantity"), "r of first readings");
    EXPECT_TRUE(
        agrees(pearson({wright, mini}).value().coefficient, expected.number(15, "computed"), 11.0));
}

// Without ties rho = 1 - 6 sum d^2 / (n (n^2 - 1)): d = 1 1 0 0 0 for one swap of five: 0.9.
TEST(Correlation, SpearmanByHand) {
    const std::vector<double> x{1.0, 20.0, 300.0, 4000.0, 50000.0};
    const std::vector<double> y{2.0, 1.0, 3.0, 4.0, 5.0};
    EXPECT_NEAR(spearman({x, y}).value().coefficient, 0.9, 1e-15);
}

TEST(Correlation, TiesShareTheMeanRank) {
    const std::vector<double> values{5.0, 1.0, 5.0, 7.0, 5.0};
    EXPECT_EQ(midRanks(values), (std::vector<double>{3.0, 1.0, 3.0, 5.0, 3.0}));
}

TEST(Correlation, ThreePairsHaveNoInterval) {
    const std::vector<double> x{1.0, 2.0, 3.0};
    const std::vector<double> y{1.0, 3.0, 2.0};
    EXPECT_FALSE(pearson({x, y}).value().interval.has_value());
}

TEST(Correlation, BadInputIsNamed) {
    const std::vector<double> two{1.0, 2.0};
    const std::vector<double> three{1.0, 2.0, 3.0};
    const std::vector<double> flat{1.0, 1.0, 1.0};
    EXPECT_EQ(pearson({two, two}).error().code, ErrorCode::InvalidInput);
    EXPECT_EQ(spearman({three, two}).error().code, ErrorCode::InvalidInput);
    EXPECT_EQ(pearson({flat, three}).error().code, ErrorCode::InvalidInput);
    EXPECT_EQ(spearman({three, flat}).error().code, ErrorCode::InvalidInput);
    EXPECT_EQ(pearson({three, three}, {2.0}).error().code, ErrorCode::OutOfRange);
}

}  // namespace
