#pragma once

#include <span>
#include <vector>

#include "core/base/result.h"
#include "core/stats/least_squares.h"
#include "core/stats/two_way.h"

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

/// Terms of a model of the cell means beside the constant, under sum-to-zero contrasts.
struct TwoWayTerms {
    bool hasRows{};
    bool hasColumns{};
    bool hasInteraction{};
};

/// Sum-to-zero contrasts of one cell: 1, rows - 1 row columns, columns - 1 column columns,
/// products.
std::vector<long double> contrastRow(const TwoWayTable& table, const TwoWayCell& cell,
                                     TwoWayTerms terms);

/// Cell means less the grand mean, fitted with weights equal to the counts. The residual sum of
/// squares is that between the cells: add withinSumSquares for the one of the values.
Result<LeastSquaresSolution> fitCellMeans(const TwoWayTable& table, TwoWayTerms terms);

}  // namespace core::stats
