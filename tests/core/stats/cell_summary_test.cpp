#include "core/stats/sample/cell_summary.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <vector>

#include "tests/core/stats/digits.h"

namespace {

using namespace core::stats;
using core::ErrorCode;
using tests::agrees;

// mean 1000, s = 10 (sum of squares 200 over 2), se = 10/sqrt(3)
const std::vector<double> kThreeReadings{990.0, 1000.0, 1010.0};

TEST(CellSummary, WithoutASharedPartItIsTheSample) {
    const auto cell = summariseCell({.values = kThreeReadings}).value();
    ASSERT_TRUE(cell.mean.has_value());
    EXPECT_DOUBLE_EQ(cell.mean->standardUncertainty, cell.sample.spread->standardError);
    EXPECT_TRUE(agrees(cell.mean->interval.low, cell.sample.spread->meanInterval.low, 14.0));
    EXPECT_FALSE(cell.split.has_value());
}

TEST(CellSummary, TheSharedPartIsAddedAfterAveraging) {
    const auto cell =
        summariseCell({.values = kThreeReadings, .sharedRelativeUncertainty = 0.01}).value();
    EXPECT_DOUBLE_EQ(cell.mean->sharedUncertainty, 10.0);  // 1 % of 1000, three readings or not
    EXPECT_DOUBLE_EQ(cell.mean->standardUncertainty, std::sqrt(100.0 / 3.0 + 100.0));
    // (133.33)^2 / (33.33^2 / 2) = 32 degrees of freedom
    EXPECT_TRUE(agrees(cell.mean->dof.value, 32.0, 13.0));
    // t(0.975; 32) = 2.036933 (R 4.2.2 qt)
    EXPECT_NEAR(cell.mean->interval.high, 1000.0 + 2.036933343 * 11.54700538, 1e-6);
}

// JCGM 100:2008, G.4.1: three components 0.25, 0.57, 0.82 with 9, 4, 14 dof have 19.0; here one
// component of infinite dof: 0.57 with 9 and 0.25 with infinity make 12.8 (tabled with R).
TEST(CellSummary, EffectiveDegreesOfFreedomAreWelchSatterthwaite) {
    std::vector<double> ten;  // mean 1, se 0.57 by construction: +-a about 1, s^2 = 10 a^2 / 9
    const double a = 0.57 * std::sqrt(9.0);
    for (int i = 0; i < 5; ++i) {
        ten.push_back(1.0 + a);
        ten.push_back(1.0 - a);
    }
    const auto cell = summariseCell({.values = ten, .sharedRelativeUncertainty = 0.25}).value();
    EXPECT_TRUE(agrees(cell.sample.spread->standardError, 0.57, 13.0));
    EXPECT_NEAR(cell.mean->dof.value, 12.8, 0.05);
}

TEST(CellSummary, EqualReadingsStillCarryTheClock) {
    const std::vector<double> equal(4, 1440.0);
    const auto cell = summariseCell({.values = equal, .sharedRelativeUncertainty = 0.001}).value();
    EXPECT_DOUBLE_EQ(cell.mean->standardUncertainty, 1.44);
    EXPECT_EQ(cell.mean->dof.value, std::numeric_limits<double>::infinity());
    EXPECT_NEAR(cell.mean->interval.high, 1440.0 + 1.959963985 * 1.44, 1e-8);
}

TEST(CellSummary, ScatterSplitsIntoReadingsAndShots) {
    const std::vector<double> uncertainties{6.0, 6.0, 6.0};
    const auto cell =
        summariseCell({.values = kThreeReadings, .readingUncertainties = uncertainties}).value();
    ASSERT_TRUE(cell.split.has_value());
    EXPECT_DOUBLE_EQ(cell.split->readingDeviation, 6.0);
    EXPECT_TRUE(agrees(cell.split->reml.betweenDeviation, 8.0, 13.0));  // sqrt(10^2 - 6^2)
    EXPECT_TRUE(agrees(cell.split->moments.betweenDeviation, 8.0, 13.0));
}

TEST(CellSummary, OneReadingHasNoIntervalOfItsOwn) {
    const std::vector<double> one{1500.0};
    const auto cell = summariseCell({.values = one, .sharedRelativeUncertainty = 0.01}).value();
    EXPECT_FALSE(cell.mean.has_value());
    EXPECT_FALSE(cell.split.has_value());
}

TEST(CellSummary, BadInputIsNamed) {
    EXPECT_EQ(summariseCell({}).error().code, ErrorCode::InvalidInput);
    EXPECT_EQ(
        summariseCell({.values = kThreeReadings, .sharedRelativeUncertainty = -0.1}).error().code,
        ErrorCode::OutOfRange);
    EXPECT_EQ(summariseCell({.values = kThreeReadings,
                             .sharedRelativeUncertainty = std::numeric_limits<double>::infinity()})
                  .error()
                  .code,
              ErrorCode::NotFinite);
}

}  // namespace
