#include "core/stats/comparison/covariance_analysis.h"

#include <algorithm>
#include <string>
#include <vector>

#include "core/base/words.h"
#include "core/stats/sample/checks.h"
#include "core/stats/sample/co_moments.h"

namespace core::stats {
namespace {

// Sums over the groups.
struct Pooled {
    std::vector<CoMoments> groups;
    CoMoments within;  // sums of squares and products about the group means; means of no use
    CoMoments total;
    std::size_t count{};
    std::size_t withSlope{};         // groups in which the covariate varies
    long double ownSlopeResidual{};  // about a line for each group
};

CoMoments combine(const CoMoments& a, const CoMoments& b) {
    if (a.x.count == 0) {
        return b;
    }
    const auto countA = static_cast<long double>(a.x.count);
    const auto countB = static_cast<long double>(b.x.count);
    return {.x = combine(a.x, b.x),
            .y = combine(a.y, b.y),
            .sumProducts = a.sumProducts + b.sumProducts +
                           (b.x.mean - a.x.mean) * (b.y.mean - a.y.mean) * countA * countB /
                               (countA + countB)};
}

Result<Pooled> pool(std::span<const PairedValues> groups) {
    Pooled pooled;
    for (const PairedValues& group : groups) {
        BOOST_OUTCOME_TRY(checkPairs(group, toSay("Analysis of covariance"), 1));
        const CoMoments moments = coMomentsOf(group);
        pooled.groups.push_back(moments);
        pooled.within.x.sumSquares += moments.x.sumSquares;
        pooled.within.y.sumSquares += moments.y.sumSquares;
        pooled.within.sumProducts += moments.sumProducts;
        pooled.total = combine(pooled.total, moments);
        pooled.count += group.x.size();
        const bool hasSlope = moments.x.sumSquares > 0.0L;
        pooled.withSlope += hasSlope ? 1 : 0;
        pooled.ownSlopeResidual += hasSlope ? moments.residual() : moments.y.sumSquares;
    }
    if (groups.size() < 2 || pooled.count < groups.size() + 2) {
        return fail(ErrorCode::InvalidInput,
                    said("Analysis of covariance: {} groups with {} values; at least two groups "
                         "and two values more than groups are needed.",
                         groups.size(), pooled.count));
    }
    if (pooled.withSlope == 0) {
        return fail(ErrorCode::InvalidInput,
                    said("Analysis of covariance: the covariate does not vary within any group, so "
                         "its effect cannot be told from that of the groups. Leave it out."));
    }
    return pooled;
}

// F of what a larger model explains: residual sums and degrees of freedom of both models.
struct Residual {
    long double sumSquares{};
    double dof{};
};

VarianceRatioTest compare(Residual smaller, Residual larger) {
    const RatioDof dof{{smaller.dof - larger.dof}, {larger.dof}};
    const long double explained = std::max(smaller.sumSquares - larger.sumSquares, 0.0L);
    const auto f = static_cast<double>(explained / static_cast<long double>(dof.numerator.value) /
                                       (larger.sumSquares / static_cast<long double>(larger.dof)));
    return {f, dof, FDistribution{dof}.upperTail(f)};
}

EstimatedMeans adjustedMeans(const Pooled& pooled, Residual residual) {
    const long double variance = residual.sumSquares / static_cast<long double>(residual.dof);
    EstimatedMeans adjusted{.dof = {residual.dof}};
    for (std::size_t i = 0; i < pooled.groups.size(); ++i) {
        const CoMoments& group = pooled.groups[i];
        const long double offset = group.x.mean - pooled.total.x.mean;
        adjusted.means.push_back(
            static_cast<double>(group.y.mean - pooled.within.slope() * offset));
        for (std::size_t j = 0; j < pooled.groups.size(); ++j) {
            const long double other = pooled.groups[j].x.mean - pooled.total.x.mean;
            const long double own = i == j ? 1.0L / static_cast<long double>(group.x.count) : 0.0L;
            adjusted.covariance.push_back(static_cast<double>(
                variance * (own + offset * other / pooled.within.x.sumSquares)));
        }
    }
    return adjusted;
}

}  // namespace

Result<CovarianceAnalysis> analyseCovariance(std::span<const PairedValues> groups,
                                             Confidence confidence) {
    BOOST_OUTCOME_TRY(checkConfidence(confidence));
    BOOST_OUTCOME_TRY(pooled, pool(groups));
    const auto values = static_cast<double>(pooled.count);
    const auto levels = static_cast<double>(groups.size());
    const Residual common{pooled.within.residual(), values - levels - 1.0};
    if (!(common.sumSquares > 0.0L)) {
        return fail(ErrorCode::Untrustworthy,
                    said("Analysis of covariance: no scatter is left about the lines, so nothing "
                         "can be tested. Use readings with finer resolution."));
    }
    CovarianceAnalysis analysis{.centre = static_cast<double>(pooled.total.x.mean),
                                .adjusted = adjustedMeans(pooled, common),
                                .groups = compare({pooled.total.residual(), values - 2.0}, common)};
    const auto variance =
        static_cast<double>(common.sumSquares / static_cast<long double>(common.dof));
    const EstimatedMeans slope{
        .means = {static_cast<double>(pooled.within.slope())},
        .covariance = {variance / static_cast<double>(pooled.within.x.sumSquares)},
        .dof = {common.dof}};
    const double one[] = {1.0};
    BOOST_OUTCOME_TRY(judged, contrast(slope, one, confidence));
    analysis.slope = judged;
    const auto slopes = static_cast<double>(pooled.withSlope);
    const Residual own{pooled.ownSlopeResidual, values - levels - slopes};
    if (slopes > 1.0 && own.dof > 0.0 && own.sumSquares > 0.0L) {
        analysis.equalSlopes = compare(common, own);
    }
    return analysis;
}

}  // namespace core::stats
