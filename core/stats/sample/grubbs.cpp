#include "core/stats/sample/grubbs.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

#include "core/base/expects.h"
#include "core/base/words.h"
#include "core/stats/sample/checks.h"
#include "core/stats/sample/moments.h"
#include "core/stats/sample/sample_likelihood.h"

namespace core::stats {
namespace {

void setWord(GrubbsResult& result) {
    if (result.statistic > result.critical1Percent) {
        result.word = OutlierWord::Outlier;
    } else if (result.statistic > result.critical5Percent) {
        result.word = OutlierWord::Straggler;
    }
}

double mostLikely(std::span<const ReadingLikelihood> readings, std::optional<std::size_t> free) {
    const SampleLikelihood sample{readings, free};
    return sample.under(sample.likeliest()).value;
}

}  // namespace

double grubbsCritical(std::size_t count, Probability alpha) {
    CORE_EXPECTS(count >= 3);
    const auto n = static_cast<double>(count);
    const double dof = n - 2.0;
    const double t = StudentT{{dof}}.quantile({0.5 * alpha.value / n});
    return (n - 1.0) / std::sqrt(n) * std::sqrt(t * t / (dof + t * t));
}

Result<GrubbsResult> grubbsTest(std::span<const double> values) {
    BOOST_OUTCOME_TRY(checkValues(values, toSay("Grubbs test"), 3));
    GrubbsResult result{.critical5Percent = grubbsCritical(values.size(), {0.05}),
                        .critical1Percent = grubbsCritical(values.size(), {0.01})};
    const Moments moments = momentsOf(values);
    const double deviation = std::sqrt(moments.variance());
    if (deviation <= 0.0) {
        return result;
    }
    const auto mean = static_cast<double>(moments.mean);
    for (std::size_t i = 0; i < values.size(); ++i) {
        const double statistic = std::abs(values[i] - mean) / deviation;
        if (statistic > result.statistic) {
            result.statistic = statistic;
            result.index = i;
        }
    }
    setWord(result);
    return result;
}

Result<GrubbsResult> grubbsTest(std::span<const ReadingLikelihood> readings) {
    std::vector<double> values;
    bool isExact = true;
    for (const ReadingLikelihood& reading : readings) {
        values.push_back(reading.value);
        isExact = isExact && !reading.bounds && reading.sigma == readings.front().sigma;
    }
    if (isExact) {
        return grubbsTest(values);
    }
    BOOST_OUTCOME_TRY(checkValues(values, toSay("Grubbs test"), 3));
    GrubbsResult result{.critical5Percent = grubbsCritical(values.size(), {0.05}),
                        .critical1Percent = grubbsCritical(values.size(), {0.01})};
    const auto [low, high] = std::minmax_element(values.begin(), values.end());
    if (*low == *high) {
        return result;
    }
    const auto n = static_cast<double>(values.size());
    const double together = mostLikely(readings, std::nullopt);
    for (const auto& end : {low, high}) {
        const auto at = static_cast<std::size_t>(end - values.begin());
        const double gain = 2.0 * (mostLikely(readings, at) - together);
        // For exact values the gain is n ln(1 + t²/(n - 2)), t the studentized distance from the
        // others, and |x - mean|/s = (n - 1)/sqrt(n) sqrt(t²/(n - 2 + t²)).
        const double statistic =
            (n - 1.0) / std::sqrt(n) * std::sqrt(std::max(0.0, -std::expm1(-gain / n)));
        if (statistic > result.statistic) {
            result.statistic = statistic;
            result.index = at;
        }
    }
    setWord(result);
    return result;
}

}  // namespace core::stats
