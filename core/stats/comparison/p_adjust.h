#pragma once

#include <span>
#include <vector>

#include "core/base/result.h"

namespace core::stats {

/// Ways to adjust p values for their number.
enum class Adjustment {
    Bonferroni,          ///< family-wise error, any dependence
    Holm,                ///< the same, never weaker: Holm 1979, Scand. J. Stat. 6:65-70
    Hochberg,            ///< family-wise, independent tests: Hochberg 1988, Biometrika 75:800-802
    BenjaminiHochberg,   ///< false discovery rate: 1995, J. R. Stat. Soc. B 57:289-300
    BenjaminiYekutieli,  ///< the same, any dependence: 2001, Ann. Stat. 29:1165-1188
};

/// Adjusted p values in the order given, at most 1. O(n log n).
/// Errors: InvalidInput for no values; NotFinite; OutOfRange for a value outside [0, 1].
Result<std::vector<double>> adjustPValues(std::span<const double> pValues, Adjustment method);

}  // namespace core::stats
