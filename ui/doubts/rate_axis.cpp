#include "ui/doubts/rate_axis.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace ui::doubts {
namespace {

constexpr double kMostRatio = 5.0;  // of the highest to the lowest on a straight scale
constexpr double kAirShare = 0.06;
constexpr double kLeastHalfShare = 0.10;
constexpr std::array kRoundSteps{1.0, 2.0, 5.0, 10.0};

}  // namespace

RateAxis::RateAxis(std::span<const double> rpm) {
    const auto [low, high] = std::minmax_element(rpm.begin(), rpm.end());
    m_isByRatio = *low > 0.0 && *high / *low > kMostRatio;
    if (m_isByRatio) {
        const double air = std::pow(*high / *low, kAirShare);
        m_low = *low / air;
        m_high = *high * air;
        return;
    }
    const double centre = (*low + *high) / 2.0;
    const double half = std::max({(*high - *low) / 2.0, kLeastHalfShare * std::abs(centre), 1.0}) *
                        (1.0 + 2.0 * kAirShare);
    m_low = centre - half;
    m_high = centre + half;
}

double RateAxis::shareOf(double rpm) const {
    if (!m_isByRatio) {
        return (rpm - m_low) / (m_high - m_low);
    }
    return std::log(std::max(rpm, m_low) / m_low) / std::log(m_high / m_low);
}

std::vector<double> RateAxis::ticks(int most) const {
    return m_isByRatio ? ratioTicks(std::max(most, 2)) : evenTicks(std::max(most, 2));
}

std::vector<double> RateAxis::evenTicks(int most) const {
    double decade = std::pow(10.0, std::floor(std::log10((m_high - m_low) / most)));
    double step = decade;
    for (const double round : kRoundSteps) {
        step = round * decade;
        if (std::floor(m_high / step) - std::ceil(m_low / step) + 1.0 <= most) {
            break;
        }
    }
    std::vector<double> ticks;
    for (double k = std::ceil(m_low / step); k * step <= m_high; k += 1.0) {
        ticks.push_back(k * step);
    }
    return ticks;
}

/// 1, 2 and 5 of every decade; where these are too many, only as many decades as fit.
std::vector<double> RateAxis::ratioTicks(int most) const {
    const auto of = [this](std::span<const double> steps, int decades) {
        std::vector<double> ticks;
        for (double power = std::floor(std::log10(m_low)); std::pow(10.0, power) <= m_high;
             power += decades) {
            for (const double round : steps) {
                const double tick = round * std::pow(10.0, power);
                if (tick >= m_low && tick <= m_high) {
                    ticks.push_back(tick);
                }
            }
        }
        return ticks;
    };
    const std::span<const double> steps{kRoundSteps.data(), 3};
    auto ticks = of(steps, 1);
    for (int decades = 1; static_cast<int>(ticks.size()) > most; ++decades) {
        ticks = of(steps.first(1), decades);
    }
    if (ticks.size() < 2) {  // between two decades
        ticks = of(steps, 1);
        while (static_cast<int>(ticks.size()) > most) {
            ticks.erase(ticks.begin() + 1);
        }
    }
    return ticks;
}

}  // namespace ui::doubts
