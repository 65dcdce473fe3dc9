#pragma once

#include <span>
#include <vector>

#include "core/base/result.h"
#include "core/stats/model/linear_model.h"

namespace core::stats {

/// Solution of a least squares problem before anything is said of its errors.
struct LeastSquaresSolution {
    std::vector<long double> coefficients;
    std::vector<long double> inverse;  ///< (X'X)^-1, row-major
    long double residualSumSquares{};
};

/// QR solution as fitLeastSquares() describes it; as many rows as columns are enough. The response
/// has one value for each row.
/// Errors: InvalidInput for fewer rows than columns or columns that depend on each other.
Result<LeastSquaresSolution> solveLeastSquares(const DesignMatrix& design,
                                               std::span<const long double> response);

}  // namespace core::stats
