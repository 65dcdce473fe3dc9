#pragma once

#include <span>

#include "core/base/result.h"

namespace core::stats {

/// Estimates of location that one odd value cannot drag away, to stand beside the mean.
struct RobustTwins {
    double median{};
    double hodgesLehmann{};  ///< median of the means of all pairs, each value with itself included
    double huber{};          ///< M-estimate with psi bent at 1.5 scaled median deviations
    double scaledMedianDeviation{};  ///< 1.4826 * median |x - median|: a robust standard deviation
};

/// Median; Hodges and Lehmann 1963 (Ann. Math. Stat. 34:598-611); Huber 1964 (Ann. Math. Stat.
/// 35:73-101) with the scale held at the scaled median deviation, as in Venables and Ripley 2002,
/// Modern Applied Statistics with S, 5.5. When more than half of the values are equal the deviation
/// is zero and the M-estimate is the median. O(n log n).
/// Errors: InvalidInput for no values; NotFinite.
Result<RobustTwins> robustTwins(std::span<const double> values);

}  // namespace core::stats
