#include "core/stats/sample/reading_likelihood.h"

#include <algorithm>
#include <cmath>

#include "core/base/expects.h"

namespace core::stats {
namespace {

// Relative step of the value between two nodes: the mean of a triangle is off by less than a
// thousandth of its width, below the digits that are shown.
constexpr double kLongestChordStep = 0.02;
constexpr int kMostChords = 8;

/// Height of the trapezoid at a value, its reciprocal between `low` and `high`.
class Trapezoid {
public:
    Trapezoid(Interval<double> bounds, double top)
        : m_low{1.0 / bounds.high}, m_high{1.0 / bounds.low} {
        const double flank = 0.5 * (1.0 - top) * (m_high - m_low);
        m_flatLow = m_low + flank;
        m_flatHigh = m_high - flank;
    }
    [[nodiscard]] double at(double value) const {
        const double x = 1.0 / value;
        if (x < m_flatLow) {
            return (x - m_low) / (m_flatLow - m_low);
        }
        return x > m_flatHigh ? (m_high - x) / (m_high - m_flatHigh) : 1.0;
    }
    // The same in terms of the value, ascending.
    [[nodiscard]] double flatFrom() const { return 1.0 / m_flatHigh; }
    [[nodiscard]] double flatTo() const { return 1.0 / m_flatLow; }

private:
    double m_low;
    double m_high;
    double m_flatLow;
    double m_flatHigh;
};

struct Corner {
    double at{};
    double height{};
};

/// Corners of the chain, ascending; heights at both ends may differ from zero.
std::vector<Corner> cornersOf(const ReadingLikelihood& reading) {
    const Interval<double> bounds = *reading.bounds;
    if (reading.top >= 1.0) {
        return {{bounds.low, 1.0}, {bounds.high, 1.0}};
    }
    const Trapezoid shape{bounds, reading.top};
    std::vector<Corner> corners{{bounds.low, 0.0}};
    const auto addFlank = [&](double from, double to) {
        const int chords = std::clamp(
            static_cast<int>(std::ceil((to - from) / from / kLongestChordStep)), 1, kMostChords);
        const double step = (to - from) / chords;
        for (int i = 1; i < chords; ++i) {
            // Chords lie on one side of the curve; moved by a twelfth of its second difference they
            // enclose the same area.
            const double at = from + step * i;
            const double bend = shape.at(at - step) - 2.0 * shape.at(at) + shape.at(at + step);
            corners.push_back({at, std::clamp(shape.at(at) - bend / 12.0, 0.0, 1.0)});
        }
        corners.push_back({to, std::clamp(shape.at(to), 0.0, 1.0)});
    };
    addFlank(bounds.low, shape.flatFrom());
    if (shape.flatTo() > shape.flatFrom()) {
        corners.push_back({shape.flatTo(), 1.0});
    }
    addFlank(shape.flatTo(), bounds.high);
    return corners;
}

/// Integrals of 1, x - origin and (x - origin)^2 under the chain.
struct ChainMoments {
    double mass{};
    double first{};
    double second{};
};

ChainMoments momentsOf(const std::vector<Corner>& corners, double origin) {
    ChainMoments sums;
    for (std::size_t i = 0; i + 1 < corners.size(); ++i) {
        const double a = corners[i].at - origin;
        const double b = corners[i + 1].at - origin;
        const double ha = corners[i].height;
        const double hb = corners[i + 1].height;
        const double width = b - a;
        sums.mass += width * (ha + hb) / 2.0;
        sums.first += width * (ha * (2.0 * a + b) + hb * (a + 2.0 * b)) / 6.0;
        sums.second +=
            width *
            (ha * (3.0 * a * a + 2.0 * a * b + b * b) + hb * (a * a + 2.0 * a * b + 3.0 * b * b)) /
            12.0;
    }
    return sums;
}

}  // namespace

ReadingLikelihood ReadingLikelihood::bounded(Interval<double> bounds, double top, double sigma) {
    CORE_EXPECTS(bounds.low > 0.0 && bounds.low < bounds.high && top >= 0.0 && top <= 1.0);
    ReadingLikelihood reading{0.0, sigma, bounds, top};
    const auto sums = momentsOf(cornersOf(reading), bounds.low);
    reading.value = bounds.low + sums.first / sums.mass;
    return reading;
}

double ReadingLikelihood::spread() const {
    if (!bounds) {
        return sigma;
    }
    const auto sums = momentsOf(cornersOf(*this), value);
    return std::hypot(sigma, std::sqrt(sums.second / sums.mass));
}

std::vector<LikelihoodNode> nodesOf(const ReadingLikelihood& reading) {
    CORE_EXPECTS(reading.bounds.has_value());
    const auto corners = cornersOf(reading);
    std::vector<LikelihoodNode> nodes;
    double slopeBefore = 0.0;
    for (std::size_t i = 0; i < corners.size(); ++i) {
        const bool isLast = i + 1 == corners.size();
        const double slope = isLast ? 0.0
                                    : (corners[i + 1].height - corners[i].height) /
                                          (corners[i + 1].at - corners[i].at);
        const double jump = i == 0 ? corners[i].height : (isLast ? -corners[i].height : 0.0);
        nodes.push_back({corners[i].at, jump, slope - slopeBefore});
        slopeBefore = slope;
    }
    return nodes;
}

}  // namespace core::stats
