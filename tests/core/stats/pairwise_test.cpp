#include "core/stats/comparison/pairwise.h"

#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "core/stats/comparison/one_way.h"
#include "tests/core/stats/digits.h"
#include "tests/core/stats/grouped.h"

namespace {

using namespace core::stats;
using core::ErrorCode;
using tests::agrees;
using tests::Grouped;
using tests::ReferenceTable;

// R's ptukey stops at about 1e-8 absolute and its qtukey was refined by hand for these tables;
// differences were written with ten digits.
constexpr double kPairDigits = 9.0;
constexpr double kRangeDigits = 7.0;
constexpr double kTailOfR = 2e-8;

class PairTables : public testing::TestWithParam<std::string> {
protected:
    // The pair of a row, turned round where our order is the other way.
    static PairComparison find(const std::vector<PairComparison>& pairs, const Grouped& data,
                               const ReferenceTable& table, std::size_t row) {
        const std::size_t a = data.indexOf(table.text(row, "a"));
        const std::size_t b = data.indexOf(table.text(row, "b"));
        for (PairComparison pair : pairs) {
            if (pair.first == a && pair.second == b) {
                return pair;
            }
            if (pair.first == b && pair.second == a) {
                pair.difference = -pair.difference;
                pair.interval = {-pair.interval.high, -pair.interval.low};
                return pair;
            }
        }
        return {};
    }
};

// R 4.2.2 TukeyHSD.
TEST_P(PairTables, AreThoseOfR) {
    const auto data = Grouped::load("comparisons/data_" + GetParam() + ".csv", "group", "y");
    const auto tukey = tukeyPairs(tests::meansOfOneVariance(data.moments())).value();
    const auto table = ReferenceTable::load("comparisons/pairwise_expected.csv");
    for (std::size_t row = 0; row < table.rowCount(); ++row) {
        if (table.text(row, "dataset") != GetParam()) {
            continue;
        }
        const auto t = find(tukey, data, table, row);
        EXPECT_TRUE(agrees(t.difference, table.number(row, "diff"), kPairDigits));
        EXPECT_TRUE(agrees(t.interval.low, table.number(row, "tukey_low"), kRangeDigits)) << row;
        EXPECT_TRUE(agrees(t.interval.high, table.number(row, "tukey_high"), kRangeDigits)) << row;
        EXPECT_NEAR(t.pValue, table.number(row, "tukey_p"), kTailOfR) << row;
    }
}

INSTANTIATE_TEST_SUITE_P(RDataSets, PairTables,
                         testing::Values("PlantGrowth", "InsectSprays", "chickwts",
                                         "warpbreaks_tension", "ToothGrowth_dose"));

// R help page of TukeyHSD, PlantGrowth (from memory, matched): trt2-trt1 0.865 [0.1737839,
// 1.5562161], adjusted p 0.0120064.
TEST(Pairwise, PlantGrowthOfTheHelpPage) {
    const auto data = Grouped::load("comparisons/data_PlantGrowth.csv", "group", "y");
    const auto pairs = tukeyPairs(tests::meansOfOneVariance(data.moments())).value();
    ASSERT_EQ(pairs.size(), 3U);
    EXPECT_NEAR(pairs[2].interval.low, -1.5562161, 5e-8);
    EXPECT_NEAR(pairs[2].interval.high, -0.1737839, 5e-8);
    EXPECT_NEAR(pairs[2].pValue, 0.0120064, 5e-8);
}

TEST(Pairwise, TwoGroupsAreTheTTest) {  // Student 1908 sleep, R t.test, tables/t_tests_sleep.csv
    const std::vector<std::vector<double>> drugs{
        {0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0.0, 2.0},
        {1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4}};
    const auto table = ReferenceTable::load("tables/t_tests_sleep.csv");
    const auto pooled =
        tukeyPairs(tests::meansOfOneVariance(momentsOfGroups(drugs))).value().front();
    EXPECT_TRUE(agrees(pooled.pValue, table.number(3, "p"), 11.0));
    EXPECT_TRUE(agrees(pooled.interval.high, table.number(3, "ci95_high"), 11.0));
}

TEST(Pairwise, BadInputIsNamed) {
    const EstimatedMeans flat{.means = {1.0, 2.0}, .covariance = {0, 0, 0, 0}, .dof = {3.0}};
    const auto pairs = tukeyPairs(flat);
    EXPECT_EQ(pairs.error().code, ErrorCode::Untrustworthy);
    EXPECT_NE(pairs.error().message.find("Groups 1 and 2"), std::string::npos);
    EXPECT_EQ(tukeyPairs({}).error().code, ErrorCode::InvalidInput);
    EXPECT_EQ(tukeyPairs(flat, {1.5}).error().code, ErrorCode::OutOfRange);
    EXPECT_EQ(tukeyPairs({.means = {1.0, 2.0}, .covariance = {1.0}, .dof = {3.0}}).error().code,
              ErrorCode::InvalidInput);
}

}  // namespace
