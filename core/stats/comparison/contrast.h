#pragma once

#include <span>

#include "core/base/result.h"
#include "core/base/units.h"
#include "core/stats/comparison/pairwise.h"

namespace core::stats {

/// A weighted sum of means, or any estimate judged by Student's t.
struct JudgedEstimate {
    double estimate{};
    double standardError{};
    DegreesOfFreedom dof{};
    Interval<double> interval{};  ///< for this contrast alone, not for a family
    double t{};                   ///< estimate / standardError
    double pValue{};              ///< two-sided, against zero
};

/// Contrast of independent means with a variance each (new against worn: weights +1/m and -1/m'):
/// estimate sum of c_i m_i, variance sum of c_i^2 v_i, degrees of freedom by Satterthwaite 1946,
/// Biometrics 2:110-114. A single weight of 1 gives the interval of one mean.
/// Errors: InvalidInput for weights of another number or all zero; NotFinite; Untrustworthy for a
/// variance of zero; OutOfRange for a level outside (0, 1).
Result<JudgedEstimate> contrast(std::span<const IndependentMean> means,
                                std::span<const double> weights, Confidence confidence = {});

/// Contrast of correlated means with a common error variance (marginal means, adjusted means).
/// Errors: as above, also for a covariance of another size.
Result<JudgedEstimate> contrast(const EstimatedMeans& estimates, std::span<const double> weights,
                                Confidence confidence = {});

}  // namespace core::stats
