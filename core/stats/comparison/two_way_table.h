#pragma once

#include <span>
#include <vector>

#include "core/base/result.h"
#include "core/stats/comparison/two_way.h"
#include "core/stats/model/least_squares.h"

namespace core::stats {

/// Cells that hold values, checked, with the sizes of the table they make.
struct TwoWayTable {
    std::vector<TwoWayCell> cells;
    std::size_t rows{};
    std::size_t columns{};
    long double
        grandMean{};  ///< taken off the cell means before a fit: leading digits cost nothing
    long double withinSumSquares{};
    std::size_t count{};  ///< of values

    [[nodiscard]] bool isFull() const noexcept { return cells.size() == rows * columns; }
    [[nodiscard]] std::size_t withinDof() const noexcept { return count - cells.size(); }

    /// Checks what analyseTwoWay() asks of cells.
    static Result<TwoWayTable> from(std::span<const TwoWayCell> cells);
};

/// Sum-to-zero contrasts of one cell: 1, rows - 1 row columns, columns - 1 column columns.
std::vector<long double> contrastRow(const TwoWayTable& table, const TwoWayCell& cell);

/// Additive model rows + columns of the cell means less the grand mean, with weights equal to the
/// counts. The residual sum of squares is that between the cells: add withinSumSquares for the one
/// of the values. Errors: InvalidInput where rows and columns cannot be told apart.
Result<LeastSquaresSolution> fitAdditive(const TwoWayTable& table);

/// Its residual sum of squares alone, sooner: the factor with more levels is swept out first
/// (Frisch and Waugh 1933; Lovell 1963), so that the fit has as many coefficients as the other one.
Result<long double> additiveResidual(const TwoWayTable& table);

}  // namespace core::stats
