#pragma once

#include <optional>
#include <vector>

#include "core/base/units.h"

namespace core::stats {

/// What one reading says of the true value: its likelihood as a function of it. Plain value;
/// readings that compare equal say the same.
///
/// Without bounds it is normal around `value`. With bounds the true value lies between them, and
/// its reciprocal (the period of a rate) has a likelihood that is a trapezoid: 1 on a share `top`
/// of the base around its middle, falling in straight lines to 0 at the ends. A count to the
/// nearest frame from an exact start is a rectangle (top 1), one whose both ends are rounded a
/// triangle (top 0). In both cases a normal error of `sigma` of its own comes on top.
struct ReadingLikelihood {
    double value{};  ///< stands for the reading where its own spread does not matter
    double sigma{};  ///< zero or more
    std::optional<Interval<double>> bounds{};  ///< 0 < low < high
    double top{1.0};                           ///< 0 to 1; without meaning for a normal reading

    static ReadingLikelihood normal(double value, double sigma) { return {value, sigma, {}, 1.0}; }
    /// `value` becomes the expectation under a flat density of the true value.
    static ReadingLikelihood bounded(Interval<double> bounds, double top, double sigma = 0.0);

    /// Standard deviation of the true value under a flat density of it.
    [[nodiscard]] double spread() const;

    auto operator<=>(const ReadingLikelihood&) const = default;
};

/// A likelihood as a chain of straight lines over the true value, zero outside: jumps and changes
/// of slope at its nodes, from left to right.
struct LikelihoodNode {
    double at{};
    double jump{};
    double bend{};
};

/// The straight lines of a bounded reading, without its `sigma`. The curve of the reciprocal is
/// followed by chords of like area.
std::vector<LikelihoodNode> nodesOf(const ReadingLikelihood& reading);

}  // namespace core::stats
