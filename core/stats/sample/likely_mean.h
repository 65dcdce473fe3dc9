#pragma once

#include <span>

#include "core/base/result.h"
#include "core/base/units.h"
#include "core/stats/model/distributions.h"
#include "core/stats/sample/reading_likelihood.h"

namespace core::stats {

/// Mean of the true values of a sample of at least two readings, each of which may be coarse.
struct LikelyMean {
    double mean{};
    double shotsError{};  ///< scatter / sqrt(n): shrinks with the count
    /// What does not average out because the readings are coarse: the interval's half width is
    /// made of t * shotsError and the normal quantile times this, added as squares. Zero for exact
    /// readings.
    double coarsenessError{};
    /// The part of coarsenessError in which means of near values err alike: what comes from
    /// rectangular bounds, whose rounding follows from the value alone. With ends rounded at random
    /// each mean errs by itself.
    double commonError{};
    double standardError{};       ///< of both together
    DegreesOfFreedom dof{};       ///< of it: n - 1 for exact readings, more the coarser they are
    Interval<double> interval{};  ///< at the level asked for
    double scatter{};             ///< standard deviation of the true values, denominator n - 1
    bool isScatterHidden{};       ///< the readings are too coarse to show any scatter
};

/// What readings share is added after averaging, as in summariseCell(): the interval widens in
/// proportion, degrees of freedom grow. `shared` is a standard uncertainty, zero or more.
struct SharedWidening {
    double standardUncertainty{};
    DegreesOfFreedom dof{};
    Interval<double> interval{};
};
SharedWidening widen(const LikelyMean& mean, double shared, Confidence confidence = {});

/// Likelihood of the mean mu of values that are normal with standard deviation sigma, of which each
/// is known by a reading's likelihood: the product over the readings of the integral of likelihood
/// times normal density (interval-censored normal data: Gentleman and Geyer 1994, Biometrika
/// 81:618-623), profiled over sigma. The interval keeps every mu with
///     2 (log L max - log L(mu)) <= n ln(1 + t^2 / (n - 1)),
/// t the quantile of Student's t with n - 1 degrees of freedom; for exact readings this is
/// Student's interval. The mean is the middle
/// of a fiftieth of that: the likeliest one, and the middle of a plateau.
///
/// The uncertainty that all normal readings have at least cannot be told from scatter: it counts as
/// such, so that normal readings of one uncertainty have Student's interval too.
///
/// Where every reading's own spread is below a tenth of the scatter, and for exact readings, mean
/// and interval are Student's; up to 0.15 the two are blended, so that nothing jumps. The scatter
/// is taken to be at least 0.03 times the narrowest bounds. Cost: some 100 times the number of
/// different readings. Errors: InvalidInput for fewer than two readings; NotFinite; OutOfRange for
/// a level outside (0, 1) or a negative sigma.
Result<LikelyMean> likelyMean(std::span<const ReadingLikelihood> readings,
                              Confidence confidence = {});

}  // namespace core::stats
