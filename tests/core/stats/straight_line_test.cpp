#include "core/stats/model/straight_line.h"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "tests/core/stats/digits.h"
#include "tests/support/reference_csv.h"

namespace {

using namespace core::stats;
using core::ErrorCode;
using tests::agrees;
using tests::ReferenceTable;

// NIST StRD Norris, certified values: -0.262323073774029 (0.232818234301152), 1.00211681802045
// (0.429796848199937e-3), residual deviation 0.884796396144373.
TEST(StraightLine, NorrisHasItsCertifiedDigits) {
    const auto data = ReferenceTable::load("strd/linear_Norris.csv");
    const auto x = data.numbers("x");
    const auto y = data.numbers("y");
    const auto line = fitStraightLine({x, y}).value();
    EXPECT_TRUE(agrees(line.intercept, -0.262323073774029, 12.0));
    EXPECT_TRUE(agrees(line.interceptError, 0.232818234301152, 13.0));
    EXPECT_TRUE(agrees(line.slope.estimate, 1.00211681802045, 14.0));
    EXPECT_TRUE(agrees(line.slope.standardError, 0.429796848199937e-3, 13.0));
    EXPECT_TRUE(agrees(line.residualDeviation, 0.884796396144373, 13.0));
}

// JCGM 100:2008, H.3: calibration of a thermometer, t - 20 degC against the correction: -0.1712
// (0.0029), 0.00218 (0.00067), and -0.1494 (0.0041) at 30 degC.
TEST(StraightLine, ThermometerOfTheGuide) {
    const std::vector<double> overTwenty{1.521, 2.012, 2.512, 3.003, 3.507, 3.999,
                                         4.513, 5.002, 5.503, 6.010, 6.511};
    const std::vector<double> correction{-0.171, -0.169, -0.166, -0.159, -0.164, -0.165,
                                         -0.156, -0.157, -0.159, -0.161, -0.160};
    const auto line = fitStraightLine({overTwenty, correction}).value();
    EXPECT_NEAR(line.intercept, -0.1712, 5e-5);
    EXPECT_NEAR(line.interceptError, 0.0029, 5e-5);
    EXPECT_NEAR(line.slope.estimate, 0.00218, 5e-6);
    EXPECT_NEAR(line.slope.standardError, 0.00067, 5e-6);
    EXPECT_NEAR(line.residualDeviation, 0.0035, 5e-5);
    EXPECT_NEAR(line.valueAt(10.0), -0.1494, 5e-5);
    EXPECT_NEAR(line.errorAt(10.0), 0.0041, 5e-5);
}

// A drift of 5 rpm a shot under a scatter of +-3: y = 1500 + 5 x, then +3 -3 -3 +3 (sums to zero
// and is orthogonal to x), s^2 = 36/2, slope error sqrt(18/5).
TEST(StraightLine, DriftOverShots) {
    const std::vector<double> shots{1.0, 2.0, 3.0, 4.0};
    const std::vector<double> spins{1508.0, 1507.0, 1512.0, 1523.0};
    const auto line = fitStraightLine({shots, spins}).value();
    EXPECT_DOUBLE_EQ(line.slope.estimate, 5.0);
    EXPECT_DOUBLE_EQ(line.slope.standardError, std::sqrt(18.0 / 5.0));
    EXPECT_EQ(line.slope.dof.value, 2.0);
    EXPECT_NEAR(line.slope.interval.low, 5.0 - 4.30265273 * std::sqrt(3.6), 1e-7);  // t(0.975; 2)
}

TEST(StraightLine, BadInputIsNamed) {
    const std::vector<double> two{1.0, 2.0};
    const std::vector<double> three{1.0, 2.0, 3.0};
    const std::vector<double> flat{1.0, 1.0, 1.0};
    const auto codeOf = [](const PairedValues& pairs) {
        return fitStraightLine(pairs).error().code;
    };
    EXPECT_EQ(codeOf({two, two}), ErrorCode::InvalidInput);
    EXPECT_EQ(codeOf({three, two}), ErrorCode::InvalidInput);
    EXPECT_EQ(codeOf({flat, three}), ErrorCode::InvalidInput);
    EXPECT_EQ(codeOf({three, three}), ErrorCode::Untrustworthy);
}

}  // namespace
