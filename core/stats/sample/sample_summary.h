#pragma once

#include <cstddef>
#include <optional>
#include <span>

#include "core/base/result.h"
#include "core/base/units.h"
#include "core/stats/model/distributions.h"

namespace core::stats {

/// Scatter of a sample of at least two values and what follows for its mean.
struct SampleSpread {
    double standardDeviation{};       ///< denominator n - 1
    double standardError{};           ///< of the mean, standardDeviation / sqrt(n)
    DegreesOfFreedom dof{};           ///< n - 1
    Interval<double> meanInterval{};  ///< mean -+ t * standardError, at the level asked for
};

/// A sample in a few numbers, in the unit of its values.
struct SampleSummary {
    std::size_t count{};
    double mean{};
    double median{};  ///< mean of the two middle values when count is even
    double minimum{};
    double maximum{};
    std::optional<SampleSpread>
        spread{};  ///< absent for a single value: it says nothing of scatter
};

/// Summary of independent values in any order.
///
/// The interval is Student's (Student 1908, Biometrika 6:1-25; JCGM 100:2008, G.3.2) and assumes
/// values close to normal. Two passes in extended precision with the correction of Chan, Golub and
/// LeVeque 1983 (Am. Stat. 37:242-247): digits that all values share cost nothing. O(n).
/// Errors: InvalidInput for no values; NotFinite, with the position; OutOfRange for a level outside
/// (0, 1).
Result<SampleSummary> summarise(std::span<const double> values, Confidence confidence = {});

/// Middle of the sorted values. values must not be empty and must not hold a NaN.
double median(std::span<const double> values);

}  // namespace core::stats
