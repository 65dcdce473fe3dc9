#pragma once

#include <optional>
#include <span>

#include "core/base/result.h"
#include "core/stats/comparison/one_way.h"
#include "core/stats/comparison/pairwise.h"
#include "core/stats/model/straight_line.h"

namespace core::stats {

/// Groups compared after taking out a covariate (spin of implements at equal ball speed, or a drift
/// with shot number that all implements share).
struct CovarianceAnalysis {
    double centre{};             ///< mean of the covariate, where the groups are compared
    EstimatedMeans adjusted{};   ///< group means at the centre; tukeyPairs() compares them
    JudgedEstimate slope{};      ///< common to all groups
    VarianceRatioTest groups{};  ///< do the adjusted means differ?
    /// Do the slopes differ? If so, one common slope misleads. Absent without enough values.
    std::optional<VarianceRatioTest> equalSlopes{};
};

/// Analysis of covariance y = group + slope x (Fisher 1932; Searle 1987, Linear Models for
/// Unbalanced Data, ch. 6): one slope and one error variance. pairs: x covariate, y response of
/// each group. O(n). Errors: InvalidInput for fewer than two groups, an empty group, unequal
/// lengths, too few values or a covariate that never varies within a group; NotFinite;
/// Untrustworthy without any scatter about the lines; OutOfRange.
Result<CovarianceAnalysis> analyseCovariance(std::span<const PairedValues> groups,
                                             Confidence confidence = {});

}  // namespace core::stats
