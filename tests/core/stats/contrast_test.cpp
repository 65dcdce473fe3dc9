#include "core/stats/comparison/contrast.h"

#include <gtest/gtest.h>

#include <vector>

#include "core/stats/comparison/one_way.h"
#include "tests/core/stats/digits.h"
#include "tests/support/reference_csv.h"

namespace {

using namespace core::stats;
using core::ErrorCode;
using tests::agrees;
using tests::ReferenceTable;

const std::vector<double> kDrug1{0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0.0, 2.0};
const std::vector<double> kDrug2{1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4};

std::vector<IndependentMean> sleepMeans() {
    return {independentMean(momentsOf(kDrug1)), independentMean(momentsOf(kDrug2))};
}

// Student 1908, Biometrika 6:1-25, sleep data; Welch's t of R 4.2.2 t.test.
TEST(Contrast, OfTwoMeansIsWelchsT) {
    const auto table = ReferenceTable::load("tables/t_tests_sleep.csv");
    ASSERT_EQ(table.text(2, "test"), "Welch 1-2");
    const std::vector<double> weights{1.0, -1.0};
    const auto result = contrast(sleepMeans(), weights).value();
    EXPECT_TRUE(agrees(result.estimate, table.number(2, "estimate"), 11.0));
    EXPECT_TRUE(agrees(result.t, table.number(2, "t"), 11.0));
    EXPECT_TRUE(agrees(result.dof.value, table.number(2, "df"), 11.0));
    EXPECT_TRUE(agrees(result.pValue, table.number(2, "p"), 11.0));
    EXPECT_TRUE(agrees(result.interval.low, table.number(2, "ci95_low"), 11.0));
    EXPECT_TRUE(agrees(result.interval.high, table.number(2, "ci95_high"), 11.0));
}

// Same source, pooled variance.
TEST(Contrast, OfMeansWithACommonVarianceIsTheClassicT) {
    const auto table = ReferenceTable::load("tables/t_tests_sleep.csv");
    const std::vector<Moments> groups{momentsOf(kDrug1), momentsOf(kDrug2)};
    const double pooled = oneWayAnova(groups).value().meanSquareWithin;
    const EstimatedMeans means{
        .means = {static_cast<double>(groups[0].mean), static_cast<double>(groups[1].mean)},
        .covariance = {pooled / 10.0, 0.0, 0.0, pooled / 10.0},
        .dof = {18.0}};
    const std::vector<double> weights{1.0, -1.0};
    const auto result = contrast(means, weights).value();
    EXPECT_TRUE(agrees(result.pValue, table.number(3, "p"), 11.0));
    EXPECT_TRUE(agrees(result.interval.low, table.number(3, "ci95_low"), 11.0));
}

TEST(Contrast, NewAgainstWornWeighsGroups) {  // (10 + 12)/2 - 8 = 3, variance (1 + 1)/4 + 0.5 = 1
    const std::vector<IndependentMean> means{
        {10.0, 1.0, {5.0}}, {12.0, 1.0, {5.0}}, {8.0, 0.5, {4.0}}};
    const std::vector<double> weights{0.5, 0.5, -1.0};
    const auto result = contrast(means, weights).value();
    EXPECT_DOUBLE_EQ(result.estimate, 3.0);
    EXPECT_DOUBLE_EQ(result.standardError, 1.0);
    // 1 / (2 (1/4)^2 / 5 + (1/2)^2 / 4) = 1 / (0.025 + 0.0625)
    EXPECT_DOUBLE_EQ(result.dof.value, 1.0 / 0.0875);
}

TEST(Contrast, BadInputIsNamed) {
    const std::vector<double> one{1.0};
    const std::vector<double> zeros{0.0, 0.0};
    const std::vector<double> good{1.0, -1.0};
    EXPECT_EQ(contrast(sleepMeans(), one).error().code, ErrorCode::InvalidInput);
    EXPECT_EQ(contrast(sleepMeans(), zeros).error().code, ErrorCode::InvalidInput);
    EXPECT_EQ(contrast(sleepMeans(), good, {0.0}).error().code, ErrorCode::OutOfRange);
    const std::vector<IndependentMean> flat{{1.0, 0.0, {1.0}}, {2.0, 0.0, {1.0}}};
    EXPECT_EQ(contrast(flat, good).error().code, ErrorCode::Untrustworthy);
    EXPECT_EQ(contrast(EstimatedMeans{.means = {1.0, 2.0}, .dof = {3.0}}, good).error().code,
              ErrorCode::InvalidInput);
}

}  // namespace
