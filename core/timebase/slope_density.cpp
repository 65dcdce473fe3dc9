#include "core/timebase/slope_density.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <string>
#include <utility>

#include "core/base/expects.h"
#include "core/base/words.h"

namespace core::timebase {
namespace {

// Limits closer than this, relatively, leave a single slope: its probability is zero, and rounding
// of the inputs (about 1e-16) decides on which side it falls.
constexpr double kTouch = 1e-9;

Result<void> checkPoints(std::span<const BoundedPoint> points) {
    for (std::size_t i = 0; i < points.size(); ++i) {
        const auto& point = points[i];
        if (!std::isfinite(point.x) || !std::isfinite(point.low) || !std::isfinite(point.high)) {
            return fail(ErrorCode::NotFinite, said("Point {} of the line is not finite.", i));
        }
        if (point.low > point.high) {
            return fail(ErrorCode::OutOfRange,
                        said("Point {} of the line has its limits in the wrong order.", i));
        }
    }
    return ok();
}

// Room that the intercept has at a slope; negative when no line fits.
double roomAt(std::span<const BoundedPoint> points, double slope) {
    double upper = std::numeric_limits<double>::infinity();
    double lower = -std::numeric_limits<double>::infinity();
    for (const auto& point : points) {
        upper = std::min(upper, point.high - slope * point.x);
        lower = std::max(lower, point.low - slope * point.x);
    }
    return upper - lower;
}

// Slopes inside the limits at which another point begins to bound the intercept.
std::vector<double> cornersBetween(std::span<const BoundedPoint> points, double low, double high) {
    std::vector<double> corners{low, high};
    for (std::size_t i = 0; i < points.size(); ++i) {
        for (std::size_t j = i + 1; j < points.size(); ++j) {
            const double dx = points[j].x - points[i].x;
            if (dx == 0.0) {
                continue;
            }
            for (const double slope :
                 {(points[j].high - points[i].high) / dx, (points[j].low - points[i].low) / dx}) {
                if (slope > low && slope < high) {
                    corners.push_back(slope);
                }
            }
        }
    }
    std::sort(corners.begin(), corners.end());
    return corners;
}

// Corners closer than rounding can tell are one, with the most room of them: a steep flank is
// upright.
std::vector<SlopeDensity::Knot> knotsBetween(std::span<const BoundedPoint> points, double low,
                                             double high) {
    const double tooClose = kTouch * (high - low);
    std::vector<SlopeDensity::Knot> knots;
    for (const double corner : cornersBetween(points, low, high)) {
        const double room = std::max(0.0, roomAt(points, corner));
        if (knots.empty() || corner - knots.back().slope > tooClose) {
            knots.push_back({corner, room});
        } else {
            knots.back().density = std::max(knots.back().density, room);
        }
    }
    knots.back().slope = high;
    return knots;
}

// Rounding of the ordinates, or the width of the widest point, leaves nothing of its width.
bool isExact(const BoundedPoint& point, double widest, double largest) {
    constexpr double kRounding = 1e-12;
    return point.high - point.low <= std::max(kTouch * widest, kRounding * largest);
}

bool hasExactPoint(std::span<const BoundedPoint> points, double slope) {
    double widest = 0.0;
    double largest = 0.0;
    for (const auto& point : points) {
        widest = std::max(widest, point.high - point.low);
        largest = std::max(
            {largest, std::abs(point.low), std::abs(point.high), std::abs(slope * point.x)});
    }
    return std::any_of(points.begin(), points.end(),
                       [&](const BoundedPoint& point) { return isExact(point, widest, largest); });
}

/// Takes in what two points say, the second to the right of the first.
void narrow(SlopeBounds& bounds, std::span<const BoundedPoint> points, std::size_t first,
            std::size_t second) {
    const double dx = points[second].x - points[first].x;
    const double low = (points[second].low - points[first].high) / dx;
    const double high = (points[second].high - points[first].low) / dx;
    if (low > bounds.low) {
        bounds.low = low;
        bounds.lowFirst = first;
        bounds.lowSecond = second;
    }
    if (high < bounds.high) {
        bounds.high = high;
        bounds.highFirst = first;
        bounds.highSecond = second;
    }
}

}  // namespace

bool SlopeBounds::isContradiction() const noexcept {
    const double scale = std::max(std::abs(low), std::abs(high));
    return high - low <= kTouch * scale;
}

Result<SlopeBounds> slopeBounds(std::span<const BoundedPoint> points) {
    BOOST_OUTCOME_TRY(checkPoints(points));
    SlopeBounds bounds;
    bounds.low = -std::numeric_limits<double>::infinity();
    bounds.high = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < points.size(); ++i) {
        for (std::size_t j = 0; j < points.size(); ++j) {
            const double dx = points[j].x - points[i].x;
            if (dx > 0.0) {
                narrow(bounds, points, i, j);
            } else if (i != j && dx == 0.0 && points[j].low > points[i].high) {
                return SlopeBounds{.low = 0.0,
                                   .high = -1.0,
                                   .lowFirst = i,
                                   .lowSecond = j,
                                   .highFirst = i,
                                   .highSecond = j};
            }
        }
    }
    if (!std::isfinite(bounds.low) || !std::isfinite(bounds.high)) {
        return fail(ErrorCode::InvalidInput, said("A slope needs points at two different places."));
    }
    return bounds;
}

Result<SlopeDensity> SlopeDensity::fromPoints(std::span<const BoundedPoint> points) {
    BOOST_OUTCOME_TRY(bounds, slopeBounds(points));
    if (bounds.isContradiction()) {
        return fail(ErrorCode::Contradiction, said("No straight line passes through all points."));
    }
    if (hasExactPoint(points, bounds.high)) {
        return SlopeDensity{{{bounds.low, 1.0}, {bounds.high, 1.0}}, true};
    }
    return SlopeDensity{knotsBetween(points, bounds.low, bounds.high), false};
}

SlopeDensity::SlopeDensity(std::vector<Knot> knots, bool isRectangular)
    : m_knots{std::move(knots)}, m_isRectangular{isRectangular} {
    double area = 0.0;
    for (std::size_t i = 0; i + 1 < m_knots.size(); ++i) {
        area += 0.5 * (m_knots[i].density + m_knots[i + 1].density) *
                (m_knots[i + 1].slope - m_knots[i].slope);
    }
    CORE_EXPECTS(area > 0.0);
    for (auto& knot : m_knots) {
        knot.density /= area;
    }
    // Moments about the first knot, segment by segment: the density is linear in each.
    double first = 0.0;
    double second = 0.0;
    m_cdfAtKnot.push_back(0.0);
    for (std::size_t i = 0; i + 1 < m_knots.size(); ++i) {
        const auto [s0, d0] = m_knots[i];
        const auto [s1, d1] = m_knots[i + 1];
        const double w = s1 - s0;
        const double u = s0 - low();
        const double mass = 0.5 * (d0 + d1) * w;
        const double local1 = w * w * (d0 / 6.0 + d1 / 3.0);       // integral of t·density
        const double local2 = w * w * w * (d0 / 12.0 + d1 / 4.0);  // integral of t²·density
        first += u * mass + local1;
        second += u * u * mass + 2.0 * u * local1 + local2;
        m_cdfAtKnot.push_back(m_cdfAtKnot.back() + mass);
    }
    m_mean = low() + first;
    m_sigma = std::sqrt(std::max(0.0, second - first * first));
}

double SlopeDensity::cdf(double m) const noexcept {
    if (m <= low()) {
        return 0.0;
    }
    if (m >= high()) {
        return 1.0;
    }
    std::size_t i = 0;
    while (m_knots[i + 1].slope <= m) {
        ++i;
    }
    const double w = m_knots[i + 1].slope - m_knots[i].slope;
    const double t = m - m_knots[i].slope;
    const double rise = (m_knots[i + 1].density - m_knots[i].density) / w;
    return std::min(1.0, m_cdfAtKnot[i] + t * (m_knots[i].density + 0.5 * rise * t));
}

double SlopeDensity::quantile(double probability) const {
    CORE_EXPECTS(probability >= 0.0 && probability <= 1.0);
    if (probability == 1.0) {
        return high();  // rounding of the last flank would stay short of it
    }
    std::size_t i = 0;
    while (i + 2 < m_knots.size() && m_cdfAtKnot[i + 1] < probability) {
        ++i;
    }
    const double w = m_knots[i + 1].slope - m_knots[i].slope;
    const double d0 = m_knots[i].density;
    const double rise = (m_knots[i + 1].density - d0) / w;
    const double target = std::max(0.0, probability - m_cdfAtKnot[i]);
    // Solve d0·t + rise·t²/2 = target in the form that does not cancel.
    const double root = std::sqrt(std::max(0.0, d0 * d0 + 2.0 * rise * target));
    const double t = target == 0.0 ? 0.0 : 2.0 * target / (d0 + root);
    return std::min(high(), m_knots[i].slope + std::min(t, w));
}

}  // namespace core::timebase
