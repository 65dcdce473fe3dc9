#include "core/stats/two_way_table.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <string>
#include <utility>

namespace core::stats {
namespace {

// Contrast j of a level: 1 for level j, -1 for the last level, else 0.
long double sumContrast(std::size_t level, std::size_t contrast, std::size_t levels) {
    if (level + 1 == levels) {
        return -1.0L;
    }
    return level == contrast ? 1.0L : 0.0L;
}

Result<void> checkLevels(const TwoWayTable& table) {
    if (table.rows < 2 || table.columns < 2) {
        return fail(ErrorCode::InvalidInput,
                    "Two-way model: at least two rows and two columns are needed, here are " +
                        std::to_string(table.rows) + " and " + std::to_string(table.columns) + ".");
    }
    std::set<std::size_t> rows;
    std::set<std::size_t> columns;
    for (const TwoWayCell& cell : table.cells) {
        rows.insert(cell.row);
        columns.insert(cell.column);
    }
    if (rows.size() != table.rows || columns.size() != table.columns) {
        return fail(ErrorCode::InvalidInput,
                    "Two-way model: a row or column holds no value. Number rows and columns from "
                    "zero without gaps and leave empty ones out.");
    }
    if (table.withinDof() == 0) {
        return fail(ErrorCode::InvalidInput,
                    "Two-way model: no cell has two values, so there is no scatter to compare "
                    "with. Film more shots.");
    }
    if (table.withinSumSquares <= 0.0L) {
        return fail(ErrorCode::Untrustworthy,
                    "Two-way model: no cell has any scatter, so nothing can be tested. Use "
                    "readings with finer resolution.");
    }
    return ok();
}

}  // namespace

Result<TwoWayTable> TwoWayTable::from(std::span<const TwoWayCell> cells) {
    TwoWayTable table;
    std::set<std::pair<std::size_t, std::size_t>> seen;
    Moments all;
    for (const TwoWayCell& cell : cells) {
        if (!seen.emplace(cell.row, cell.column).second) {
            return fail(ErrorCode::InvalidInput,
                        "Two-way model: cell (" + std::to_string(cell.row) + ", " +
                            std::to_string(cell.column) + ") is listed twice. Combine its values.");
        }
        if (cell.moments.count > 0) {
            table.cells.push_back(cell);
            table.rows = std::max(table.rows, cell.row + 1);
            table.columns = std::max(table.columns, cell.column + 1);
            table.withinSumSquares += cell.moments.sumSquares;
            all = combine(all, cell.moments);
        }
    }
    table.count = all.count;
    table.grandMean = all.mean;
    BOOST_OUTCOME_TRY(checkLevels(table));
    return table;
}

std::vector<long double> contrastRow(const TwoWayTable& table, const TwoWayCell& cell,
                                     TwoWayTerms terms) {
    std::vector<long double> rowContrasts;
    std::vector<long double> columnContrasts;
    for (std::size_t i = 0; i + 1 < table.rows; ++i) {
        rowContrasts.push_back(sumContrast(cell.row, i, table.rows));
    }
    for (std::size_t j = 0; j + 1 < table.columns; ++j) {
        columnContrasts.push_back(sumContrast(cell.column, j, table.columns));
    }
    std::vector<long double> entries{1.0L};
    if (terms.hasRows) {
        entries.insert(entries.end(), rowContrasts.begin(), rowContrasts.end());
    }
    if (terms.hasColumns) {
        entries.insert(entries.end(), columnContrasts.begin(), columnContrasts.end());
    }
    if (terms.hasInteraction) {
        for (const long double ofRow : rowContrasts) {
            for (const long double ofColumn : columnContrasts) {
                entries.push_back(ofRow * ofColumn);
            }
        }
    }
    return entries;
}

Result<LeastSquaresSolution> fitCellMeans(const TwoWayTable& table, TwoWayTerms terms) {
    const std::size_t columns = contrastRow(table, table.cells.front(), terms).size();
    DesignMatrix design(table.cells.size(), columns);
    std::vector<long double> response;
    for (std::size_t row = 0; row < table.cells.size(); ++row) {
        const TwoWayCell& cell = table.cells[row];
        const long double weight = std::sqrt(static_cast<long double>(cell.moments.count));
        const auto entries = contrastRow(table, cell, terms);
        for (std::size_t column = 0; column < columns; ++column) {
            design.at(row, column) = weight * entries[column];
        }
        response.push_back(weight * (cell.moments.mean - table.grandMean));
    }
    return solveLeastSquares(design, response);
}

}  // namespace core::stats
