#include "core/stats/comparison/pairwise.h"

#include <cmath>
#include <numbers>
#include <string>

#include "core/base/expects.h"
#include "core/base/words.h"
#include "core/stats/model/studentized_range.h"
#include "core/stats/sample/checks.h"

namespace core::stats {
namespace {

Result<void> checkFamily(std::size_t groups, Confidence confidence) {
    BOOST_OUTCOME_TRY(checkConfidence(confidence));
    if (confidence.alpha() < 1e-10) {
        return fail(
            ErrorCode::OutOfRange,
            said("Comparison of pairs: the level is too close to one. Use 0.95, for example."));
    }
    if (groups < 2 || groups > 1000) {
        return fail(
            ErrorCode::InvalidInput,
            said("Comparison of pairs: {} groups given, 2 to 1000 can be compared.", groups));
    }
    return ok();
}

Result<void> checkScatter(const PairComparison& pair) {
    if (pair.standardError > 0.0) {
        return ok();
    }
    return fail(ErrorCode::Untrustworthy,
                said("Groups {} and {} have no scatter, so their difference has no uncertainty to "
                     "be judged by. Use readings with finer resolution or leave one out.",
                     pair.first + 1, pair.second + 1));
}

double studentized(const PairComparison& pair) {
    return std::numbers::sqrt2 * std::abs(pair.difference) / pair.standardError;
}

Interval<double> intervalOf(const PairComparison& pair, double criticalQ) {
    const double reach = criticalQ * pair.standardError / std::numbers::sqrt2;
    return {pair.difference - reach, pair.difference + reach};
}

}  // namespace

IndependentMean independentMean(const Moments& group) {
    CORE_EXPECTS(group.count >= 2);
    const auto count = static_cast<double>(group.count);
    return {.mean = static_cast<double>(group.mean),
            .variance = group.variance() / count,
            .dof = {count - 1.0}};
}

Result<std::vector<PairComparison>> tukeyPairs(const EstimatedMeans& estimates,
                                               Confidence confidence) {
    const std::size_t count = estimates.means.size();
    BOOST_OUTCOME_TRY(checkFamily(count, confidence));
    if (estimates.covariance.size() != count * count || !(estimates.dof.value >= 1.0)) {
        return fail(ErrorCode::InvalidInput,
                    said("Comparison of pairs: the covariance must have one row and one column for "
                         "each mean, and at least one degree of freedom."));
    }
    const StudentizedRange range{static_cast<int>(count)};
    const double critical = range.upperQuantile({confidence.alpha()}, estimates.dof);
    const auto covariance = [&](std::size_t i, std::size_t j) {
        return estimates.covariance[i * count + j];
    };
    std::vector<PairComparison> pairs;
    std::vector<double> values;
    for (std::size_t i = 0; i < count; ++i) {
        for (std::size_t j = i + 1; j < count; ++j) {
            PairComparison pair{.first = i,
                                .second = j,
                                .difference = estimates.means[i] - estimates.means[j],
                                .dof = estimates.dof};
            pair.standardError =
                std::sqrt(covariance(i, i) + covariance(j, j) - 2.0 * covariance(i, j));
            BOOST_OUTCOME_TRY(checkScatter(pair));
            pair.interval = intervalOf(pair, critical);
            values.push_back(studentized(pair));
            pairs.push_back(pair);
        }
    }
    const auto tails = range.upperTails(values, estimates.dof);
    for (std::size_t i = 0; i < pairs.size(); ++i) {
        pairs[i].pValue = tails[i];
    }
    return pairs;
}

}  // namespace core::stats
