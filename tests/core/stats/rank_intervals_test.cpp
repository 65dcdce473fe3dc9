#include "core/stats/comparison/rank_intervals.h"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

namespace {

using namespace core::stats;
using core::ErrorCode;

TEST(RankIntervals, MeansFarApartHaveOneRankEach) {
    const std::vector<IndependentMean> means{
        {1000.0, 1.0, {20.0}}, {3000.0, 1.0, {20.0}}, {2000.0, 1.0, {20.0}}};
    const auto ranking = rankMeans(means, {.seed = 1}).value();
    const int expected[] = {3, 1, 2};
    for (std::size_t i = 0; i < 3; ++i) {
        EXPECT_EQ(ranking.means[i].rank, expected[i]);
        EXPECT_EQ(ranking.means[i].lowest, expected[i]);
        EXPECT_EQ(ranking.means[i].highest, expected[i]);
        EXPECT_EQ(ranking.means[i].firstChance, expected[i] == 1 ? 1.0 : 0.0);
    }
}

TEST(RankIntervals, EqualMeansCanStandAnywhere) {
    const std::vector<IndependentMean> means(4, {1500.0, 100.0, {10.0}});
    const auto ranking = rankMeans(means, {.seed = 2}).value();
    for (const auto& mean : ranking.means) {
        EXPECT_EQ(mean.lowest, 1);
        EXPECT_EQ(mean.highest, 4);
        EXPECT_NEAR(mean.firstChance, 0.25, 0.03);  // four standard errors of 4000 draws
    }
}

// Two means whose difference has large degrees of freedom: the chance of the higher one to be truly
// first is P(Z < d / s), here 1.5 / sqrt(0.5 + 1.75) = 1: 0.841345 (Abramowitz and Stegun 1964,
// table 26.1). Its interval of rank 1 alone begins where |d| / s exceeds 1.96.
TEST(RankIntervals, TwoMeansFollowTheNormalDistribution) {
    constexpr double kManyDof = 1e6;
    const auto rankingFor = [](double difference) {
        const std::vector<IndependentMean> means{{difference, 0.5, {kManyDof}},
                                                 {0.0, 1.75, {kManyDof}}};
        return rankMeans(means, {.seed = 3, .draws = 100'000}).value();
    };
    EXPECT_NEAR(rankingFor(1.5).means[0].firstChance, 0.841345, 0.005);  // four standard errors
    EXPECT_EQ(rankingFor(1.5 * 1.93).means[0].highest, 2);
    EXPECT_EQ(rankingFor(1.5 * 1.99).means[0].highest, 1);
}

// What both share moves neither above the other: P(Z < 1.5 / sqrt(2.25)) = 0.841345 as without it
// (table 26.1 of Abramowitz and Stegun). A part of 1.5 that only one of them has adds 2.25 to the
// variance: P(Z < 1.5 / sqrt(4.5)) = P(Z < 0.7071) = 0.760250.
TEST(RankIntervals, WhatMeansShareDoesNotCount) {
    const std::vector<IndependentMean> means{{1.5, 0.5, {1e6}}, {0.0, 1.75, {1e6}}};
    const auto chanceWith = [&means](std::vector<double> shared) {
        return rankMeans(LinkedMeans{means, {}, shared}, {.seed = 3, .draws = 100'000})
            .value()
            .means[0]
            .firstChance;
    };
    EXPECT_NEAR(chanceWith({100.0, 100.0}), 0.841345, 0.005);
    EXPECT_NEAR(chanceWith({1.5, 0.0}), 0.760250, 0.005);
}

// Variances 2.25 each with covariance 1.125: the difference has 2.25, as above.
TEST(RankIntervals, CorrelatedMeansFollowTheirCovariance) {
    const std::vector<IndependentMean> means{{1.5, 2.25, {1e6}}, {0.0, 2.25, {1e6}}};
    const std::vector<double> covariance{2.25, 1.125, 1.125, 2.25};
    const RankOptions options{.seed = 3, .draws = 100'000};
    const auto ranking = rankMeans(LinkedMeans{means, covariance, {}}, options).value();
    EXPECT_NEAR(ranking.means[0].firstChance, 0.841345, 0.005);
    EXPECT_EQ(rankMeans(LinkedMeans{means, std::vector<double>{1.0, 2.0, 2.0, 1.0}, {}}, options)
                  .error()
                  .code,
              ErrorCode::InvalidInput);
}

TEST(RankIntervals, SameSeedGivesTheSameResult) {
    const std::vector<IndependentMean> means{
        {10.0, 1.0, {5.0}}, {11.0, 2.0, {5.0}}, {12.0, 1.0, {3.0}}};
    const auto first = rankMeans(means, {.seed = 7}).value();
    const auto second = rankMeans(means, {.seed = 7}).value();
    EXPECT_EQ(first.seed, 7U);
    for (std::size_t i = 0; i < means.size(); ++i) {
        EXPECT_EQ(first.means[i].firstChance, second.means[i].firstChance);
    }
}

TEST(RankIntervals, BadInputIsNamed) {
    const std::vector<IndependentMean> one{{1.0, 1.0, {3.0}}};
    const std::vector<IndependentMean> flat{{1.0, 1.0, {3.0}}, {2.0, 0.0, {3.0}}};
    const std::vector<IndependentMean> broken{{1.0, 1.0, {3.0}}, {std::nan(""), 1.0, {3.0}}};
    const std::vector<IndependentMean> good{{1.0, 1.0, {3.0}}, {2.0, 1.0, {3.0}}};
    EXPECT_EQ(rankMeans(one, {}).error().code, ErrorCode::InvalidInput);
    EXPECT_EQ(rankMeans(flat, {}).error().code, ErrorCode::OutOfRange);
    EXPECT_EQ(rankMeans(broken, {}).error().code, ErrorCode::NotFinite);
    EXPECT_EQ(rankMeans(good, {.draws = 1}).error().code, ErrorCode::OutOfRange);
    std::stop_source source;
    source.request_stop();
    EXPECT_EQ(rankMeans(good, {}, source.get_token()).error().code, ErrorCode::Cancelled);
}

}  // namespace
