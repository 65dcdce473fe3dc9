#pragma once

#include <optional>
#include <vector>

#include "core/base/result.h"
#include "core/base/units.h"
#include "core/stats/model/straight_line.h"

namespace core::stats {

/// A coefficient of correlation between -1 and 1.
struct Correlation {
    double coefficient{};
    double pValue{};  ///< two-sided, against zero, by Student's t with n - 2 degrees of freedom
    std::optional<Interval<double>> interval{};  ///< absent for fewer than four pairs
};

/// Pearson's r with the interval of Fisher 1921 (Metron 1:3-32): z = atanh r, variance 1/(n - 3).
/// Assumes a joint normal distribution; a few implements with their attributes are not that, so the
/// interval is a guide.
/// Errors: InvalidInput for fewer than three pairs, unequal lengths or a constant; NotFinite;
/// OutOfRange.
Result<Correlation> pearson(const PairedValues& pairs, Confidence confidence = {});

/// Spearman's coefficient, Pearson's of the ranks with ties at their mean rank (Spearman 1904, Am.
/// J. Psychol. 15:72-101); interval with the variance (1 + r^2/2)/(n - 3) of Bonett and Wright
/// 2000, Psychometrika 65:23-28. Errors: as pearson().
Result<Correlation> spearman(const PairedValues& pairs, Confidence confidence = {});

/// Ranks from 1; equal values share the mean of their ranks. values must not hold NaN.
std::vector<double> midRanks(std::span<const double> values);

}  // namespace core::stats
