#include "core/stats/sample/sample_summary.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "core/base/expects.h"
#include "core/base/words.h"
#include "core/stats/sample/checks.h"
#include "core/stats/sample/moments.h"

namespace core::stats {
namespace {

SampleSpread spreadOf(const Moments& moments, Confidence confidence) {
    const auto count = static_cast<double>(moments.count);
    const auto mean = static_cast<double>(moments.mean);
    const double deviation = std::sqrt(moments.variance());
    const double error = deviation / std::sqrt(count);
    const DegreesOfFreedom dof{count - 1.0};
    const double reach = StudentT{dof}.coverageFactor(confidence) * error;
    return {.standardDeviation = deviation,
            .standardError = error,
            .dof = dof,
            .meanInterval = {mean - reach, mean + reach}};
}

}  // namespace

Result<SampleSummary> summarise(std::span<const double> values, Confidence confidence) {
    BOOST_OUTCOME_TRY(checkValues(values, toSay("Summary of a sample"), 1));
    BOOST_OUTCOME_TRY(checkConfidence(confidence));
    const Moments moments = momentsOf(values);
    const auto [lowest, highest] = std::minmax_element(values.begin(), values.end());
    SampleSummary summary{.count = values.size(),
                          .mean = static_cast<double>(moments.mean),
                          .median = median(values),
                          .minimum = *lowest,
                          .maximum = *highest,
                          .spread = std::nullopt};
    if (values.size() > 1) {
        summary.spread = spreadOf(moments, confidence);
    }
    return summary;
}

double median(std::span<const double> values) {
    CORE_EXPECTS(!values.empty());
    std::vector<double> sorted(values.begin(), values.end());
    const auto middle = sorted.begin() + static_cast<std::ptrdiff_t>(sorted.size() / 2);
    std::nth_element(sorted.begin(), middle, sorted.end());
    if (sorted.size() % 2 == 1) {
        return *middle;
    }
    return 0.5 * (*middle + *std::max_element(sorted.begin(), middle));
}

}  // namespace core::stats
