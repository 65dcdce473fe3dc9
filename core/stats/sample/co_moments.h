#pragma once

#include <string_view>

#include "core/base/result.h"
#include "core/stats/model/straight_line.h"
#include "core/stats/sample/moments.h"

namespace core::stats {

/// Moments of x and y and their sum of products about the means, in extended precision.
struct CoMoments {
    Moments x{};
    Moments y{};
    long double sumProducts{};

    /// Slope of y on x; x must vary.
    [[nodiscard]] long double slope() const noexcept { return sumProducts / x.sumSquares; }
    /// Sum of squares of y about that line.
    [[nodiscard]] long double residual() const noexcept {
        return y.sumSquares - sumProducts * sumProducts / x.sumSquares;
    }
};

/// Two passes, as momentsOf(). Lengths must be equal and not zero.
CoMoments coMomentsOf(const PairedValues& pairs);

/// Errors: InvalidInput for unequal lengths or fewer than atLeast pairs; NotFinite.
Result<void> checkPairs(const PairedValues& pairs, std::string_view what, std::size_t atLeast);

}  // namespace core::stats
