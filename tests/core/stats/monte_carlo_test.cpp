#include "core/stats/model/monte_carlo.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <numeric>
#include <vector>

namespace {

using namespace core::stats;
using core::ErrorCode;

double rectangular(std::mt19937_64& generator, double halfWidth) {
    return std::uniform_real_distribution<double>{-halfWidth, halfWidth}(generator);
}

const double kUnitHalfWidth = std::sqrt(3.0);  // rectangular of standard uncertainty 1

// With two stable digits of u = 2.0 the tolerance is 0.05, held by twice a standard deviation.
constexpr double kTwoDigits = 0.05;

// JCGM 101:2008, 9.2.2: sum of four standard normal inputs: u = 2.0, interval -+3.92.
TEST(MonteCarlo, SumOfFourNormalInputs) {
    const auto result = propagate(
        [](std::mt19937_64& generator) {
            std::normal_distribution<double> input;
            return input(generator) + input(generator) + input(generator) + input(generator);
        },
        {.seed = 101});
    ASSERT_TRUE(result.has_value()) << result.error().message;
    EXPECT_TRUE(result.value().isStable);
    EXPECT_NEAR(result.value().mean, 0.0, kTwoDigits);
    EXPECT_NEAR(result.value().standardUncertainty, 2.0, kTwoDigits);
    EXPECT_NEAR(result.value().symmetric.low, -3.92, kTwoDigits);
    EXPECT_NEAR(result.value().symmetric.high, 3.92, kTwoDigits);
}

// JCGM 101:2008, 9.2.3: the same with rectangular inputs: -+3.88, and the shortest interval is the
// symmetric one.
TEST(MonteCarlo, SumOfFourRectangularInputs) {
    const auto result = propagate(
        [](std::mt19937_64& generator) {
            double sum = 0.0;
            for (int input = 0; input < 4; ++input) {
                sum += rectangular(generator, kUnitHalfWidth);
            }
            return sum;
        },
        {.seed = 102, .stableEnds = CoverageKind::Shortest});
    ASSERT_TRUE(result.has_value()) << result.error().message;
    EXPECT_TRUE(result.value().isStable);
    EXPECT_NEAR(result.value().symmetric.high, 3.88, kTwoDigits);
    EXPECT_NEAR(result.value().shortest.low, -3.88, kTwoDigits);
    EXPECT_NEAR(result.value().shortest.high, 3.88, kTwoDigits);
}

// JCGM 101:2008, 9.2.4: one input ten times wider: exact interval -+17.0158 where a normal
// assumption gives 19.9. u = 10.15: two digits leave 0.5.
TEST(MonteCarlo, OneDominantRectangularInput) {
    constexpr double kTwoDigitsOfTen = 0.5;
    const auto result = propagate(
        [](std::mt19937_64& generator) {
            return rectangular(generator, kUnitHalfWidth) + rectangular(generator, kUnitHalfWidth) +
                   rectangular(generator, kUnitHalfWidth) +
                   rectangular(generator, 10.0 * kUnitHalfWidth);
        },
        {.seed = 103});
    ASSERT_TRUE(result.has_value()) << result.error().message;
    EXPECT_NEAR(result.value().standardUncertainty, std::sqrt(103.0), kTwoDigitsOfTen);
    EXPECT_NEAR(result.value().symmetric.high, 17.0158, kTwoDigitsOfTen);
}

// y = ln x, x rectangular on 0.1 to 1.1: NPL report DEM-ES-011, table 9.2; exact values: mean
// -0.6649, u 0.6062, shortest 95 % interval [ln 0.15, ln 1.1] = [-1.8971, 0.0953].
TEST(MonteCarlo, ShortestIntervalOfALopsidedModelIsNotTheSymmetricOne) {
    constexpr double kTwoDigitsOfHalf = 0.005;
    const auto result = propagate(
        [](std::mt19937_64& generator) {
            return std::log(std::uniform_real_distribution<double>{0.1, 1.1}(generator));
        },
        {.seed = 104, .stableEnds = CoverageKind::Shortest});
    ASSERT_TRUE(result.has_value()) << result.error().message;
    EXPECT_TRUE(result.value().isStable);
    EXPECT_NEAR(result.value().mean, -0.6649, kTwoDigitsOfHalf);
    EXPECT_NEAR(result.value().standardUncertainty, 0.6062, kTwoDigitsOfHalf);
    EXPECT_NEAR(result.value().shortest.low, std::log(0.15), kTwoDigitsOfHalf);
    EXPECT_NEAR(result.value().shortest.high, std::log(1.1), kTwoDigitsOfHalf);
    // x is rectangular, so the symmetric ends are ln 0.125 and ln 1.075.
    EXPECT_NEAR(result.value().symmetric.low, std::log(0.125), kTwoDigitsOfHalf);
    EXPECT_NEAR(result.value().symmetric.high, std::log(1.075), kTwoDigitsOfHalf);
}

// JCGM 101:2008, 7.7.2 by hand: 100 values, p = 0.95: q = 95, r = (5 + 1)/2 = 3: y(3) to y(98).
TEST(MonteCarlo, SymmetricIntervalCountsAsTheGuideDoes) {
    std::vector<double> values(100);
    std::iota(values.begin(), values.end(), 1.0);
    const auto interval = symmetricInterval(values, {0.95});
    EXPECT_DOUBLE_EQ(interval.low, 3.0);
    EXPECT_DOUBLE_EQ(interval.high, 98.0);
}

TEST(MonteCarlo, SameSeedGivesTheSameResult) {
    const auto draw = [](std::mt19937_64& generator) { return rectangular(generator, 1.0); };
    const auto first = propagate(draw, {.seed = 5}).value();
    const auto second = propagate(draw, {.seed = 5}).value();
    EXPECT_EQ(first.mean, second.mean);
    EXPECT_EQ(first.symmetric, second.symmetric);
    EXPECT_NE(first.mean, propagate(draw, {.seed = 6}).value().mean);
}

TEST(MonteCarlo, AConstantModelIsStableAtOnce) {
    const auto result = propagate([](std::mt19937_64&) { return 7.0; }, {.seed = 1}).value();
    EXPECT_TRUE(result.isStable);
    EXPECT_EQ(result.standardUncertainty, 0.0);
    EXPECT_EQ(result.trials, 20'000U);
}

TEST(MonteCarlo, TooFewTrialsAreReportedAsNotStable) {  // Cauchy: the spread never settles
    const auto result = propagate(
        [](std::mt19937_64& generator) { return std::cauchy_distribution<double>{}(generator); },
        {.seed = 1, .maxTrials = 50'000});
    ASSERT_TRUE(result.has_value());
    EXPECT_FALSE(result.value().isStable);
    EXPECT_EQ(result.value().trials, 50'000U);
}

TEST(MonteCarlo, FailuresAreNamed) {
    const auto nan = [](std::mt19937_64&) { return std::numeric_limits<double>::quiet_NaN(); };
    const auto one = [](std::mt19937_64&) { return 1.0; };
    EXPECT_EQ(propagate(nan, {}).error().code, ErrorCode::NotFinite);
    EXPECT_EQ(propagate(one, {.coverage = {0.0}}).error().code, ErrorCode::OutOfRange);
    EXPECT_EQ(propagate(one, {.significantDigits = 3}).error().code, ErrorCode::OutOfRange);
    EXPECT_EQ(propagate(one, {.maxTrials = 10}).error().code, ErrorCode::OutOfRange);
    std::stop_source source;
    source.request_stop();
    EXPECT_EQ(propagate(one, {}, source.get_token()).error().code, ErrorCode::Cancelled);
}

}  // namespace
