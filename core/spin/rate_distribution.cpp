#include "core/spin/rate_distribution.h"

#include <algorithm>
#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <cstdint>
#include <limits>
#include <tuple>
#include <utility>

#include "core/base/expects.h"
#include "core/base/words.h"
#include "core/stats/model/distributions.h"

namespace core::spin {
namespace {

constexpr int kHalfCells = 500;
constexpr double kNormalCut = 6.0;  // leaves out 2e-9
// Ends of an interval are solved for to this part of the rate's standard uncertainty.
constexpr double kSolved = 1e-8;

using Masses = std::vector<double>;  // of cells -kHalfCells … kHalfCells

template <class Cdf>
Masses massesOf(double step, const Cdf& cdf) {
    Masses masses(2 * kHalfCells + 1);
    double before = 0.0;
    for (int k = -kHalfCells; k <= kHalfCells; ++k) {
        const double upTo = k == kHalfCells ? 1.0 : cdf((k + 0.5) * step);
        masses[static_cast<std::size_t>(k + kHalfCells)] = upTo - before;
        before = upTo;
    }
    return masses;
}

// Probabilities of the sum of two independent effects. The grid spans the sum of all ranges, so
// what falls outside is rounding only.
Masses convolve(const Masses& a, const Masses& b) {
    Masses sum(a.size(), 0.0);
    const int last = 2 * kHalfCells;
    for (int i = 0; i <= last; ++i) {
        const double mass = a[static_cast<std::size_t>(i)];
        if (mass == 0.0) {
            continue;
        }
        const int from = std::max(0, kHalfCells - i);
        const int upTo = std::min(last, 3 * kHalfCells - i);
        for (int j = from; j <= upTo; ++j) {
            sum[static_cast<std::size_t>(i + j - kHalfCells)] +=
                mass * b[static_cast<std::size_t>(j)];
        }
    }
    return sum;
}

// Moments of 60/T in extended precision: the variance is a small difference of large numbers.
std::pair<Rpm, Rpm> momentsOfRate(const timebase::SlopeDensity& period) {
    long double first = 0.0L;
    long double second = 0.0L;
    const auto knots = period.knots();
    for (std::size_t i = 0; i + 1 < knots.size(); ++i) {
        const long double a = knots[i].slope;
        const long double b = knots[i + 1].slope;
        const long double beta =
            (static_cast<long double>(knots[i + 1].density) - knots[i].density) / (b - a);
        const long double alpha = knots[i].density - beta * a;
        const long double log = std::log1p((b - a) / a);
        first += alpha * log + beta * (b - a);
        second += alpha * (b - a) / (a * b) + beta * log;
    }
    const long double variance = std::max(0.0L, second - first * first);
    return {Rpm{static_cast<double>(kSecondsPerMinute * first)},
            Rpm{static_cast<double>(kSecondsPerMinute * std::sqrt(variance))}};
}

}  // namespace

void RelativeEffects::addNormal(double sigma) {
    CORE_EXPECTS(sigma >= 0.0);
    m_normalVariance += sigma * sigma;
}

void RelativeEffects::addRectangular(double halfWidth) {
    CORE_EXPECTS(halfWidth >= 0.0);
    if (halfWidth > 0.0) {
        m_halfWidths.push_back(halfWidth);
    }
}

double RelativeEffects::sigma() const noexcept {
    double variance = m_normalVariance;
    for (const double halfWidth : m_halfWidths) {
        variance += halfWidth * halfWidth / 3.0;
    }
    return std::sqrt(variance);
}

std::vector<RelativeEffects::Node> RelativeEffects::nodes() const {
    const double normalSigma = std::sqrt(m_normalVariance);
    double range = kNormalCut * normalSigma;
    for (const double halfWidth : m_halfWidths) {
        range += halfWidth;
    }
    if (range == 0.0) {
        return {{0.0, 1.0}};
    }
    const double step = range / kHalfCells;
    std::optional<Masses> total;
    const auto add = [&](const Masses& masses) {
        total = total ? convolve(*total, masses) : masses;
    };
    if (normalSigma > 0.0) {
        const stats::NormalDistribution normal;
        add(massesOf(step, [&](double x) { return normal.cdf(x / normalSigma); }));
    }
    for (const double halfWidth : m_halfWidths) {
        add(massesOf(step, [&](double x) {
            return std::clamp((x + halfWidth) / (2.0 * halfWidth), 0.0, 1.0);
        }));
    }
    std::vector<Node> nodes;
    for (int k = -kHalfCells; k <= kHalfCells; ++k) {
        const double mass = (*total)[static_cast<std::size_t>(k + kHalfCells)];
        if (mass > 0.0) {
            nodes.push_back({k * step, mass});
        }
    }
    return nodes;
}

Result<RateDistribution> RateDistribution::fromPeriod(timebase::SlopeDensity periodSeconds) {
    if (periodSeconds.low() <= 0.0) {
        return fail(ErrorCode::Untrustworthy,
                    said("The marks do not exclude a period of zero, so they set no upper limit to "
                         "the rate. Mark a later return."));
    }
    RateDistribution rate;
    std::tie(rate.m_mean, rate.m_sigma) = momentsOfRate(periodSeconds);
    rate.m_dof = std::numeric_limits<double>::infinity();
    rate.m_period = std::move(periodSeconds);
    return rate;
}

RateDistribution RateDistribution::fromStudent(Measured<Rpm> rate, double degreesOfFreedom) {
    CORE_EXPECTS(rate.sigma.rpm > 0.0 && degreesOfFreedom > 0.0);
    RateDistribution result;
    result.m_mean = rate.value;
    result.m_sigma = rate.sigma;
    result.m_dof = degreesOfFreedom;
    return result;
}

double RateDistribution::cdf(Rpm rate) const {
    if (m_period) {
        return rate.rpm <= 0.0 ? 0.0 : 1.0 - m_period->cdf(kSecondsPerMinute / rate.rpm);
    }
    return stats::StudentT{{m_dof}}.cdf((rate.rpm - m_mean.rpm) / m_sigma.rpm);
}

Rpm RateDistribution::quantile(double probability) const {
    CORE_EXPECTS(probability > 0.0 && probability < 1.0);
    if (m_period) {
        return {kSecondsPerMinute / m_period->quantile(1.0 - probability)};
    }
    return {m_mean.rpm + m_sigma.rpm * stats::StudentT{{m_dof}}.quantile({probability})};
}

namespace {

double quantileOfProduct(const RateDistribution& rate,
                         const std::vector<RelativeEffects::Node>& nodes, double probability) {
    const auto cdf = [&](double rpm) {
        double sum = 0.0;
        for (const auto& node : nodes) {
            sum += node.probability * rate.cdf({rpm / (1.0 + node.effect)});
        }
        return sum;
    };
    // An effect moves the rate's own quantile at most as far as the ends of its range do.
    const double alone = rate.quantile(probability).rpm;
    const double tolerance = kSolved * rate.sigma().rpm;
    const double one = alone * (1.0 + nodes.front().effect);
    const double other = alone * (1.0 + nodes.back().effect);
    std::uintmax_t steps = 100;
    const auto bracket = boost::math::tools::toms748_solve(
        [&](double rpm) { return cdf(rpm) - probability; }, std::min(one, other) - tolerance,
        std::max(one, other) + tolerance, [&](double a, double b) { return b - a <= tolerance; },
        steps);
    return 0.5 * (bracket.first + bracket.second);
}

}  // namespace

Interval<Rpm> coverageInterval(const RateDistribution& rate, const RelativeEffects& effects,
                               double probability) {
    CORE_EXPECTS(probability > 0.0 && probability < 1.0);
    const double tail = 0.5 * (1.0 - probability);
    const auto nodes = effects.nodes();
    if (nodes.size() == 1) {
        return {rate.quantile(tail), rate.quantile(1.0 - tail)};
    }
    CORE_EXPECTS(nodes.front().effect > -1.0);
    return {{quantileOfProduct(rate, nodes, tail)}, {quantileOfProduct(rate, nodes, 1.0 - tail)}};
}

}  // namespace core::spin
