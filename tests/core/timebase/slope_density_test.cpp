#include "core/timebase/slope_density.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <random>
#include <vector>

namespace core::timebase {
namespace {

constexpr double kRounding = 1e-12;

TEST(SlopeDensity, ExactStartMakesTheSlopeRectangular) {
    const std::array<BoundedPoint, 2> points{{{0.0, 0.0, 0.0}, {2.0, 9.0, 11.0}}};
    const auto density = SlopeDensity::fromPoints(points).value();
    EXPECT_TRUE(density.isRectangular());
    EXPECT_DOUBLE_EQ(density.low(), 4.5);
    EXPECT_DOUBLE_EQ(density.high(), 5.5);
    EXPECT_NEAR(density.mean(), 5.0, kRounding);
    EXPECT_NEAR(density.sigma(), 0.5 / std::sqrt(3.0), kRounding);  // JCGM 100:2008, 4.3.7
}

TEST(SlopeDensity, EqualSpreadsMakeItTriangular) {
    const std::array<BoundedPoint, 2> points{{{0.0, -0.5, 0.5}, {1.0, 4.5, 5.5}}};
    const auto density = SlopeDensity::fromPoints(points).value();
    EXPECT_EQ(density.knots().size(), 3U);
    EXPECT_NEAR(density.sigma(), 1.0 / std::sqrt(6.0), kRounding);  // JCGM 100:2008, 4.3.9
    EXPECT_NEAR(density.cdf(4.5), 0.125, kRounding);  // (1/2)²/2 of the unit triangle
}

TEST(SlopeDensity, UnequalSpreadsMakeItTrapezoidal) {
    // Widths 1 and 3: base half-width 2, top half-width 1, beta = 1/2. JCGM 100:2008, 4.3.9 a.
    const std::array<BoundedPoint, 2> points{{{0.0, -0.5, 0.5}, {1.0, 3.5, 6.5}}};
    const auto density = SlopeDensity::fromPoints(points).value();
    EXPECT_EQ(density.knots().size(), 4U);
    EXPECT_NEAR(density.sigma(), 2.0 * std::sqrt((1.0 + 0.25) / 6.0), kRounding);
}

TEST(SlopeDensity, QuantileIsTheInverseOfTheDistributionFunction) {
    const std::vector<BoundedPoint> points{
        {0.0, -0.4, 0.5}, {1.0, 4.6, 5.5}, {2.0, 9.4, 10.6}, {3.0, 14.2, 15.1}};
    const auto density = SlopeDensity::fromPoints(points).value();
    EXPECT_DOUBLE_EQ(density.quantile(0.0), density.low());
    EXPECT_DOUBLE_EQ(density.quantile(1.0), density.high());
    for (double p = 0.01; p < 1.0; p += 0.01) {
        EXPECT_NEAR(density.cdf(density.quantile(p)), p, kRounding);
    }
}

// A line drawn evenly from all that pass through the points below.
double slopeOfRandomLine(const std::vector<BoundedPoint>& points, std::mt19937_64& random) {
    std::uniform_real_distribution<double> slope{4.0, 6.0};
    std::uniform_real_distribution<double> intercept{points.front().low, points.front().high};
    for (;;) {
        const double m = slope(random);
        const double c = intercept(random);
        if (std::all_of(points.begin(), points.end(), [&](const auto& p) {
                return c + m * p.x >= p.low && c + m * p.x <= p.high;
            })) {
            return m;
        }
    }
}

TEST(SlopeDensity, AgreesWithRandomLinesThroughTheBounds) {
    const std::vector<BoundedPoint> points{
        {0.0, -0.4, 0.5}, {1.0, 4.6, 5.5}, {2.0, 9.4, 10.6}, {3.0, 14.2, 15.1}};
    const auto density = SlopeDensity::fromPoints(points).value();
    std::mt19937_64 random{11};
    constexpr int kLines = 20000;
    for (const double p : {0.1, 0.5, 0.9}) {
        int below = 0;
        for (int i = 0; i < kLines; ++i) {
            below += slopeOfRandomLine(points, random) <= density.quantile(p) ? 1 : 0;
        }
        const double threeStandardErrors = 3.0 * std::sqrt(p * (1.0 - p) / kLines);
        EXPECT_NEAR(static_cast<double>(below) / kLines, p, threeStandardErrors);
    }
}

// As narrow as numbers allow is exact: the density of an exact start is rectangular on the bounds
// (JCGM 101:2008, 6.4.2), and the trapezoid of a narrow one comes ever closer to it.
TEST(SlopeDensity, APointTooNarrowToBeToldFromAnExactOneIsExact) {
    const std::vector<BoundedPoint> exact{{0.05, 0.0, 0.0}, {17.0 / 240.0, 0.9, 1.1}};
    const auto expected = SlopeDensity::fromPoints(exact).value();
    for (const double halfWidth : {1e-3, 1e-6, 1e-9, 1e-10, 1e-11, 1e-12, 1e-14, 1e-16, 1e-300}) {
        auto points = exact;
        points[0].low -= halfWidth;
        points[0].high += halfWidth;
        const auto density = SlopeDensity::fromPoints(points);
        ASSERT_TRUE(density) << halfWidth;
        EXPECT_NEAR(density.value().mean(), expected.mean(), 100.0 * halfWidth + 1e-9);
        EXPECT_NEAR(density.value().quantile(0.975), expected.quantile(0.975),
                    100.0 * halfWidth + 1e-9);
    }
}

TEST(SlopeDensity, PointsThatNoLineFitsAreAContradictionThatNamesThem) {
    const std::vector<BoundedPoint> points{
        {0.0, 0.0, 0.0}, {1.0, 4.5, 5.5}, {2.0, 13.5, 14.5}, {3.0, 14.5, 15.5}};
    const auto bounds = slopeBounds(points).value();
    EXPECT_TRUE(bounds.isContradiction());
    EXPECT_EQ(bounds.lowSecond, 2U);
    EXPECT_EQ(SlopeDensity::fromPoints(points).error().code, ErrorCode::Contradiction);
}

TEST(SlopeDensity, BadPointsAreRefused) {
    const auto codeOf = [](const std::vector<BoundedPoint>& points) {
        return slopeBounds(points).error().code;
    };
    EXPECT_EQ(codeOf({{0.0, 0.0, 0.0}}), ErrorCode::InvalidInput);
    EXPECT_EQ(codeOf({{0.0, 1.0, 0.0}, {1.0, 0.0, 1.0}}), ErrorCode::OutOfRange);
    EXPECT_EQ(codeOf({{0.0, std::nan(""), 0.0}, {1.0, 0.0, 1.0}}), ErrorCode::NotFinite);
}

}  // namespace
}  // namespace core::timebase
