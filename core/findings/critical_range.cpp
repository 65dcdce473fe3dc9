#include "core/findings/critical_range.h"

#include <algorithm>
#include <cmath>

#include "core/base/units.h"

namespace core::findings {
namespace {

constexpr std::size_t kFewNodes = 8;  // enough where degrees of freedom lie near each other
constexpr std::size_t kNodes = 20;
constexpr double kSettled = 1e-10;  // beside log q: what the last coefficients may be

}  // namespace

CriticalRange::CriticalRange(const stats::StudentizedRange& range, stats::Probability alpha,
                             stats::DegreesOfFreedom least, stats::DegreesOfFreedom greatest)
    : m_low{1.0 / greatest.value}, m_high{1.0 / least.value} {
    const bool isOneValue = !(m_high > m_low);
    m_series = seriesOf(range, alpha, isOneValue ? 1 : kFewNodes);
    const bool isSettled =
        isOneValue ||
        std::abs(m_series[kFewNodes - 1]) + std::abs(m_series[kFewNodes - 2]) < kSettled;
    if (!isSettled) {
        m_series = seriesOf(range, alpha, kNodes);
    }
}

std::vector<double> CriticalRange::seriesOf(const stats::StudentizedRange& range,
                                            stats::Probability alpha, std::size_t nodes) const {
    std::vector<double> values(nodes);
    for (std::size_t k = 0; k < nodes; ++k) {
        const double angle = kPi * (static_cast<double>(k) + 0.5) / static_cast<double>(nodes);
        const double reciprocal = std::clamp(
            0.5 * (m_low + m_high) + 0.5 * (m_high - m_low) * std::cos(angle), m_low, m_high);
        values[k] = std::log(range.upperQuantile(alpha, {1.0 / reciprocal}));
    }
    std::vector<double> series(nodes, 0.0);
    for (std::size_t j = 0; j < nodes; ++j) {
        for (std::size_t k = 0; k < nodes; ++k) {
            series[j] +=
                values[k] * std::cos(kPi * static_cast<double>(j) * (static_cast<double>(k) + 0.5) /
                                     static_cast<double>(nodes));
        }
        series[j] *= (j == 0 ? 1.0 : 2.0) / static_cast<double>(nodes);
    }
    return series;
}

double CriticalRange::at(stats::DegreesOfFreedom dof) const noexcept {
    if (m_series.size() == 1) {
        return std::exp(m_series.front());
    }
    const double x = std::clamp((2.0 / dof.value - m_low - m_high) / (m_high - m_low), -1.0, 1.0);
    double later = 0.0;  // Clenshaw's recurrence
    double latest = 0.0;
    for (std::size_t j = m_series.size(); j-- > 1;) {
        const double next = 2.0 * x * latest - later + m_series[j];
        later = latest;
        latest = next;
    }
    return std::exp(x * latest - later + m_series.front());
}

}  // namespace core::findings
