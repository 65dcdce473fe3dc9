#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "core/base/result.h"

namespace core::timebase {

/// A point of a straight line whose ordinate is only known to lie in [low, high] (rectangular,
/// JCGM 100:2008, 4.3.7). low == high says that it is exact.
struct BoundedPoint {
    double x{};
    double low{};
    double high{};
};

/// The narrowest slopes that bounded points allow, and which points set each limit.
struct SlopeBounds {
    double low{};
    double high{};
    std::size_t lowFirst{}, lowSecond{};    ///< points that set low, by index, smaller x first
    std::size_t highFirst{}, highSecond{};  ///< points that set high
    /// No line passes through all points, or only one slope does.
    [[nodiscard]] bool isContradiction() const noexcept;
};

/// For every pair with x_i < x_j the slope lies in
///   [(low_j - high_i)/(x_j - x_i), (high_j - low_i)/(x_j - x_i)];
/// the intersection over all pairs is exactly the set of slopes that some line through all points
/// has (elimination of the intercept from linear inequalities, Fourier and Motzkin).
/// Cost O(n²). Points of equal x must overlap, or the result is a contradiction between them.
/// Errors: InvalidInput for fewer than two distinct x, NotFinite, OutOfRange for low > high.
Result<SlopeBounds> slopeBounds(std::span<const BoundedPoint> points);

/// The probability density of the slope of a line through bounded points, when every line that
/// passes through all of them is equally probable (flat in slope and intercept). Immutable.
///
///   density(m) ∝ min_i(high_i - m·x_i) - max_i(low_i - m·x_i)       (the room left to the
///   intercept)
///
/// It is concave and piecewise linear. With one exact point, or one too narrow to be told from an
/// exact one, it is rectangular on the slope bounds;
/// with two points it is the trapezoid of the difference of two rectangular quantities (JCGM
/// 101:2008, 6.4.4; triangular when the widths are equal).
///
/// Do not use it for readings with unbounded (for example normal) errors: fit a line instead.
class SlopeDensity {
public:
    struct Knot {
        double slope{};
        double density{};
    };

    /// Errors as slopeBounds(); Contradiction when no line passes through all points.
    static Result<SlopeDensity> fromPoints(std::span<const BoundedPoint> points);

    [[nodiscard]] double low() const noexcept { return m_knots.front().slope; }
    [[nodiscard]] double high() const noexcept { return m_knots.back().slope; }
    /// Corners of the density, at least two, slopes increasing, area 1.
    [[nodiscard]] std::span<const Knot> knots() const noexcept { return m_knots; }
    [[nodiscard]] bool isRectangular() const noexcept { return m_isRectangular; }

    [[nodiscard]] double mean() const noexcept { return m_mean; }
    [[nodiscard]] double sigma() const noexcept { return m_sigma; }
    /// Probability that the slope is at most m.
    [[nodiscard]] double cdf(double m) const noexcept;
    /// Inverse of cdf(). probability must lie in [0, 1].
    [[nodiscard]] double quantile(double probability) const;

private:
    explicit SlopeDensity(std::vector<Knot> knots, bool isRectangular);
    std::vector<Knot> m_knots;
    std::vector<double> m_cdfAtKnot;
    bool m_isRectangular{};
    double m_mean{};
    double m_sigma{};
};

}  // namespace core::timebase
