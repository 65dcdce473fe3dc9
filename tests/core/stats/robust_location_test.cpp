#include "core/stats/sample/robust_location.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <limits>
#include <random>
#include <vector>

namespace {

using namespace core::stats;
using core::ErrorCode;

// Copper in wholemeal flour, 24 determinations: Analytical Methods Committee 1989, Analyst
// 114:1693-1702; Venables and Ripley 2002, 5.5 print median 3.385, mad 0.52632 and the Huber
// estimate 3.2067 (data and figures from memory, matched).
const std::vector<double> kFlour{2.90,  3.10, 3.40, 3.40, 3.70, 3.70, 2.80, 2.50,
                                 2.40,  2.40, 2.70, 2.20, 5.28, 3.37, 3.03, 3.03,
                                 28.95, 3.77, 3.40, 2.20, 3.50, 3.60, 3.70, 3.70};

TEST(RobustLocation, FlourExampleOfTheAnalyticalMethodsCommittee) {
    const auto twins = robustTwins(kFlour).value();
    EXPECT_DOUBLE_EQ(twins.median, 3.385);
    EXPECT_NEAR(twins.scaledMedianDeviation, 0.526323, 5e-7);
    EXPECT_NEAR(twins.huber, 3.206724, 5e-7);
}

TEST(RobustLocation, HodgesLehmannIsTheMedianOfAllPairMeans) {
    std::mt19937_64 generator{20};
    for (const std::size_t count : {1U, 2U, 3U, 10U, 57U}) {
        std::vector<double> values;
        std::vector<double> means;
        for (std::size_t i = 0; i < count; ++i) {
            values.push_back(std::normal_distribution<double>{-3.0, 5.0}(generator));
            for (const double value : values) {
                means.push_back(0.5 * (value + values.back()));
            }
        }
        std::sort(means.begin(), means.end());
        const double expected = 0.5 * (means[(means.size() - 1) / 2] + means[means.size() / 2]);
        EXPECT_DOUBLE_EQ(robustTwins(values).value().hodgesLehmann, expected) << count;
    }
}

TEST(RobustLocation, OneWildShotMovesTheMeanOnly) {
    const std::vector<double> shots{1500.0, 1510.0, 1490.0, 1505.0, 1495.0, 3000.0};
    const auto twins = robustTwins(shots).value();
    EXPECT_NEAR(twins.median, 1502.5, 1e-9);
    EXPECT_NEAR(twins.hodgesLehmann, 1502.5, 5.0);
    EXPECT_NEAR(twins.huber, 1502.5, 5.0);
}

TEST(RobustLocation, EqualMajorityHasNoDeviation) {
    const std::vector<double> shots{1440.0, 1440.0, 1440.0, 1600.0};
    const auto twins = robustTwins(shots).value();
    EXPECT_EQ(twins.scaledMedianDeviation, 0.0);
    EXPECT_EQ(twins.huber, 1440.0);
}

TEST(RobustLocation, BadInputIsNamed) {
    const std::vector<double> none;
    const std::vector<double> broken{std::numeric_limits<double>::infinity()};
    EXPECT_EQ(robustTwins(none).error().code, ErrorCode::InvalidInput);
    EXPECT_EQ(robustTwins(broken).error().code, ErrorCode::NotFinite);
}

}  // namespace
