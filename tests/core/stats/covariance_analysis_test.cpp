#include "core/stats/comparison/covariance_analysis.h"

#include <gtest/gtest.h>

#include <vector>

#include "tests/core/stats/digits.h"

namespace {

using namespace core::stats;
using core::ErrorCode;
using tests::agrees;

// Group 1 is y = 10 + 2 x, group 2 y = 20 + 2 x, each with +1 -1 -1 +1 about its line (orthogonal
// to x); covariate means 1.5 and 3.5, centre 2.5: adjusted means 15 and 25.
const std::vector<double> kX1{0.0, 1.0, 2.0, 3.0};
const std::vector<double> kY1{11.0, 11.0, 13.0, 17.0};
const std::vector<double> kX2{2.0, 3.0, 4.0, 5.0};
const std::vector<double> kY2{25.0, 25.0, 27.0, 31.0};
const std::vector<PairedValues> kGroups{{kX1, kY1}, {kX2, kY2}};

TEST(CovarianceAnalysis, MeansAreComparedAtTheSameCovariate) {
    const auto result = analyseCovariance(kGroups).value();
    EXPECT_DOUBLE_EQ(result.centre, 2.5);
    EXPECT_NEAR(result.slope.estimate, 2.0, 1e-12);
    EXPECT_NEAR(result.adjusted.means[0], 15.0, 1e-12);
    EXPECT_NEAR(result.adjusted.means[1], 25.0, 1e-12);
    EXPECT_EQ(result.adjusted.dof.value, 5.0);  // 8 values, 2 means, 1 slope
    // residual 8 over 5 dof; 1/4 + (1.5 - 2.5)^2 / 10
    EXPECT_NEAR(result.adjusted.covariance[0], 1.6 * (0.25 + 0.1), 1e-12);
    EXPECT_NEAR(result.adjusted.covariance[1], 1.6 * -0.1, 1e-12);
}

// F of the groups by hand: difference 10, variance 1.6 (2 (0.35) + 0.2): t^2 = 100 / 1.44.
TEST(CovarianceAnalysis, TestOfTwoGroupsIsTheSquareOfT) {
    const auto result = analyseCovariance(kGroups).value();
    EXPECT_TRUE(agrees(result.groups.f, 100.0 / 1.44, 12.0));
    EXPECT_EQ(result.groups.dof.numerator.value, 1.0);
    ASSERT_TRUE(result.equalSlopes.has_value());
    EXPECT_NEAR(result.equalSlopes->f, 0.0, 1e-12);  // both slopes are 2
    EXPECT_EQ(result.equalSlopes->dof.denominator.value, 4.0);
}

TEST(CovarianceAnalysis, BadInputIsNamed) {
    const std::vector<double> flat{1.0, 1.0, 1.0, 1.0};
    const std::vector<double> two{1.0, 2.0};
    const auto codeOf = [](const std::vector<PairedValues>& groups) {
        return analyseCovariance(groups).error().code;
    };
    EXPECT_EQ(codeOf({{kX1, kY1}}), ErrorCode::InvalidInput);
    EXPECT_EQ(codeOf({{flat, kY1}, {flat, kY2}}), ErrorCode::InvalidInput);
    EXPECT_EQ(codeOf({{kX1, two}, {kX2, kY2}}), ErrorCode::InvalidInput);
    EXPECT_EQ(codeOf({{kX1, kX1}, {kX2, kX2}}), ErrorCode::Untrustworthy);
    EXPECT_EQ(analyseCovariance(kGroups, {0.0}).error().code, ErrorCode::OutOfRange);
}

}  // namespace
