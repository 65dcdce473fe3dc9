#include "core/stats/comparison/contrast.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "core/base/words.h"
#include "core/stats/sample/checks.h"

namespace core::stats {
namespace {

Result<void> checkWeights(std::span<const double> weights, std::size_t means) {
    BOOST_OUTCOME_TRY(checkValues(weights, toSay("Contrast"), 1));
    if (weights.size() != means) {
        return fail(ErrorCode::InvalidInput,
                    said("Contrast: {} weights for {} means. Give one weight for each mean.",
                         weights.size(), means));
    }
    if (std::all_of(weights.begin(), weights.end(), [](double w) { return w == 0.0; })) {
        return fail(ErrorCode::InvalidInput,
                    said("Contrast: all weights are zero, so nothing is compared."));
    }
    return ok();
}

// An estimate before it is judged.
struct Estimate {
    double value{};
    double variance{};
    DegreesOfFreedom dof{};
};

Result<JudgedEstimate> judge(const Estimate& estimate, Confidence confidence) {
    if (!(estimate.variance > 0.0)) {
        return fail(ErrorCode::Untrustworthy,
                    said("Contrast: the groups have no scatter, so the difference has no "
                         "uncertainty to be judged by. Use readings with finer resolution."));
    }
    const StudentT t{estimate.dof};
    JudgedEstimate result{.estimate = estimate.value,
                          .standardError = std::sqrt(estimate.variance),
                          .dof = estimate.dof};
    const double reach = t.coverageFactor(confidence) * result.standardError;
    result.interval = {estimate.value - reach, estimate.value + reach};
    result.t = estimate.value / result.standardError;
    result.pValue = t.twoSided(result.t);
    return result;
}

}  // namespace

Result<JudgedEstimate> contrast(std::span<const IndependentMean> means,
                                std::span<const double> weights, Confidence confidence) {
    BOOST_OUTCOME_TRY(checkConfidence(confidence));
    BOOST_OUTCOME_TRY(checkWeights(weights, means.size()));
    Estimate estimate;
    double squares = 0.0;
    for (std::size_t i = 0; i < means.size(); ++i) {
        const double part = weights[i] * weights[i] * means[i].variance;
        estimate.value += weights[i] * means[i].mean;
        estimate.variance += part;
        squares += part * part / means[i].dof.value;
    }
    estimate.dof = {estimate.variance > 0.0 ? estimate.variance * estimate.variance / squares
                                            : 1.0};
    return judge(estimate, confidence);
}

Result<JudgedEstimate> contrast(const EstimatedMeans& estimates, std::span<const double> weights,
                                Confidence confidence) {
    BOOST_OUTCOME_TRY(checkConfidence(confidence));
    const std::size_t count = estimates.means.size();
    BOOST_OUTCOME_TRY(checkWeights(weights, count));
    if (estimates.covariance.size() != count * count || !(estimates.dof.value > 0.0)) {
        return fail(
            ErrorCode::InvalidInput,
            said("Contrast: the covariance must have one row and one column for each mean."));
    }
    Estimate estimate{.dof = estimates.dof};
    for (std::size_t i = 0; i < count; ++i) {
        estimate.value += weights[i] * estimates.means[i];
        for (std::size_t j = 0; j < count; ++j) {
            estimate.variance += weights[i] * estimates.covariance[i * count + j] * weights[j];
        }
    }
    return judge(estimate, confidence);
}

}  // namespace core::stats
