#pragma once

#include <cstddef>
#include <span>

namespace core::stats {

/// Count, mean and sum of squared deviations of a sample, in extended precision so that a chain of
/// sums rounds once, at its end.
struct Moments {
    std::size_t count{};
    long double mean{};
    long double sumSquares{};  ///< sum of (x - mean)^2

    /// Denominator count - 1; needs two values.
    [[nodiscard]] double variance() const noexcept {
        return static_cast<double>(sumSquares / static_cast<long double>(count - 1));
    }
};

/// Two-pass moments with the correction term of Chan, Golub and LeVeque 1983 (Am. Stat.
/// 37:242-247, eq. 1.7). values must not be empty.
Moments momentsOf(std::span<const double> values) noexcept;

/// Moments of both samples together, from theirs alone (Chan, Golub and LeVeque 1983, eq. 2.1). A
/// sample without values may be combined.
Moments combine(const Moments& a, const Moments& b) noexcept;

}  // namespace core::stats
