#include "core/stats/comparison/random_effects.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "core/base/words.h"
#include "core/stats/sample/checks.h"
#include "core/stats/sample/moments.h"

namespace core::stats {
namespace {

// Sums over the weights w_i = 1 / (u_i^2 + between).
struct WeightedSums {
    double weights{};
    double squaredWeights{};
    double mean{};
    double residuals{};          // sum of w (y - mean)^2
    double weightedResiduals{};  // sum of w^2 (y - mean)^2
};

double weightOf(double uncertainty, double between) {
    return 1.0 / (uncertainty * uncertainty + between);
}

WeightedSums sumsAt(const MeasuredValues& data, double between) {
    WeightedSums sums;
    double weighted = 0.0;
    const double origin = data.values.front();  // keeps leading digits out of the sum
    for (std::size_t i = 0; i < data.values.size(); ++i) {
        const double weight = weightOf(data.standardUncertainties[i], between);
        sums.weights += weight;
        sums.squaredWeights += weight * weight;
        weighted += weight * (data.values[i] - origin);
    }
    sums.mean = origin + weighted / sums.weights;
    for (std::size_t i = 0; i < data.values.size(); ++i) {
        const double weight = weightOf(data.standardUncertainties[i], between);
        const double residual = data.values[i] - sums.mean;
        sums.residuals += weight * residual * residual;
        sums.weightedResiduals += weight * weight * residual * residual;
    }
    return sums;
}

double derSimonianLaird(const MeasuredValues& data) {
    const WeightedSums fixed = sumsAt(data, 0.0);
    const auto dof = static_cast<double>(data.values.size() - 1);
    return std::max(
        0.0, (fixed.residuals - dof) / (fixed.weights - fixed.squaredWeights / fixed.weights));
}

// Derivative of the restricted log likelihood by the between variance, times two
// (Viechtbauer 2005, eq. 8): y'PPy - tr P.
double remlScore(const MeasuredValues& data, double between) {
    const WeightedSums sums = sumsAt(data, between);
    return sums.weightedResiduals - (sums.weights - sums.squaredWeights / sums.weights);
}

// The score falls through zero once on the way to its estimate for any data met in practice; a
// bracket that always holds it makes bisection safe where scoring steps can cycle.
double reml(const MeasuredValues& data) {
    if (remlScore(data, 0.0) <= 0.0) {
        return 0.0;
    }
    double low = 0.0;
    double high = momentsOf(data.values).variance();
    while (remlScore(data, high) > 0.0) {
        low = high;
        high *= 2.0;
    }
    while (true) {
        const double middle = low + 0.5 * (high - low);
        if (middle <= low || middle >= high) {
            return middle;
        }
        (remlScore(data, middle) > 0.0 ? low : high) = middle;
    }
}

Result<void> checkData(const MeasuredValues& data) {
    BOOST_OUTCOME_TRY(checkValues(data.values, toSay("Random effects"), 2));
    if (data.values.size() != data.standardUncertainties.size()) {
        return fail(ErrorCode::InvalidInput,
                    said("Random effects: {} values and {} uncertainties. Give one uncertainty for "
                         "each value.",
                         data.values.size(), data.standardUncertainties.size()));
    }
    for (const double uncertainty : data.standardUncertainties) {
        BOOST_OUTCOME_TRY(
            checkPositive(uncertainty, toSay("Random effects: a standard uncertainty")));
    }
    return ok();
}

}  // namespace

Result<RandomEffects> estimateRandomEffects(const MeasuredValues& data, BetweenEstimator estimator,
                                            Confidence confidence) {
    BOOST_OUTCOME_TRY(checkData(data));
    BOOST_OUTCOME_TRY(checkConfidence(confidence));
    const double between =
        estimator == BetweenEstimator::Reml ? reml(data) : derSimonianLaird(data);
    const WeightedSums sums = sumsAt(data, between);
    const DegreesOfFreedom dof{static_cast<double>(data.values.size() - 1)};
    const double reach = StudentT{dof}.coverageFactor(confidence) *
                         std::sqrt(sums.residuals / dof.value / sums.weights);
    const double heterogeneity = sumsAt(data, 0.0).residuals;
    return RandomEffects{.mean = sums.mean,
                         .standardError = 1.0 / std::sqrt(sums.weights),
                         .interval = {sums.mean - reach, sums.mean + reach},
                         .betweenVariance = between,
                         .betweenDeviation = std::sqrt(between),
                         .heterogeneity = heterogeneity,
                         .heterogeneityP = ChiSquare{dof}.upperTail(heterogeneity)};
}

}  // namespace core::stats
