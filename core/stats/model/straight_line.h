#pragma once

#include <cstddef>
#include <span>

#include "core/base/result.h"
#include "core/stats/comparison/contrast.h"

namespace core::stats {

/// Pairs of numbers in the same order.
struct PairedValues {
    std::span<const double> x{};
    std::span<const double> y{};
};

/// Least squares line through pairs, such as spin (y) against shot number (x) in a session: a slope
/// whose interval leaves out zero is a drift.
struct StraightLine {
    double centre{};             ///< mean of x
    double valueAtCentre{};      ///< mean of y
    double intercept{};          ///< value at x = 0
    double interceptError{};     ///< standard error of the intercept
    JudgedEstimate slope{};      ///< per unit of x, with interval and test against zero
    double residualDeviation{};  ///< about the line, denominator n - 2
    std::size_t count{};

    [[nodiscard]] double valueAt(double x) const noexcept {
        return valueAtCentre + slope.estimate * (x - centre);
    }
    /// Standard error of valueAt(x).
    [[nodiscard]] double errorAt(double x) const noexcept;
};

/// Assumes independent errors of equal variance in y and exact x. Draper and Smith 1998, Applied
/// Regression Analysis, 1.4. Sums in extended precision. O(n).
/// Errors: InvalidInput for fewer than three pairs, unequal lengths or equal x throughout;
/// NotFinite; Untrustworthy when all points lie on the line, so nothing is known of its error;
/// OutOfRange.
Result<StraightLine> fitStraightLine(const PairedValues& pairs, Confidence confidence = {});

}  // namespace core::stats
