#pragma once

#include <cstddef>
#include <span>

#include "core/base/result.h"
#include "core/stats/model/distributions.h"
#include "core/stats/sample/reading_likelihood.h"

namespace core::stats {

/// Words of ISO 5725-2:1994, 7.1.4: a straggler lies between the 5 % and the 1 % critical value, a
/// statistical outlier beyond the 1 % one. Neither is wrong for that; both ask for a look.
enum class OutlierWord { Ordinary, Straggler, Outlier };

/// Grubbs' test of the most distant value of a cell.
struct GrubbsResult {
    std::size_t index{};  ///< of the most distant value, the first one when two are equal
    double statistic{};   ///< |x - mean| / s
    double critical5Percent{};
    double critical1Percent{};
    OutlierWord word{OutlierWord::Ordinary};
};

/// Tests the value farthest from the mean on either side (two-sided critical values, as table 5 of
/// ISO 5725-2:1994). One value at a time: two odd values on the same side can hide each other.
/// Values without scatter have no outlier. O(n).
/// Errors: InvalidInput for fewer than three values; NotFinite.
Result<GrubbsResult> grubbsTest(std::span<const double> values);

/// The same for readings that may be coarse: how much likelier all become (scatter and mean set
/// anew) when the farthest reading may lie anywhere, as the |x - mean| / s of exact values that
/// gains as much. n - 1 equal counts and one beside them gain next to nothing, although Grubbs'
/// test of the rounded values always calls the one an outlier. For exact readings it is Grubbs'
/// test. Errors: InvalidInput for fewer than three readings; NotFinite.
Result<GrubbsResult> grubbsTest(std::span<const ReadingLikelihood> readings);

/// Critical value of |x - mean| / s for the largest of count normal values, exceeded on either side
/// with probability alpha: Grubbs 1969, Technometrics 11:1-21, from the t distribution. An upper
/// bound that is exact in the range of the printed tables. count must be three or more.
double grubbsCritical(std::size_t count, Probability alpha);

}  // namespace core::stats
