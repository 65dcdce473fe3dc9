#pragma once

#include <string>
#include <vector>

#include "core/publish/figures/figure.h"

namespace core::publish {

/// A straight scale from values to points, with round ticks. Immutable.
class Axis {
public:
    struct Range {
        double low{};
        double high{};
    };
    /// Takes in the whole range with a margin of a twentieth; a range without width is widened.
    /// Both ends must be finite. atLow and atHigh: where the ends lie, points.
    Axis(Range values, double atLowPt, double atHighPt);

    [[nodiscard]] double at(double value) const noexcept;
    /// Multiples of 1, 2 or 5 times a power of ten inside the range, about `count` of them.
    [[nodiscard]] std::vector<double> ticks(int count) const;
    [[nodiscard]] static std::string label(double tick, double step);
    [[nodiscard]] double low() const noexcept { return m_low; }
    [[nodiscard]] double high() const noexcept { return m_high; }

private:
    double m_low;
    double m_high;
    double m_atLowPt;
    double m_atHighPt;
};

/// Widens a range so that it holds a value; values that are not finite are passed over.
void take(Axis::Range& range, double value) noexcept;
/// A range that holds nothing yet.
[[nodiscard]] Axis::Range emptyRange() noexcept;
[[nodiscard]] bool isEmpty(const Axis::Range& range) noexcept;

/// A plot's frame: the box that data are drawn in, points.
struct Box {
    double left{};
    double top{};
    double right{};
    double bottom{};
};

/// Lines up from the ticks of a horizontal axis, their numbers below the box, and the title.
void drawHorizontalAxis(std::vector<Drawn>& drawn, const Box& box, const Axis& axis,
                        const std::string& title);
/// Lines across from the ticks of a vertical axis, their numbers to the left of the box; the title
/// lies flat above it.
void drawVerticalAxis(std::vector<Drawn>& drawn, const Box& box, const Axis& axis,
                      const std::string& title);

}  // namespace core::publish
