#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <random>
#include <span>
#include <stop_token>
#include <vector>

#include "core/base/result.h"
#include "core/base/units.h"
#include "core/stats/model/distributions.h"

namespace core::stats {

/// One value of the output quantity, from inputs drawn with the given generator.
using ModelDraw = std::function<double(std::mt19937_64&)>;

/// The two coverage intervals of JCGM 101:2008, 7.7.
enum class CoverageKind {
    Symmetric,  ///< equal probability left out on both sides
    Shortest,   ///< no interval of that probability is shorter
};

struct MonteCarloOptions {
    std::uint64_t seed{};
    Confidence coverage{};     ///< coverage probability of the intervals
    int significantDigits{2};  ///< digits of u that must be stable: 1 or 2 (7.9.2, 7.9.4 a)
    CoverageKind stableEnds{CoverageKind::Symmetric};  ///< interval whose ends must be stable
    std::size_t maxTrials{2'000'000};  ///< stop here even when not stable; 8 bytes a trial
};

struct MonteCarloResult {
    double mean{};
    double standardUncertainty{};  ///< standard deviation of the model values
    Interval<double> symmetric{};  ///< probabilistically symmetric coverage interval
    Interval<double> shortest{};   ///< shortest coverage interval
    std::size_t trials{};
    bool isStable{};  ///< false: maxTrials came first, the last digit may still move
    std::uint64_t seed{};
};

/// Adaptive Monte Carlo propagation of distributions, JCGM 101:2008, 7.9.4: blocks of
/// M = max(100/(1 - p), 10^4) trials until twice the standard deviations of the block averages of
/// mean, u and both interval ends fall below half a unit of the last significant digit of u.
///
/// The same seed gives the same result. Blocking for up to maxTrials draws.
/// Errors: OutOfRange for options outside their range (maxTrials must hold two blocks); NotFinite
/// when the model returns NaN or infinity; Cancelled.
Result<MonteCarloResult> propagate(const ModelDraw& draw, const MonteCarloOptions& options,
                                   const std::stop_token& stop = {});

/// Probabilistically symmetric coverage interval of model values sorted upwards, JCGM 101:2008,
/// 7.7.2. At least two values.
Interval<double> symmetricInterval(std::span<const double> sorted, Confidence coverage);

/// Shortest coverage interval of model values sorted upwards, JCGM 101:2008, 7.7.4 (the lowest one
/// when several are equally short). At least two values.
Interval<double> shortestInterval(std::span<const double> sorted, Confidence coverage);

}  // namespace core::stats
