#include "core/publish/drawing/axis.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "core/report/number_format.h"

namespace core::publish {
namespace {

constexpr double kMargin = 0.05;
constexpr double kTickTextPt = kLeastTextPt;
constexpr double kTickRoomPt = 44.0;  ///< of a number and the gap behind it

double tickStep(double width, int count) {
    const double rough = width / std::max(1, count);
    const double power = std::pow(10.0, std::floor(std::log10(rough)));
    const double lead = rough / power;
    if (lead < 1.5) {
        return power;
    }
    return lead < 3.5 ? 2.0 * power : (lead < 7.5 ? 5.0 * power : 10.0 * power);
}

double stepOf(const std::vector<double>& ticks) {
    return ticks.size() > 1 ? ticks[1] - ticks[0] : 1.0;
}

}  // namespace

Axis::Axis(Range values, double atLowPt, double atHighPt)
    : m_low{values.low}, m_high{values.high}, m_atLowPt{atLowPt}, m_atHighPt{atHighPt} {
    const double smallest = std::max(1e-9, 1e-6 * std::max(std::abs(m_low), std::abs(m_high)));
    const double width = std::max(m_high - m_low, smallest);
    m_low -= kMargin * width;
    m_high += kMargin * width;
}

double Axis::at(double value) const noexcept {
    return m_atLowPt + (value - m_low) / (m_high - m_low) * (m_atHighPt - m_atLowPt);
}

std::vector<double> Axis::ticks(int count) const {
    const double step = tickStep(m_high - m_low, count);
    std::vector<double> ticks;
    const double first = std::ceil(m_low / step);
    for (int i = 0; (first + i) * step <= m_high && i < 100; ++i) {
        ticks.push_back((first + i) * step);
    }
    return ticks;
}

std::string Axis::label(double tick, double step) {
    const int decimals = std::max(0, static_cast<int>(std::ceil(-std::log10(step) - 1e-9)));
    std::string text = report::fixed(tick, decimals);
    if (text.front() == '-') {
        text.replace(0, 1, "−");
    }
    return text;
}

void take(Axis::Range& range, double value) noexcept {
    if (std::isfinite(value)) {
        range.low = std::min(range.low, value);
        range.high = std::max(range.high, value);
    }
}

Axis::Range emptyRange() noexcept {
    return {std::numeric_limits<double>::infinity(), -std::numeric_limits<double>::infinity()};
}

bool isEmpty(const Axis::Range& range) noexcept {
    return !(range.low <= range.high);
}

void drawHorizontalAxis(std::vector<Drawn>& drawn, const Box& box, const Axis& axis,
                        const std::string& title) {
    const int most = static_cast<int>((box.right - box.left) / kTickRoomPt);
    const auto ticks = axis.ticks(std::clamp(most, 2, 5));
    for (const double tick : ticks) {
        const double x = axis.at(tick);
        drawn.emplace_back(Line{{x, box.top}, {x, box.bottom}, Ink::Grid, 0.8});
        drawn.emplace_back(Text{{x, box.bottom + 13.0},
                                Axis::label(tick, stepOf(ticks)),
                                Anchor::Middle,
                                kTickTextPt,
                                Ink::Soft});
    }
    drawn.emplace_back(Line{{box.left, box.bottom}, {box.right, box.bottom}, Ink::Soft, 0.8});
    drawn.emplace_back(
        Text{{box.right, box.bottom + 28.0}, title, Anchor::End, kTickTextPt, Ink::Soft});
}

void drawVerticalAxis(std::vector<Drawn>& drawn, const Box& box, const Axis& axis,
                      const std::string& title) {
    const auto ticks = axis.ticks(5);
    for (const double tick : ticks) {
        const double y = axis.at(tick);
        drawn.emplace_back(Line{{box.left, y}, {box.right, y}, Ink::Grid, 0.8});
        drawn.emplace_back(Text{{box.left - 5.0, y + 3.5},
                                Axis::label(tick, stepOf(ticks)),
                                Anchor::End,
                                kTickTextPt,
                                Ink::Soft});
    }
    drawn.emplace_back(
        Text{{box.left, box.top - 6.0}, title, Anchor::Start, kTickTextPt, Ink::Soft});
}

}  // namespace core::publish
