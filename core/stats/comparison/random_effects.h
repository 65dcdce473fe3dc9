#pragma once

#include <span>

#include "core/base/result.h"
#include "core/base/units.h"
#include "core/stats/model/distributions.h"

namespace core::stats {

/// Values with a known standard uncertainty each, in the same unit and order.
struct MeasuredValues {
    std::span<const double> values{};
    std::span<const double> standardUncertainties{};  ///< each greater than zero
};

/// How the variance between the true values is estimated.
enum class BetweenEstimator {
    DerSimonianLaird,  ///< moments; DerSimonian and Laird 1986, Control. Clin. Trials 7:177-188
    Reml,  ///< restricted likelihood; Viechtbauer 2005, J. Educ. Behav. Stat. 30:261-293
};

/// Split of a scatter into what the readings explain and what the shots really did.
struct RandomEffects {
    double mean{};                ///< weighted by 1 / (u_i^2 + betweenVariance)
    double standardError{};       ///< 1 / sqrt(sum of weights)
    Interval<double> interval{};  ///< Hartung and Knapp 2001, Stat. Med. 20:3875-3889, n - 1 dof
    double betweenVariance{};     ///< variance of the true values, zero or more
    double betweenDeviation{};    ///< its square root
    double heterogeneity{};       ///< Cochran's Q, chi-square with n - 1 dof if nothing varies
    double heterogeneityP{};      ///< P(chi-square >= Q)
};

/// Random effects model y_i = mu + b_i + e_i with var(e_i) = u_i^2 known and unequal.
///
/// Assumes that the uncertainties are independent: a part shared by all values (the clock of one
/// clip) must not be in them. O(n) a step.
/// Errors: InvalidInput for fewer than two values or unequal lengths; NotFinite; OutOfRange for an
/// uncertainty of zero or less or a level outside (0, 1).
Result<RandomEffects> estimateRandomEffects(const MeasuredValues& data, BetweenEstimator estimator,
                                            Confidence confidence = {});

}  // namespace core::stats
