#include "core/stats/model/monte_carlo.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>

#include "core/base/expects.h"
#include "core/stats/sample/checks.h"
#include "core/stats/sample/moments.h"

namespace core::stats {
namespace {

// JCGM 101:2008, 7.7.1: q = pM when whole, else the integer part of pM + 1/2.
std::size_t valuesInside(std::size_t count, Confidence coverage) {
    const auto inside =
        static_cast<std::size_t>(std::floor(coverage.level * static_cast<double>(count) + 0.5));
    return std::clamp<std::size_t>(inside, 1, count - 1);
}

std::size_t blockSize(Confidence coverage) {
    const double needed = std::ceil(100.0 / coverage.alpha() - 1e-6);  // 1 - 0.95 is not 0.05
    return std::max<std::size_t>(static_cast<std::size_t>(needed), 10'000);
}

// Half a unit in the last of the significant digits of u (7.9.2).
double numericalTolerance(double uncertainty, int significantDigits) {
    const double exponent = std::floor(std::log10(uncertainty)) - (significantDigits - 1);
    return 0.5 * std::pow(10.0, exponent);
}

// What each block estimates: mean, u and the two ends of the watched interval.
class BlockEstimates {
public:
    void add(std::span<const double> sortedBlock, const MonteCarloOptions& options) {
        const Moments moments = momentsOf(sortedBlock);
        m_all = combine(m_all, moments);
        const auto ends = options.stableEnds == CoverageKind::Symmetric
                              ? symmetricInterval(sortedBlock, options.coverage)
                              : shortestInterval(sortedBlock, options.coverage);
        m_estimates[0].push_back(static_cast<double>(moments.mean));
        m_estimates[1].push_back(std::sqrt(moments.variance()));
        m_estimates[2].push_back(ends.low);
        m_estimates[3].push_back(ends.high);
    }

    // Of all trials so far.
    [[nodiscard]] const Moments& all() const { return m_all; }

    // 7.9.4 steps g to k.
    [[nodiscard]] bool areWithin(double tolerance) const {
        const auto blocks = static_cast<double>(m_estimates[0].size());
        return std::all_of(m_estimates.begin(), m_estimates.end(), [&](const auto& estimates) {
            return 2.0 * std::sqrt(momentsOf(estimates).variance() / blocks) <= tolerance;
        });
    }

private:
    Moments m_all;
    std::array<std::vector<double>, 4> m_estimates;
};

Result<void> checkOptions(const MonteCarloOptions& options) {
    BOOST_OUTCOME_TRY(checkConfidence(options.coverage));
    if (options.significantDigits < 1 || options.significantDigits > 2) {
        return fail(ErrorCode::OutOfRange,
                    "Monte Carlo: one or two significant digits of the uncertainty can be asked "
                    "for, not " +
                        std::to_string(options.significantDigits) + ".");
    }
    const std::size_t least = 2 * blockSize(options.coverage);
    if (options.maxTrials < least) {
        return fail(ErrorCode::OutOfRange, "Monte Carlo: at least " + std::to_string(least) +
                                               " trials must be allowed, not " +
                                               std::to_string(options.maxTrials) + ".");
    }
    return ok();
}

Result<void> drawBlock(const ModelDraw& draw, std::mt19937_64& generator, std::size_t count,
                       std::vector<double>& values) {
    for (std::size_t i = 0; i < count; ++i) {
        values.push_back(draw(generator));
        if (!std::isfinite(values.back())) {
            return fail(ErrorCode::NotFinite,
                        "Monte Carlo: trial " + std::to_string(values.size()) +
                            " gave no finite number. An input reaches a value where the model "
                            "has none (a division by zero, for example): narrow the inputs.");
        }
    }
    return ok();
}

}  // namespace

Interval<double> symmetricInterval(std::span<const double> sorted, Confidence coverage) {
    CORE_EXPECTS(sorted.size() > 1);
    const std::size_t inside = valuesInside(sorted.size(), coverage);
    const std::size_t left = sorted.size() - inside;
    const std::size_t low = (left + left % 2) / 2;  // counted from one, 7.7.2
    return {sorted[low - 1], sorted[low - 1 + inside]};
}

Interval<double> shortestInterval(std::span<const double> sorted, Confidence coverage) {
    CORE_EXPECTS(sorted.size() > 1);
    const std::size_t inside = valuesInside(sorted.size(), coverage);
    std::size_t best = 0;
    for (std::size_t low = 1; low + inside < sorted.size(); ++low) {
        if (sorted[low + inside] - sorted[low] < sorted[best + inside] - sorted[best]) {
            best = low;
        }
    }
    return {sorted[best], sorted[best + inside]};
}

Result<MonteCarloResult> propagate(const ModelDraw& draw, const MonteCarloOptions& options,
                                   const std::stop_token& stop) {
    BOOST_OUTCOME_TRY(checkOptions(options));
    const std::size_t block = blockSize(options.coverage);
    std::mt19937_64 generator{options.seed};
    std::vector<double> values;
    BlockEstimates estimates;
    MonteCarloResult result{.seed = options.seed};
    while (!result.isStable && values.size() + block <= options.maxTrials) {
        if (stop.stop_requested()) {
            return fail(ErrorCode::Cancelled, "Monte Carlo stopped on request.");
        }
        BOOST_OUTCOME_TRY(drawBlock(draw, generator, block, values));
        const auto newest = values.end() - static_cast<std::ptrdiff_t>(block);
        std::sort(newest, values.end());
        estimates.add({newest, values.end()}, options);
        result.mean = static_cast<double>(estimates.all().mean);
        result.standardUncertainty = std::sqrt(estimates.all().variance());
        result.isStable =
            values.size() > block && (result.standardUncertainty == 0.0 ||
                                      estimates.areWithin(numericalTolerance(
                                          result.standardUncertainty, options.significantDigits)));
    }
    std::sort(values.begin(), values.end());
    result.symmetric = symmetricInterval(values, options.coverage);
    result.shortest = shortestInterval(values, options.coverage);
    result.trials = values.size();
    return result;
}

}  // namespace core::stats
