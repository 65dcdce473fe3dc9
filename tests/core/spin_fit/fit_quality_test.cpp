#include "core/spin/fit/fit_quality.h"

#include <gtest/gtest.h>

namespace {

using core::spin::fit::comparePredictions;
using core::spin::fit::isDecided;

const std::vector<double> kBestErrors{1.0, 2.0, 3.0, 4.0, 5.0, 6.0};

// R 4.2: t.test(log(other / best))$statistic, the t of one sample.
TEST(FitComparison, IsTheStandardScoreOfTheLogRatios) {
    const auto compared = comparePredictions(kBestErrors, {1.2, 2.2, 3.9, 4.1, 6.0, 7.5});
    EXPECT_NEAR(compared.deficit, 4.54688783353, 1e-9);
    EXPECT_NEAR(compared.ratio, 24.9 / 21.0, 1e-12);
    EXPECT_TRUE(isDecided(compared));
}

// A frame at the end of the flight with a side not seen before errs by far more than the others.
TEST(FitComparison, OneFrameAtTheEndDoesNotHideWhatAllTheOthersSay) {
    std::vector<double> best(12, 10.0);
    std::vector<double> other(12, 15.0);
    best.back() = 40.0;
    other.back() = 400.0;
    for (std::size_t f = 0; f < other.size(); f += 2) {
        other[f] *= 1.1;
    }
    EXPECT_TRUE(isDecided(comparePredictions(best, other)));
}

TEST(FitComparison, IsUndecidedWhereAsManyFramesSpeakForEither) {
    EXPECT_FALSE(isDecided(comparePredictions(kBestErrors, {1.3, 1.6, 3.9, 3.1, 6.5, 5.0})));
}

TEST(FitComparison, IsUndecidedWhereTheErrorsAreNearlyTheSame) {
    EXPECT_FALSE(isDecided(comparePredictions(kBestErrors, {1.01, 2.02, 3.03, 4.05, 5.05, 6.06})));
}

}  // namespace
