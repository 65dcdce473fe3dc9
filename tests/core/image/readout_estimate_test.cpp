#include "core/image/readout_estimate.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>

namespace core::image {
namespace {

constexpr Seconds kInterval{1.0 / 120.0};
constexpr double kMs = 1e-3;
constexpr double kSteps = 5e-6;  // s: the prior is summed in steps of 4 microseconds

ReadoutEstimate estimateOf(double valueMs, double ownMs, double commonMs = 0.0) {
    return {{kMs * valueMs}, {kMs * ownMs}, {kMs * commonMs}};
}

// An even distribution over a: mean a/2, standard deviation a/sqrt(12) (JCGM 100:2008, 4.3.7).
TEST(ReadoutKnowledge, WithoutAnEstimateIsTheEvenPrior) {
    const auto known = readoutKnowledge(std::nullopt, longestReadout(kInterval));
    EXPECT_NEAR(known.mean.seconds, 4.16667e-3, kSteps);
    EXPECT_NEAR(known.sigma.seconds, 2.40563e-3, kSteps);
    EXPECT_NEAR(known.interval95.low.seconds, 0.025 * kInterval.seconds, kSteps);
    EXPECT_NEAR(known.interval95.high.seconds, 0.975 * kInterval.seconds, kSteps);
}

TEST(ReadoutKnowledge, NoCameraReadsForLongerThanTwelveMilliseconds) {
    EXPECT_DOUBLE_EQ(longestReadout({1.0 / 30.0}).seconds, 0.012);
    EXPECT_DOUBLE_EQ(longestReadout({1.0 / 240.0}).seconds, 1.0 / 240.0);
}

TEST(ReadoutKnowledge, FarFromTheEdgesIsTheEstimate) {
    const auto known = readoutKnowledge(estimateOf(4.0, 0.3, 0.4), longestReadout(kInterval));
    EXPECT_NEAR(known.mean.seconds, 4.0e-3, kSteps);
    EXPECT_NEAR(known.sigma.seconds, 0.5e-3, kSteps);
    EXPECT_NEAR(known.interval95.low.seconds, 3.02e-3, 4.0 * kSteps);
    EXPECT_NEAR(known.interval95.high.seconds, 4.98e-3, 4.0 * kSteps);
}

// A normal distribution of mean 1 and deviation 1 ms, cut off at 0: mean 1 + phi(1) / Phi(1),
// variance 1 - phi(1) / Phi(1) - (phi(1) / Phi(1))^2 (Johnson, Kotz and Balakrishnan, Continuous
// Univariate Distributions I, 13.10.1; from memory), with phi(1) = 0.241971, Phi(1) = 0.841345. The
// shortest 95 % begin at 0 and end where Phi(h - 1) = 1 - 0.05 Phi(1), h = 2.7272.
TEST(ReadoutKnowledge, AtTheEdgeHoldsTheEdge) {
    const auto known = readoutKnowledge(estimateOf(1.0, 1.0), longestReadout(kInterval));
    EXPECT_NEAR(known.mean.seconds, 1.28760e-3, kSteps);
    EXPECT_NEAR(known.sigma.seconds, 0.79353e-3, kSteps);
    EXPECT_NEAR(known.interval95.low.seconds, 0.0, kSteps);
    EXPECT_NEAR(known.interval95.high.seconds, 2.7272e-3, 2.0 * kSteps);
}

// By hand: equal weights, so the mean lies in the middle; the two differ by far more than they say,
// and the Birge ratio makes the own part half their distance. What they share stays.
TEST(PooledReadout, ScatterBeyondWhatIsSaidWidensIt) {
    EXPECT_FALSE(pooledReadout({}));
    const std::array two{estimateOf(4.0, 0.3, 0.2), estimateOf(5.0, 0.3, 0.2)};
    const auto pooled = pooledReadout(two);
    ASSERT_TRUE(pooled);
    EXPECT_NEAR(pooled->value.seconds, 4.5e-3, 1e-9);
    EXPECT_NEAR(pooled->ownSigma.seconds, 0.5e-3, 1e-9);
    EXPECT_NEAR(pooled->commonSigma.seconds, 0.2e-3, 1e-9);
}

TEST(PooledReadout, OwnPartsAverageOutAndTheCommonOneDoesNot) {
    const std::array<ReadoutEstimate, 4> equal{estimateOf(4.0, 0.4, 0.3), estimateOf(4.0, 0.4, 0.3),
                                               estimateOf(4.0, 0.4, 0.3),
                                               estimateOf(4.0, 0.4, 0.3)};
    const auto pooled = pooledReadout(equal);
    ASSERT_TRUE(pooled);
    EXPECT_NEAR(pooled->ownSigma.seconds, 0.5 * std::sqrt(0.16 + 0.1 * 0.09) * kMs, 1e-9);
    EXPECT_NEAR(pooled->commonSigma.seconds, 0.3e-3, 1e-9);
}

}  // namespace
}  // namespace core::image
