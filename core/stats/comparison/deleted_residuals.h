#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "core/base/result.h"
#include "core/stats/comparison/pairwise.h"

namespace core::stats {

/// Mean of one combination of two factors.
struct CrossedMean {
    std::size_t row{};
    std::size_t column{};
    IndependentMean mean{};
};

/// A cell against what the others predict for it.
struct DeletedResidual {
    double value{};          ///< the cell's mean less the prediction
    double standardError{};  ///< of both together
    DegreesOfFreedom dof{};  ///< of its square: Satterthwaite 1946, Biometrics 2:110-114

    /// By how much the weighted sum of squares falls when the cell is left out.
    [[nodiscard]] double drop() const noexcept;
    [[nodiscard]] double pValue() const;  ///< two-sided, for this cell alone
};

/// Deleted residuals of the additive model row + column, fitted by least squares with weights
/// 1 / variance (Cook and Weisberg 1982, Residuals and Influence in Regression, 2.2.1). Cells may
/// be missing. In the order of the cells; absent where the others predict nothing (the only cell of
/// a row or column). O(n^2). Errors: InvalidInput for a cell that comes twice; OutOfRange for a
/// variance or degrees of freedom that are not positive; NotFinite.
Result<std::vector<std::optional<DeletedResidual>>> deletedResiduals(
    std::span<const CrossedMean> cells);

}  // namespace core::stats
