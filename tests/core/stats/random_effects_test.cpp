#include "core/stats/comparison/random_effects.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <string>
#include <vector>

#include "core/stats/sample/moments.h"
#include "tests/core/stats/digits.h"
#include "tests/support/reference_csv.h"

namespace {

using namespace core::stats;
using core::ErrorCode;
using tests::agrees;
using tests::ReferenceTable;

struct Sample {
    std::vector<double> values;
    std::vector<double> uncertainties;

    [[nodiscard]] MeasuredValues view() const { return {values, uncertainties}; }
};

// Thirteen trials of a tuberculosis vaccine, log risk ratios (Colditz et al. 1994, JAMA
// 271:698-702); counts from memory, confirmed by the published results that they reproduce.
Sample vaccineTrials() {
    struct Trial {
        double casesTreated, healthyTreated, casesControl, healthyControl;
    };
    constexpr Trial kTrials[] = {
        {4, 119, 11, 128},       {6, 300, 29, 274},        {3, 228, 11, 209},
        {62, 13536, 248, 12619}, {33, 5036, 47, 5761},     {180, 1361, 372, 1079},
        {8, 2537, 10, 619},      {505, 87886, 499, 87892}, {29, 7470, 45, 7232},
        {17, 1699, 65, 1600},    {186, 50448, 141, 27197}, {5, 2493, 3, 2338},
        {27, 16886, 29, 17825}};
    Sample sample;
    for (const auto& [a, b, c, d] : kTrials) {
        sample.values.push_back(std::log(a / (a + b) / (c / (c + d))));
        sample.uncertainties.push_back(
            std::sqrt(1.0 / a - 1.0 / (a + b) + 1.0 / c - 1.0 / (c + d)));
    }
    return sample;
}

constexpr double kFourDecimals = 5e-5;  // the published results are printed so

// Viechtbauer 2010, J. Stat. Softw. 36(3), example of section 3 (printed results from memory,
// matched): tau^2 = 0.3132, mean -0.7145 (0.1798), Q = 152.2330. The Hartung-Knapp
// interval is that of R 4.2.2: confint(lm(y ~ 1, weights = 1 / (u^2 + tau^2))).
TEST(RandomEffects, RestrictedLikelihoodMatchesTheVaccineExample) {
    const auto fit = estimateRandomEffects(vaccineTrials().view(), BetweenEstimator::Reml).value();
    EXPECT_NEAR(fit.betweenVariance, 0.3132, kFourDecimals);
    EXPECT_NEAR(fit.mean, -0.7145, kFourDecimals);
    EXPECT_NEAR(fit.standardError, 0.1798, kFourDecimals);
    EXPECT_NEAR(fit.heterogeneity, 152.2330, kFourDecimals);
    EXPECT_NEAR(fit.interval.low, -1.108443713685, 1e-9);
    EXPECT_NEAR(fit.interval.high, -0.320620970631, 1e-9);
}

// Same source, method of moments: tau^2 = 0.3088, mean -0.7141 (0.1787).
TEST(RandomEffects, MomentsMatchTheVaccineExample) {
    const auto fit =
        estimateRandomEffects(vaccineTrials().view(), BetweenEstimator::DerSimonianLaird).value();
    EXPECT_NEAR(fit.betweenVariance, 0.3088, kFourDecimals);
    EXPECT_NEAR(fit.mean, -0.7141, kFourDecimals);
    EXPECT_NEAR(fit.standardError, 0.1787, kFourDecimals);
}

// Means of the groups of a balanced table with the pooled standard deviation of a mean as their
// equal uncertainty: both estimators must give the variance component of the table.
Sample groupMeans(const std::string& file) {
    const auto table = ReferenceTable::load(file);
    std::vector<std::string> names;
    std::vector<std::vector<double>> groups;
    for (std::size_t row = 0; row < table.rowCount(); ++row) {
        if (names.empty() || names.back() != table.text(row, "group")) {
            names.push_back(table.text(row, "group"));
            groups.emplace_back();
        }
        groups.back().push_back(table.number(row, "y"));
    }
    Sample sample;
    double within = 0.0;
    for (const auto& group : groups) {
        sample.values.push_back(static_cast<double>(momentsOf(group).mean));
        within += momentsOf(group).variance() / static_cast<double>(groups.size());
    }
    sample.uncertainties.assign(groups.size(),
                                std::sqrt(within / static_cast<double>(groups.front().size())));
    return sample;
}

// Rail: Pinheiro and Bates 2000, Mixed-Effects Models in S and S-PLUS, 1.1 (sd 24.80547); Dyestuff:
// Davies and Goldsmith 1972, table 6.4 (variance 1764.05). Computed with R, matched.
TEST(RandomEffects, EqualUncertaintiesGiveTheBalancedVarianceComponent) {
    const auto expected = ReferenceTable::load("models/variance_components_oneway.csv");
    int checked = 0;
    for (std::size_t row = 0; row < expected.rowCount(); ++row) {
        const bool isBetween = expected.text(row, "quantity") == "variance between";
        const bool isError = expected.text(row, "quantity") == "SE of mean";
        if (!isBetween && !isError) {
            continue;
        }
        const bool isRail = expected.text(row, "dataset") == "Rail";
        const Sample sample =
            groupMeans(isRail ? "models/data_rail.csv" : "models/data_dyestuff.csv");
        for (const auto estimator : {BetweenEstimator::Reml, BetweenEstimator::DerSimonianLaird}) {
            const auto fit = estimateRandomEffects(sample.view(), estimator).value();
            EXPECT_TRUE(agrees(isBetween ? fit.betweenVariance : fit.standardError,
                               expected.number(row, "computed"), 9.5));
            ++checked;
        }
    }
    EXPECT_EQ(checked, 8);
}

// JCGM 100:2008, H.5, table H.9: ten daily means of five voltages, pooled s of a day 84.887 uV:
// between-day component 43 uV, uncertainty of the grand mean 18 uV (full digits computed with R).
TEST(RandomEffects, GuideExampleOfTenDays) {
    const std::vector<double> dailyMeansUv{172, 116, 13, 144, 106, 31, 60, 125, 163, 41};
    const std::vector<double> dailyDeviationsUv{60, 77, 111, 101, 67, 93, 80, 73, 88, 86};
    double pooled = 0.0;
    for (const double deviation : dailyDeviationsUv) {
        pooled += deviation * deviation / 10.0;
    }
    const std::vector<double> uncertainties(10, std::sqrt(pooled / 5.0));
    const auto fit =
        estimateRandomEffects({dailyMeansUv, uncertainties}, BetweenEstimator::Reml).value();
    EXPECT_TRUE(agrees(fit.betweenDeviation, 42.6386105677, 9.5));
    EXPECT_TRUE(agrees(fit.standardError, 18.0532853275, 9.5));
}

TEST(RandomEffects, ScatterBelowTheReadingUncertaintyLeavesNothingBetween) {
    const std::vector<double> values{10.0, 10.1, 9.9, 10.0};
    const std::vector<double> uncertainties(4, 1.0);
    for (const auto estimator : {BetweenEstimator::Reml, BetweenEstimator::DerSimonianLaird}) {
        const auto fit = estimateRandomEffects({values, uncertainties}, estimator).value();
        EXPECT_EQ(fit.betweenVariance, 0.0);
        EXPECT_DOUBLE_EQ(fit.standardError, 0.5);  // 1 / sqrt(4)
    }
}

TEST(RandomEffects, BadInputIsNamed) {
    const std::vector<double> two{1.0, 2.0};
    const std::vector<double> zero{1.0, 0.0};
    const std::vector<double> one{1.0};
    const auto codeOf = [](const MeasuredValues& data) {
        return estimateRandomEffects(data, BetweenEstimator::Reml).error().code;
    };
    EXPECT_EQ(codeOf({one, one}), ErrorCode::InvalidInput);
    EXPECT_EQ(codeOf({two, one}), ErrorCode::InvalidInput);
    EXPECT_EQ(codeOf({two, zero}), ErrorCode::OutOfRange);
    const std::vector<double> infinite{1.0, std::numeric_limits<double>::infinity()};
    EXPECT_EQ(codeOf({two, infinite}), ErrorCode::NotFinite);
}

}  // namespace
