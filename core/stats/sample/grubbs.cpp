#include "core/stats/sample/grubbs.h"

#include <cmath>

#include "core/base/expects.h"
#include "core/stats/sample/checks.h"
#include "core/stats/sample/moments.h"

namespace core::stats {

double grubbsCritical(std::size_t count, Probability alpha) {
    CORE_EXPECTS(count >= 3);
    const auto n = static_cast<double>(count);
    const double dof = n - 2.0;
    const double t = StudentT{{dof}}.quantile({0.5 * alpha.value / n});
    return (n - 1.0) / std::sqrt(n) * std::sqrt(t * t / (dof + t * t));
}

Result<GrubbsResult> grubbsTest(std::span<const double> values) {
    BOOST_OUTCOME_TRY(checkValues(values, "Grubbs test", 3));
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
    if (result.statistic > result.critical1Percent) {
        result.word = OutlierWord::Outlier;
    } else if (result.statistic > result.critical5Percent) {
        result.word = OutlierWord::Straggler;
    }
    return result;
}

}  // namespace core::stats
