#include "core/stats/comparison/one_way.h"

#include <cmath>
#include <string>

#include "core/base/words.h"
#include "core/stats/sample/checks.h"
#include "core/stats/sample/sample_summary.h"

namespace core::stats {
namespace {

Result<void> checkNumberOfGroups(std::size_t groups) {
    if (groups < 2) {
        return fail(ErrorCode::InvalidInput,
                    said("A comparison needs at least two groups. Add readings of a second one."));
    }
    return ok();
}

Result<void> checkGroups(std::span<const Moments> groups) {
    BOOST_OUTCOME_TRY(checkNumberOfGroups(groups.size()));
    for (std::size_t i = 0; i < groups.size(); ++i) {
        if (groups[i].count < 1) {
            return fail(
                ErrorCode::InvalidInput,
                said("Group {} has no values. Leave the group out or film more shots.", i + 1));
        }
    }
    return ok();
}

}  // namespace

std::vector<Moments> momentsOfGroups(std::span<const std::vector<double>> groups) {
    std::vector<Moments> moments;
    moments.reserve(groups.size());
    for (const auto& group : groups) {
        moments.push_back(momentsOf(group));
    }
    return moments;
}

Result<OneWayAnova> oneWayAnova(std::span<const Moments> groups) {
    BOOST_OUTCOME_TRY(checkGroups(groups));
    Moments all;
    long double within = 0.0L;
    for (const Moments& group : groups) {
        all = combine(all, group);
        within += group.sumSquares;
    }
    if (all.count <= groups.size()) {
        return fail(ErrorCode::InvalidInput,
                    said("Analysis of variance: no group has two values, so there is no scatter to "
                         "compare with. Film more shots."));
    }
    if (within <= 0.0L) {
        return fail(ErrorCode::Untrustworthy,
                    said("Analysis of variance: no group has any scatter, so nothing can be "
                         "tested. Use readings with finer resolution."));
    }
    long double between = 0.0L;
    for (const Moments& group : groups) {
        const long double step = group.mean - all.mean;
        between += static_cast<long double>(group.count) * step * step;
    }
    const RatioDof dof{{static_cast<double>(groups.size() - 1)},
                       {static_cast<double>(all.count - groups.size())}};
    const long double meanBetween = between / static_cast<long double>(groups.size() - 1);
    const long double meanWithin = within / static_cast<long double>(all.count - groups.size());
    const auto f = static_cast<double>(meanBetween / meanWithin);
    return OneWayAnova{.test = {f, dof, FDistribution{dof}.upperTail(f)},
                       .sumSquaresBetween = static_cast<double>(between),
                       .sumSquaresWithin = static_cast<double>(within),
                       .meanSquareBetween = static_cast<double>(meanBetween),
                       .meanSquareWithin = static_cast<double>(meanWithin),
                       .rSquared = static_cast<double>(between / (between + within))};
}

Result<VarianceRatioTest> welchAnova(std::span<const IndependentMean> means) {
    BOOST_OUTCOME_TRY(checkNumberOfGroups(means.size()));
    double weights = 0.0;
    double weightedMeans = 0.0;
    const double origin = means.front().mean;
    for (std::size_t i = 0; i < means.size(); ++i) {
        if (means[i].variance <= 0.0) {
            return fail(ErrorCode::Untrustworthy,
                        said("Group {} has no scatter, so its weight is not known. Leave it out or "
                             "use readings with finer resolution.",
                             i + 1));
        }
        weights += 1.0 / means[i].variance;
        weightedMeans += (means[i].mean - origin) / means[i].variance;
    }
    const double centre = origin + weightedMeans / weights;
    double between = 0.0;
    double imbalance = 0.0;
    for (const IndependentMean& mean : means) {
        const double step = mean.mean - centre;
        between += step * step / mean.variance;
        imbalance += std::pow(1.0 - 1.0 / (mean.variance * weights), 2.0) / mean.dof.value;
    }
    const auto count = static_cast<double>(means.size());
    const RatioDof dof{{count - 1.0}, {(count * count - 1.0) / (3.0 * imbalance)}};
    const double f =
        between / (count - 1.0) / (1.0 + 2.0 * (count - 2.0) / (count * count - 1.0) * imbalance);
    return VarianceRatioTest{f, dof, FDistribution{dof}.upperTail(f)};
}

Result<VarianceRatioTest> leveneTest(std::span<const std::vector<double>> groups,
                                     DeviationCentre centre) {
    std::vector<std::vector<double>> deviations(groups.begin(), groups.end());
    for (auto& group : deviations) {
        BOOST_OUTCOME_TRY(checkValues(group, toSay("Test of equal variances"), 1));
        const double middle = centre == DeviationCentre::Median
                                  ? median(group)
                                  : static_cast<double>(momentsOf(group).mean);
        for (double& value : group) {
            value = std::abs(value - middle);
        }
    }
    BOOST_OUTCOME_TRY(anova, oneWayAnova(momentsOfGroups(deviations)));
    return anova.test;
}

}  // namespace core::stats
