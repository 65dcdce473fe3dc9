#include "core/stats/readers/correlation.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "core/base/words.h"
#include "core/stats/sample/checks.h"
#include "core/stats/sample/co_moments.h"

namespace core::stats {
namespace {

Result<double> coefficientOf(const PairedValues& pairs) {
    const CoMoments moments = coMomentsOf(pairs);
    if (!(moments.x.sumSquares > 0.0L) || !(moments.y.sumSquares > 0.0L)) {
        return fail(
            ErrorCode::InvalidInput,
            said("Correlation: all values on one side are equal, so there is nothing to follow."));
    }
    const long double r =
        moments.sumProducts / std::sqrt(moments.x.sumSquares) / std::sqrt(moments.y.sumSquares);
    return static_cast<double>(std::clamp(r, -1.0L, 1.0L));
}

// varianceFactor / (n - 3) is the variance of atanh r.
// NOLINTNEXTLINE(bugprone-easily-swappable-parameters)
Correlation judge(double r, std::size_t count, double varianceFactor, Confidence confidence) {
    const auto n = static_cast<double>(count);
    Correlation result{.coefficient = r};
    const StudentT t{{n - 2.0}};
    result.pValue =
        std::abs(r) < 1.0 ? t.twoSided(r * std::sqrt((n - 2.0) / ((1.0 - r) * (1.0 + r)))) : 0.0;
    if (count > 3) {
        const double z = NormalDistribution{}.quantile({1.0 - 0.5 * confidence.alpha()});
        const double reach = z * std::sqrt(varianceFactor / (n - 3.0));
        result.interval = {std::tanh(std::atanh(r) - reach), std::tanh(std::atanh(r) + reach)};
    }
    return result;
}

}  // namespace

std::vector<double> midRanks(std::span<const double> values) {
    std::vector<std::size_t> order(values.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::sort(order.begin(), order.end(),
              [&](std::size_t a, std::size_t b) { return values[a] < values[b]; });
    std::vector<double> ranks(values.size());
    for (std::size_t first = 0; first < order.size();) {
        std::size_t last = first;
        while (last + 1 < order.size() && values[order[last + 1]] == values[order[first]]) {
            ++last;
        }
        for (std::size_t i = first; i <= last; ++i) {
            ranks[order[i]] = 0.5 * static_cast<double>(first + last) + 1.0;
        }
        first = last + 1;
    }
    return ranks;
}

Result<Correlation> pearson(const PairedValues& pairs, Confidence confidence) {
    BOOST_OUTCOME_TRY(checkConfidence(confidence));
    BOOST_OUTCOME_TRY(checkPairs(pairs, toSay("Correlation"), 3));
    BOOST_OUTCOME_TRY(r, coefficientOf(pairs));
    return judge(r, pairs.x.size(), 1.0, confidence);
}

Result<Correlation> spearman(const PairedValues& pairs, Confidence confidence) {
    BOOST_OUTCOME_TRY(checkConfidence(confidence));
    BOOST_OUTCOME_TRY(checkPairs(pairs, toSay("Rank correlation"), 3));
    const auto x = midRanks(pairs.x);
    const auto y = midRanks(pairs.y);
    BOOST_OUTCOME_TRY(r, coefficientOf({x, y}));
    return judge(r, x.size(), 1.0 + 0.5 * r * r, confidence);
}

}  // namespace core::stats
