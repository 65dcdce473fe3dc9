#pragma once

#include <cstddef>
#include <span>

#include "core/base/result.h"
#include "core/stats/model/distributions.h"
#include "core/stats/sample/grubbs.h"

namespace core::stats {

/// Scatter of one cell beside those of others.
struct ScatterOfCell {
    double variance{};       ///< of single values
    DegreesOfFreedom dof{};  ///< of it
    /// What the coarseness of the readings may make of a variance by itself: the others are taken
    /// to scatter by that at least. Zero for exact readings.
    double leastOfOthers{};
};

/// The cell with the largest scatter.
struct CochranResult {
    std::size_t index{};
    double share{};   ///< of the largest variance in the sum of all: Cochran's C
    double pValue{};  ///< for the largest of all cells, Bonferroni's bound
    OutlierWord word{OutlierWord::Ordinary};
};

/// Cochran's test (ISO 5725-2:1994, 7.3.3) in the form of an F test of one variance against the
/// pooled others, multiplied by the number of cells: for equal degrees of freedom the printed
/// critical values, and it holds for unequal ones ('t Lam 2010, Anal. Chim. Acta 659:68-84). Of
/// cells with unequal counts the one with the smallest p value is given. O(n).
/// Errors: InvalidInput for fewer than two cells; NotFinite; OutOfRange for a negative variance or
/// degrees of freedom that are not positive.
Result<CochranResult> cochranTest(std::span<const ScatterOfCell> cells);

}  // namespace core::stats
