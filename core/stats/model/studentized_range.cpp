#include "core/stats/model/studentized_range.h"

#include <algorithm>
#include <array>
#include <boost/math/quadrature/gauss.hpp>
#include <boost/math/special_functions/gamma.hpp>
#include <boost/math/tools/roots.hpp>
#include <cmath>
#include <cstdint>
#include <limits>
#include <map>
#include <mutex>
#include <utility>

#include "core/base/expects.h"
#include "core/base/units.h"

namespace core::stats {

/// A point of the integral over s.
struct StudentizedRange::ScaleNode {
    double s{};
    double weight{};      // of the quadrature, times the density at one
    double logDensity{};  // over the one at one
};

namespace {

using ScaleNode = StudentizedRange::ScaleNode;

constexpr int kOrder = 16;        // of the Chebyshev series of a panel
constexpr int kRangePanels = 17;  // of width one; beyond w = 17, P(W > w) < 1e-25 for 1000 values
constexpr double kRangeEnd = kRangePanels;
// Longest panels of the integral over s, by the range and by standard deviations of s times
// sqrt(2): relative errors below 2e-11 at 2 to 1000 values and 1 to 40,000 degrees of freedom, held
// against panels of 0.5.
constexpr double kLongestRange = 2.6;
constexpr double kLongestDeviations = 2.8;
constexpr double kLogNegligible = -55.0;  // a density e^-55 = 1e-24 of its top adds nothing

using Gauss = boost::math::quadrature::gauss<double, kOrder>;

double normalCdf(double z) {
    return 0.5 * std::erfc(-z / std::numbers::sqrt2);
}

// P(W > w) = k int phi(z) [Phi(z)^(k-1) - (Phi(z) - Phi(z - w))^(k-1)] dz, the bracket kept free of
// cancellation so that small tails keep their digits. What does not depend on w is worked out once.
class RangeTail {
public:
    explicit RangeTail(int groups) : m_groups{groups} {
        constexpr Interval<double> kLimits{-10.0, 16.0};
        constexpr int kPanels = 20;
        constexpr double kWidth = (kLimits.high - kLimits.low) / kPanels;
        for (int i = 0; i < kPanels; ++i) {
            const double middle = kLimits.low + (i + 0.5) * kWidth;
            for (std::size_t k = 0; k < Gauss::abscissa().size(); ++k) {
                const double step = 0.5 * kWidth * Gauss::abscissa()[k];
                const double weight = 0.5 * kWidth * Gauss::weights()[k];
                add(middle - step, weight);
                add(middle + step, weight);
            }
        }
    }

    [[nodiscard]] double at(double w) const {
        const double others = m_groups - 1;
        double sum = 0.0;
        for (const Node& node : m_nodes) {
            const double far = std::min(normalCdf(node.z - w) / node.below, 1.0);
            sum += node.weight * -std::expm1(others * std::log1p(-far));
        }
        return m_groups * sum;
    }

private:
    struct Node {
        double z{};
        double below{};   // Phi(z)
        double weight{};  // of the quadrature, times phi(z) Phi(z)^(k-1)
    };

    void add(double z, double weight) {
        const double below = normalCdf(z);
        const double density = std::exp(-0.5 * z * z) / std::sqrt(2.0 * kPi);
        m_nodes.push_back({z, below, weight * density * std::pow(below, m_groups - 1.0)});
    }

    int m_groups;
    std::vector<Node> m_nodes;
};

// Coefficients of the Chebyshev series through the values at the Chebyshev points of a panel.
std::array<double, kOrder> chebyshevSeries(const std::array<double, kOrder>& values) {
    std::array<double, kOrder> series{};
    for (int j = 0; j < kOrder; ++j) {
        double sum = 0.0;
        for (int i = 0; i < kOrder; ++i) {
            sum += values[static_cast<std::size_t>(i)] * std::cos(kPi * j * (i + 0.5) / kOrder);
        }
        series[static_cast<std::size_t>(j)] = (j == 0 ? 1.0 : 2.0) * sum / kOrder;
    }
    return series;
}

// Density of s = sqrt(chi2(v)/v), from its value at one and the distance to it, so that large v
// loses no digits.
class ScaleDensity {
public:
    explicit ScaleDensity(double dof)
        : m_dof{dof}, m_atOne{dof * boost::math::gamma_p_derivative(0.5 * dof, 0.5 * dof)} {}

    // Logarithm of the density over its value at one.
    [[nodiscard]] double logRatio(double s) const {
        const double d = s - 1.0;
        return (m_dof - 1.0) * std::log(s) - m_dof * d * (1.0 + 0.5 * d);
    }
    [[nodiscard]] double atOne() const { return m_atOne; }

    // Smallest interval about the mode outside of which the density is negligible.
    [[nodiscard]] Interval<double> support() const {
        double high = 2.0;
        while (logRatio(high) > kLogNegligible) {
            high *= 2.0;
        }
        const double mode = std::sqrt(std::max(0.0, 1.0 - 1.0 / m_dof));
        return {edge({mode, 0.0}), edge({std::max(mode, 0.5), high})};
    }

private:
    // Where the density becomes negligible between an inner and an outer point (low = inner).
    [[nodiscard]] double edge(Interval<double> search) const {
        constexpr int kHalvings = 50;
        for (int i = 0; i < kHalvings; ++i) {
            const double middle = 0.5 * (search.low + search.high);
            (logRatio(middle) > kLogNegligible ? search.low : search.high) = middle;
        }
        return search.high;
    }

    double m_dof;
    double m_atOne;
};

// Panel edges from low to high: steps no longer than the range and the density allow, and growing
// fourfold near zero, where s^(v-1) is not smooth for broken v.
std::vector<double> panelEdges(Interval<double> limits, double longest) {
    constexpr double kGrowth = 4.0;
    constexpr double kNearZero = 1e-12;
    std::vector<double> edges{limits.low};
    double step = std::max(limits.low, kNearZero * longest) * (kGrowth - 1.0);
    while (edges.back() < limits.high) {
        edges.push_back(std::min(edges.back() + std::min(step, longest), limits.high));
        step = edges.back() * (kGrowth - 1.0);
    }
    return edges;
}

// Where the integral over s is taken for any q of an interval: as fine as its high end needs, as
// far as its low end reaches.
std::vector<ScaleNode> scaleNodes(double dof, Interval<double> q) {
    const ScaleDensity density{dof};
    const auto support = density.support();
    const Interval<double> limits{support.low, std::min(support.high, kRangeEnd / q.low)};
    std::vector<ScaleNode> nodes;
    if (limits.low >= limits.high) {
        return nodes;
    }
    const auto edges =
        panelEdges(limits, std::min(kLongestRange / q.high, kLongestDeviations / std::sqrt(dof)));
    nodes.reserve(kOrder * (edges.size() - 1));
    for (std::size_t i = 0; i + 1 < edges.size(); ++i) {
        const double half = 0.5 * (edges[i + 1] - edges[i]);
        const double middle = 0.5 * (edges[i + 1] + edges[i]);
        for (std::size_t k = 0; k < Gauss::abscissa().size(); ++k) {
            for (const double s :
                 {middle - half * Gauss::abscissa()[k], middle + half * Gauss::abscissa()[k]}) {
                nodes.push_back(
                    {s, density.atOne() * half * Gauss::weights()[k], density.logRatio(s)});
            }
        }
    }
    return nodes;
}

bool isValid(DegreesOfFreedom dof) {
    return dof.value >= 1.0;
}

using Series = std::shared_ptr<const std::vector<double>>;

// Of log P(W > w), panel by panel.
Series computeSeries(int groups) {
    const RangeTail tail{groups};
    std::vector<double> all;
    all.reserve(static_cast<std::size_t>(kRangePanels) * kOrder);
    for (int number = 0; number < kRangePanels; ++number) {
        std::array<double, kOrder> values{};
        for (int i = 0; i < kOrder; ++i) {
            const double x = std::cos(kPi * (i + 0.5) / kOrder);
            values[static_cast<std::size_t>(i)] = std::log(tail.at(number + 0.5 * (x + 1.0)));
        }
        const auto series = chebyshevSeries(values);
        all.insert(all.end(), series.begin(), series.end());
    }
    return std::make_shared<const std::vector<double>>(std::move(all));
}

// Kept for the rest of the run: one table is 2 KiB, and there are 999 at most.
Series seriesFor(int groups) {
    static std::mutex mutex;
    static std::map<int, Series> known;
    const std::lock_guard lock{mutex};
    Series& series = known[groups];
    if (series == nullptr) {
        series = computeSeries(groups);
    }
    return series;
}

}  // namespace

StudentizedRange::StudentizedRange(int groups) : m_groups{groups} {
    CORE_EXPECTS(groups >= 2 && groups <= 1000);
    m_series = seriesFor(groups);
}

double StudentizedRange::logRangeTail(double w) const {
    if (w >= kRangeEnd) {
        return -std::numeric_limits<double>::infinity();
    }
    const int number = static_cast<int>(w);
    const double x = 2.0 * (w - number) - 1.0;
    const double* series = m_series->data() + static_cast<std::ptrdiff_t>(number) * kOrder;
    double next = 0.0;  // Clenshaw 1955
    double afterNext = 0.0;
    for (int j = kOrder - 1; j > 0; --j) {
        const double current = series[j] + 2.0 * x * next - afterNext;
        afterNext = next;
        next = current;
    }
    return series[0] + x * next - afterNext;
}

double StudentizedRange::upperTail(double q, DegreesOfFreedom dof) const {
    CORE_EXPECTS(isValid(dof) && q >= 0.0);
    if (q == 0.0) {
        return 1.0;
    }
    if (std::isinf(dof.value)) {
        return std::exp(logRangeTail(q));
    }
    return tailOver(scaleNodes(dof.value, {q, q}), q);
}

std::vector<double> StudentizedRange::upperTails(std::span<const double> values,
                                                 DegreesOfFreedom dof) const {
    std::map<int, std::vector<ScaleNode>> nodes;  // by the power of two below q
    std::vector<double> tails;
    tails.reserve(values.size());
    for (const double q : values) {
        if (q == 0.0 || std::isinf(dof.value)) {
            tails.push_back(upperTail(q, dof));
            continue;
        }
        CORE_EXPECTS(isValid(dof) && q > 0.0);
        const int power = std::ilogb(q);
        auto& shared = nodes[power];
        if (shared.empty()) {
            shared = scaleNodes(dof.value, {std::ldexp(1.0, power), std::ldexp(2.0, power)});
        }
        tails.push_back(tailOver(shared, q));
    }
    return tails;
}

double StudentizedRange::tailOver(std::span<const ScaleNode> nodes, double q) const {
    double sum = 0.0;
    for (const ScaleNode& node : nodes) {
        sum += node.weight * std::exp(node.logDensity + logRangeTail(q * node.s));
    }
    return std::min(sum, 1.0);
}

double StudentizedRange::cdf(double q, DegreesOfFreedom dof) const {
    return 1.0 - upperTail(q, dof);
}

double StudentizedRange::upperQuantile(Probability alpha, DegreesOfFreedom dof) const {
    CORE_EXPECTS(isValid(dof) && alpha.value >= 1e-10 && alpha.value < 1.0);
    // One pair alone is exceeded less often, all pairs together at most so often (Bonferroni).
    const StudentT t{dof};
    const double pairs = 0.5 * m_groups * (m_groups - 1.0);
    const double low = -std::numbers::sqrt2 * t.quantile({0.5 * alpha.value});
    const double high = -std::numbers::sqrt2 * t.quantile({0.5 * alpha.value / pairs});
    if (m_groups == 2) {
        return low;
    }
    const auto excess = [&](double q) { return std::log(upperTail(q, dof) / alpha.value); };
    const boost::math::tools::eps_tolerance<double> tolerance{40};  // bits: 1e-12
    std::uintmax_t steps = 100;
    const auto [below, above] = boost::math::tools::toms748_solve(
        excess, low * (1.0 - 1e-9), high * (1.0 + 1e-9), tolerance, steps);
    return 0.5 * (below + above);
}

}  // namespace core::stats
