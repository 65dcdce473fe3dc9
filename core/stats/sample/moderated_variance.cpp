#include "core/stats/sample/moderated_variance.h"

#include <algorithm>
#include <boost/math/special_functions/digamma.hpp>
#include <boost/math/special_functions/polygamma.hpp>
#include <boost/math/special_functions/trigamma.hpp>
#include <cmath>
#include <limits>

#include "core/base/words.h"

namespace core::stats {
namespace {

/// What all samples say of the variance.
struct Prior {
    double variance{};
    double dof{};  // may be infinite
};

/// y with trigamma(y) = value, for a positive value. Newton's method for 1 / trigamma, which is
/// convex and nearly straight, from a point below: it rises to the root (Smyth 2004, appendix).
double inverseTrigamma(double value) {
    constexpr double kRelative = 1e-12;
    constexpr int kMostNewtonSteps = 100;
    double y = 0.5 + 1.0 / value;
    for (int step = 0; step < kMostNewtonSteps; ++step) {
        const double at = boost::math::trigamma(y);
        const double change = at * (1.0 - at / value) / boost::math::polygamma(2, y);
        y += change;
        if (std::abs(change) < kRelative * y) {
            break;
        }
    }
    return y;
}

Prior priorOf(std::span<const SampleVariance> samples) {
    const auto count = static_cast<double>(samples.size());
    std::vector<double> logs;
    double mean = 0.0;
    double ownSpread = 0.0;
    for (const SampleVariance& sample : samples) {
        const double half = 0.5 * sample.dof.value;
        logs.push_back(std::log(sample.variance) - boost::math::digamma(half) + std::log(half));
        mean += logs.back() / count;
        ownSpread += boost::math::trigamma(half) / count;
    }
    double spread = 0.0;
    for (const double each : logs) {
        spread += (each - mean) * (each - mean) / (count - 1.0);
    }
    if (spread <= ownSpread) {
        return {std::exp(mean), std::numeric_limits<double>::infinity()};
    }
    const double half = inverseTrigamma(spread - ownSpread);
    return {std::exp(mean + boost::math::digamma(half) - std::log(half)), 2.0 * half};
}

}  // namespace

Result<std::vector<SampleVariance>> moderatedVariances(std::span<const SampleVariance> samples) {
    double dofOfAll = 0.0;
    for (const SampleVariance& sample : samples) {
        if (!std::isfinite(sample.variance) || !std::isfinite(sample.dof.value)) {
            return fail(ErrorCode::NotFinite,
                        said("A variance or its degrees of freedom is no number."));
        }
        if (sample.variance <= 0.0 || sample.dof.value <= 0.0) {
            return fail(ErrorCode::OutOfRange,
                        said("A variance and its degrees of freedom must be above zero."));
        }
        dofOfAll += sample.dof.value;
    }
    std::vector<SampleVariance> moderated{samples.begin(), samples.end()};
    if (samples.size() < 2) {
        return moderated;
    }
    const Prior prior = priorOf(samples);
    for (SampleVariance& sample : moderated) {
        const double own = sample.dof.value;
        sample.variance =
            std::isinf(prior.dof)
                ? prior.variance
                : (prior.dof * prior.variance + own * sample.variance) / (prior.dof + own);
        sample.dof.value = std::min(prior.dof + own, dofOfAll);
    }
    return moderated;
}

}  // namespace core::stats
