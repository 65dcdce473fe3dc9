#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "core/base/result.h"

namespace core::stats {

/// Design of a linear model, one row for each value and one column for each coefficient. Extended
/// precision, so that powers and products of columns are not rounded before the fit.
class DesignMatrix {
public:
    DesignMatrix(std::size_t rows, std::size_t columns)
        : m_columns{columns}, m_entries(rows * columns), m_rows{rows} {}

    [[nodiscard]] std::size_t rows() const noexcept { return m_rows; }
    [[nodiscard]] std::size_t columns() const noexcept { return m_columns; }
    [[nodiscard]] long double& at(std::size_t row, std::size_t column) noexcept {
        return m_entries[row * m_columns + column];
    }
    [[nodiscard]] long double at(std::size_t row, std::size_t column) const noexcept {
        return m_entries[row * m_columns + column];
    }

private:
    std::size_t m_columns;
    std::vector<long double> m_entries;  // row-major
    std::size_t m_rows;
};

/// Solution of a least squares problem before anything is said of its errors.
struct LeastSquaresSolution {
    std::vector<long double> coefficients;
    std::vector<long double> inverse;  ///< (X'X)^-1, row-major
    long double residualSumSquares{};
};

/// Least squares by Householder QR with column pivoting on columns scaled to length one, in
/// extended precision; as many rows as columns are enough. The response has one value for each row.
/// O(rows * columns^2).
/// Errors: InvalidInput for fewer rows than columns or columns that depend on each other.
Result<LeastSquaresSolution> solveLeastSquares(const DesignMatrix& design,
                                               std::span<const long double> response);

}  // namespace core::stats
