#include "core/stats/comparison/pairwise.h"

#include <cmath>
#include <numbers>
#include <string>

#include "core/base/expects.h"
#include "core/stats/comparison/one_way.h"
#include "core/stats/model/studentized_range.h"
#include "core/stats/sample/checks.h"

namespace core::stats {
namespace {

Result<void> checkFamily(std::size_t groups, Confidence confidence) {
    BOOST_OUTCOME_TRY(checkConfidence(confidence));
    if (confidence.alpha() < 1e-10) {
        return fail(ErrorCode::OutOfRange,
                    "Comparison of pairs: the level is too close to one. Use 0.95, for example.");
    }
    if (groups < 2 || groups > 1000) {
        return fail(ErrorCode::InvalidInput, "Comparison of pairs: " + std::to_string(groups) +
                                                 " groups given, 2 to 1000 can be compared.");
    }
    return ok();
}

Result<void> checkScatter(const PairComparison& pair) {
    if (pair.standardError > 0.0) {
        return ok();
    }
    return fail(ErrorCode::Untrustworthy,
                "Groups " + std::to_string(pair.first + 1) + " and " +
                    std::to_string(pair.second + 1) +
                    " have no scatter, so their difference has no uncertainty to be judged by. "
                    "Use readings with finer resolution or leave one out.");
}

double studentized(const PairComparison& pair) {
    return std::numbers::sqrt2 * std::abs(pair.difference) / pair.standardError;
}

Interval<double> intervalOf(const PairComparison& pair, double criticalQ) {
    const double reach = criticalQ * pair.standardError / std::numbers::sqrt2;
    return {pair.difference - reach, pair.difference + reach};
}

// Satterthwaite 1946, Biometrics 2:110-114: degrees of freedom of a sum of two variances.
DegreesOfFreedom combinedDof(const IndependentMean& a, const IndependentMean& b) {
    const double sum = a.variance + b.variance;
    return {sum * sum /
            (a.variance * a.variance / a.dof.value + b.variance * b.variance / b.dof.value)};
}

}  // namespace

Result<std::vector<PairComparison>> gamesHowell(std::span<const Moments> groups,
                                                Confidence confidence) {
    BOOST_OUTCOME_TRY(checkFamily(groups.size(), confidence));
    for (std::size_t i = 0; i < groups.size(); ++i) {
        if (groups[i].count < 2) {
            return fail(ErrorCode::InvalidInput,
                        "Group " + std::to_string(i + 1) +
                            " has fewer than two values, so its scatter is not known. Leave it "
                            "out or film more shots.");
        }
    }
    std::vector<IndependentMean> means;
    means.reserve(groups.size());
    for (const Moments& group : groups) {
        means.push_back(independentMean(group));
    }
    return gamesHowell(means, confidence);
}

IndependentMean independentMean(const Moments& group) {
    CORE_EXPECTS(group.count >= 2);
    const auto count = static_cast<double>(group.count);
    return {.mean = static_cast<double>(group.mean),
            .variance = group.variance() / count,
            .dof = {count - 1.0}};
}

Result<std::vector<PairComparison>> gamesHowell(std::span<const IndependentMean> means,
                                                Confidence confidence) {
    BOOST_OUTCOME_TRY(checkFamily(means.size(), confidence));
    const StudentizedRange range{static_cast<int>(means.size())};
    std::vector<PairComparison> pairs;
    for (std::size_t i = 0; i < means.size(); ++i) {
        for (std::size_t j = i + 1; j < means.size(); ++j) {
            PairComparison pair{
                .first = i, .second = j, .difference = means[i].mean - means[j].mean};
            pair.standardError = std::sqrt(means[i].variance + means[j].variance);
            BOOST_OUTCOME_TRY(checkScatter(pair));
            pair.dof = combinedDof(means[i], means[j]);
            pair.pValue = range.upperTail(studentized(pair), pair.dof);
            pair.interval = intervalOf(pair, range.upperQuantile({confidence.alpha()}, pair.dof));
            pairs.push_back(pair);
        }
    }
    return pairs;
}

Result<std::vector<PairComparison>> tukeyKramer(std::span<const Moments> groups,
                                                Confidence confidence) {
    BOOST_OUTCOME_TRY(checkFamily(groups.size(), confidence));
    BOOST_OUTCOME_TRY(anova, oneWayAnova(groups));
    EstimatedMeans estimates{.dof = anova.test.dof.denominator};
    estimates.covariance.assign(groups.size() * groups.size(), 0.0);
    for (std::size_t i = 0; i < groups.size(); ++i) {
        estimates.means.push_back(static_cast<double>(groups[i].mean));
        estimates.covariance[i * groups.size() + i] =
            anova.meanSquareWithin / static_cast<double>(groups[i].count);
    }
    return tukeyPairs(estimates, confidence);
}

Result<std::vector<PairComparison>> tukeyPairs(const EstimatedMeans& estimates,
                                               Confidence confidence) {
    const std::size_t count = estimates.means.size();
    BOOST_OUTCOME_TRY(checkFamily(count, confidence));
    if (estimates.covariance.size() != count * count || !(estimates.dof.value >= 1.0)) {
        return fail(ErrorCode::InvalidInput,
                    "Comparison of pairs: the covariance must have one row and one column for "
                    "each mean, and at least one degree of freedom.");
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
