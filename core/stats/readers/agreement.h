#pragma once

#include <cstddef>
#include <optional>

#include "core/base/result.h"
#include "core/base/units.h"
#include "core/stats/model/straight_line.h"

namespace core::stats {

/// A limit with its confidence interval.
struct AgreementLimit {
    double value{};
    Interval<double> interval{};
};

/// Limits of agreement between two methods or readers that measured the same shots.
struct AgreementLimits {
    std::size_t count{};
    double meanDifference{};          ///< first method less second: the bias
    double differenceDeviation{};     ///< standard deviation of the differences
    Interval<double> meanInterval{};  ///< of the bias
    AgreementLimit lower{};
    AgreementLimit upper{};
    double limitError{};  ///< standard error of either limit
    /// Slope of the differences on the means: far from zero, the bias changes with the size and one
    /// pair of limits does not describe it. Absent when the line cannot be fitted.
    std::optional<JudgedEstimate> trend{};
};

/// How wide the limits reach and how their error is taken.
struct AgreementOptions {
    double reach{1.96};       ///< limits at mean -+ reach * s
    Confidence confidence{};  ///< of the intervals
};

/// Bland and Altman 1986, Lancet 327:307-310, with the standard error of a limit of Bland and
/// Altman 1999, Stat. Methods Med. Res. 8:135-160: s sqrt(1/n + reach^2/(2(n - 1))); intervals by
/// Student's t. pairs: x first method, y second, the same shot at the same place. Assumes
/// differences close to normal. Errors: InvalidInput for fewer than three pairs or unequal lengths;
/// NotFinite; OutOfRange for a reach of zero or less or a level outside (0, 1).
Result<AgreementLimits> limitsOfAgreement(const PairedValues& pairs,
                                          const AgreementOptions& options = {});

/// Repeatability of one method from two readings of each shot.
struct Repeatability {
    double withinDeviation{};  ///< sqrt(mean(d^2)/2): standard deviation of one reading
    double limit{};            ///< 2.77 times that: two readings differ by less 95 % of the time
};

/// From differences d of two readings of the same shot: Bland and Altman 1986; limit
/// 1.96 sqrt(2) s as ISO 5725-6:1994, 4.1.
/// Errors: InvalidInput for no pairs or unequal lengths; NotFinite.
Result<Repeatability> repeatabilityOfPairs(const PairedValues& readings);

}  // namespace core::stats
