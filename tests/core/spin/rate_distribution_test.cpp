#include "core/spin/rate_distribution.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <vector>

#include "tests/support/monte_carlo.h"
#include "tests/support/reference_csv.h"

namespace core::spin {
namespace {

using timebase::BoundedPoint;
using timebase::SlopeDensity;

RateDistribution ofPeriod(const std::vector<BoundedPoint>& points) {
    return RateDistribution::fromPeriod(SlopeDensity::fromPoints(points).value()).value();
}

// Upper end of the symmetric interval of the sum, linear inside the cells.
double quantileOf(const std::vector<RelativeEffects::Node>& nodes, double probability) {
    const double step = nodes[1].effect - nodes[0].effect;
    double below = 0.0;
    for (const auto& node : nodes) {
        if (below + node.probability >= probability) {
            return node.effect + step * ((probability - below) / node.probability - 0.5);
        }
        below += node.probability;
    }
    return std::numeric_limits<double>::quiet_NaN();
}

TEST(RelativeEffects, SumsOfFourInputsOfJcgm101) {
    // JCGM 101:2008, 9.2.2 (normal), 9.2.3 (rectangular), 9.2.4 (one ten times wider).
    const auto table = tests::ReferenceTable::load("uncertainty/jcgm101_9_2_additive.csv");
    ASSERT_EQ(table.rowCount(), 3U);
    constexpr double kCells = 2e-3;  // relative; the grid has cells of 1/500 of the half range
    for (std::size_t i = 0; i < table.rowCount(); ++i) {
        RelativeEffects effects;
        for (int k = 0; k < 4; ++k) {
            const double sigma = i == 2 && k == 3 ? 10.0 : 1.0;
            if (i == 0) {
                effects.addNormal(sigma);
            } else {
                effects.addRectangular(std::sqrt(3.0) * sigma);
            }
        }
        EXPECT_NEAR(effects.sigma(), table.number(i, "u_y"), 1e-9);
        const double high = table.number(i, "exact_95_high");
        EXPECT_NEAR(quantileOf(effects.nodes(), 0.975), high, kCells * high);
        EXPECT_NEAR(quantileOf(effects.nodes(), 0.025), -high, kCells * high);
    }
}

TEST(RelativeEffects, ProbabilitiesSumToOneAndKeepTheVariance) {
    RelativeEffects effects;
    effects.addNormal(0.003);
    effects.addRectangular(0.01);
    effects.addRectangular(1e-7);
    double sum = 0.0;
    double variance = 0.0;
    for (const auto& node : effects.nodes()) {
        sum += node.probability;
        variance += node.probability * node.effect * node.effect;
    }
    EXPECT_NEAR(sum, 1.0, 2e-9);  // what the cut at six sigmas leaves out
    EXPECT_NEAR(std::sqrt(variance), effects.sigma(), 2e-5 * effects.sigma());
}

TEST(RelativeEffects, NothingAddedIsOneNodeOfZero) {
    RelativeEffects effects;
    effects.addNormal(0.0);
    effects.addRectangular(0.0);
    ASSERT_EQ(effects.nodes().size(), 1U);
    EXPECT_EQ(effects.nodes().front().effect, 0.0);
}

TEST(RateDistribution, LogarithmOfTheDemoProblemByMonteCarlo) {
    // NPL report DEM-ES-011, table 9.2: y = ln x, x rectangular on 0.1 … 1.1. The engine that
    // checks the closed forms below must itself be right on a strongly curved model.
    const auto table = tests::ReferenceTable::load("uncertainty/nonlinear_log_exact.csv");
    const auto drawn = tests::propagate(
        [](std::mt19937_64& random) {
            return std::log(std::uniform_real_distribution<double>{0.1, 1.1}(random));
        },
        7);
    const double tolerance = 0.005;  // half a unit of the second digit of u = 0.61
    EXPECT_NEAR(drawn.mean, table.number(3, "exact"), tolerance);
    EXPECT_NEAR(drawn.standardUncertainty, table.number(4, "exact"), tolerance);
    EXPECT_NEAR(drawn.shortest.high, table.number(6, "exact"), tolerance);
}

TEST(RateDistribution, MomentsKeepTheirDigitsForLongPeriods) {
    // K frames at one end: relative sigma 1/(K·sqrt 12) to first order
    // (spin_quantisation_exact.csv).
    constexpr double kFrames = 1e6;
    const auto rate = ofPeriod({{0.0, 0.0, 0.0}, {1.0, kFrames - 0.5, kFrames + 0.5}});
    const double expected = 1.0 / (kFrames * std::sqrt(12.0));
    EXPECT_NEAR(rate.sigma().rpm / rate.mean().rpm, expected, 1e-6 * expected);
}

TEST(RateDistribution, QuantileIsTheInverseOfTheDistributionFunction) {
    const auto period = ofPeriod({{0.0, -0.1, 0.1}, {3.0, 1.1, 1.4}});
    const auto student = RateDistribution::fromStudent({{1500.0}, {20.0}}, 4.0);
    for (const auto& rate : {period, student}) {
        for (double p = 0.05; p < 1.0; p += 0.05) {
            EXPECT_NEAR(rate.cdf(rate.quantile(p)), p, 1e-10);
        }
    }
}

TEST(RateDistribution, PeriodThatMayBeZeroIsUntrustworthy) {
    const std::vector<BoundedPoint> points{{0.0, -0.5, 0.5}, {1.0, 0.5, 1.5}};
    const auto rate = RateDistribution::fromPeriod(SlopeDensity::fromPoints(points).value());
    EXPECT_EQ(rate.error().code, ErrorCode::Untrustworthy);
}

TEST(CoverageInterval, NormalTimesNormalEffectIsNormal) {
    // Variances add: 3, 4, 5. z(0.975) = 1.959964 (JCGM 100:2008, table G.1).
    const auto rate =
        RateDistribution::fromStudent({{1000.0}, {3.0}}, std::numeric_limits<double>::infinity());
    RelativeEffects effects;
    effects.addNormal(0.004);
    const auto interval = coverageInterval(rate, effects, 0.95);
    constexpr double kSecondOrder = 0.02;  // product of the two deviations, 3·0.004 = 0.012 rpm
    EXPECT_NEAR(interval.low.rpm, 1000.0 - 1.959964 * 5.0, kSecondOrder);
    EXPECT_NEAR(interval.high.rpm, 1000.0 + 1.959964 * 5.0, kSecondOrder);
}

// n·fps·60/(K + rounding) with angle errors at both ends and an uncertain frame rate.
void checkCase(const tests::ReferenceTable& table, std::size_t i) {
    const double n = table.number(i, "n");
    const double fps = table.number(i, "fps");
    const double frames = table.number(i, "K");
    const double h = table.text(i, "ends") == "both" ? 0.5 / fps : 0.0;
    const auto rate = ofPeriod({{0.0, -h, h}, {n, (frames - 0.5) / fps, (frames + 0.5) / fps}});
    RelativeEffects effects;
    effects.addRectangular(table.number(i, "angle_halfwidth_deg") / 360.0 / n);
    effects.addRectangular(table.number(i, "angle_halfwidth_deg") / 360.0 / n);
    effects.addRectangular(table.number(i, "fps_rel_halfwidth"));
    const double u = table.number(i, "mc_u_rpm");
    // Standard error of R's interval ends: sqrt(0.025·0.975/4e6)/density, density about 0.06/u;
    // three of them.
    const double tolerance = 4e-3 * u;
    const double combined = std::hypot(rate.sigma().rpm, rate.mean().rpm * effects.sigma());
    const auto interval = coverageInterval(rate, effects, 0.95);
    EXPECT_NEAR(rate.mean().rpm, table.number(i, "mc_mean"), tolerance) << i;
    EXPECT_NEAR(combined, u, tolerance) << i;
    EXPECT_NEAR(interval.low.rpm, table.number(i, "mc_low95"), tolerance) << i;
    EXPECT_NEAR(interval.high.rpm, table.number(i, "mc_high95"), tolerance) << i;
}

TEST(CoverageInterval, AgreesWithRsMonteCarloOfEightCases) {
    // R 4.2.2 with 4,000,000 trials.
    const auto table = tests::ReferenceTable::load("uncertainty/spin_cases_mc.csv");
    ASSERT_EQ(table.rowCount(), 8U);
    for (std::size_t i = 0; i < table.rowCount(); ++i) {
        checkCase(table, i);
    }
}

}  // namespace
}  // namespace core::spin
