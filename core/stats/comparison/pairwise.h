#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "core/base/result.h"
#include "core/base/units.h"
#include "core/stats/model/distributions.h"
#include "core/stats/sample/moments.h"

namespace core::stats {

/// Difference of two means within a family of all pairs.
struct PairComparison {
    std::size_t first{};   ///< position of the group subtracted from
    std::size_t second{};  ///< position of the group subtracted; first < second
    double difference{};   ///< mean of first - mean of second
    double standardError{};
    DegreesOfFreedom dof{};
    Interval<double> interval{};  ///< holds for all pairs at once with the level asked for
    double pValue{};              ///< adjusted for the family
};

/// A mean with its own variance, independent of the other means.
struct IndependentMean {
    double mean{};
    double variance{};       ///< of the mean: the square of its standard error
    DegreesOfFreedom dof{};  ///< of that variance
};

/// Mean of a group of at least two values with the variance s^2/n.
IndependentMean independentMean(const Moments& group);

/// Estimated means that may be correlated, such as those of a linear model.
struct EstimatedMeans {
    std::vector<double> means{};
    std::vector<double> covariance{};  ///< of the means, k x k, row-major
    DegreesOfFreedom dof{};            ///< of the error variance
};

/// All pairs of model means by Tukey 1953 and Kramer 1956 (Biometrics 12:307-310): one variance for
/// all. k(k - 1)/2 pairs in the order (0,1), (0,2), ... (k-2,k-1). Exact for a balanced table,
/// conservative as a rule otherwise (Hayter 1984, Ann. Stat. 12:61-75, for means without
/// correlation).
/// Errors: InvalidInput for fewer than two or more than 1000 means or a covariance of another size;
/// Untrustworthy for a difference without uncertainty; OutOfRange for a level outside
/// (0, 1 - 1e-10).
Result<std::vector<PairComparison>> tukeyPairs(const EstimatedMeans& estimates,
                                               Confidence confidence = {});

}  // namespace core::stats
