#pragma once

#include <span>
#include <vector>

namespace ui::doubts {

/// A scale from rates in rpm to shares of its length: straight, or with equal lengths for equal
/// ratios where a straight one would press the rates that belong together into a few pixels.
/// Immutable.
class RateAxis {
public:
    /// Holds all of these, which must not be none, with some air about them. Never narrower than a
    /// tenth of its middle to either side, so that what is close looks close.
    explicit RateAxis(std::span<const double> rpm);

    [[nodiscard]] bool isByRatio() const noexcept { return m_isByRatio; }
    /// 0 at the left end, 1 at the right one.
    [[nodiscard]] double shareOf(double rpm) const;
    /// Round rates inside, ascending: at most so many, at least two of them where two are asked
    /// for.
    [[nodiscard]] std::vector<double> ticks(int most) const;

private:
    [[nodiscard]] std::vector<double> evenTicks(int most) const;
    [[nodiscard]] std::vector<double> ratioTicks(int most) const;

    double m_low{};
    double m_high{};
    bool m_isByRatio{};
};

}  // namespace ui::doubts
