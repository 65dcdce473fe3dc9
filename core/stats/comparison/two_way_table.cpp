#include "core/stats/comparison/two_way_table.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <string>
#include <utility>

#include "core/base/words.h"

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
        return fail(
            ErrorCode::InvalidInput,
            said("Two-way model: at least two rows and two columns are needed, here are {} and {}.",
                 table.rows, table.columns));
    }
    std::set<std::size_t> rows;
    std::set<std::size_t> columns;
    for (const TwoWayCell& cell : table.cells) {
        rows.insert(cell.row);
        columns.insert(cell.column);
    }
    if (rows.size() != table.rows || columns.size() != table.columns) {
        return fail(ErrorCode::InvalidInput,
                    said("Two-way model: a row or column holds no value. Number rows and columns "
                         "from zero without gaps and leave empty ones out."));
    }
    if (table.withinDof() == 0) {
        return fail(ErrorCode::InvalidInput,
                    said("Two-way model: no cell has two values, so there is no scatter to compare "
                         "with. Film more shots."));
    }
    if (table.withinSumSquares <= 0.0L) {
        return fail(ErrorCode::Untrustworthy,
                    said("Two-way model: no cell has any scatter, so nothing can be tested. Use "
                         "readings with finer resolution."));
    }
    return ok();
}

long double rootCount(const TwoWayCell& cell) {
    return std::sqrt(static_cast<long double>(cell.moments.count));
}

// Takes the levels of one factor out of quantities of the cells.
class Sweep {
public:
    Sweep(const TwoWayTable& table, Factor factor) : m_table{table}, m_factor{factor} {}

    // One value a cell, less the weighted mean of its level, times the root of the cell's count.
    [[nodiscard]] std::vector<long double> of(std::vector<long double> values) const {
        const bool isRow = m_factor == Factor::Row;
        const std::size_t levels = isRow ? m_table.rows : m_table.columns;
        std::vector<long double> sums(levels);
        std::vector<long double> counts(levels);
        const auto levelAt = [&](std::size_t i) {
            return isRow ? m_table.cells[i].row : m_table.cells[i].column;
        };
        for (std::size_t i = 0; i < values.size(); ++i) {
            const auto count = static_cast<long double>(m_table.cells[i].moments.count);
            sums[levelAt(i)] += count * values[i];
            counts[levelAt(i)] += count;
        }
        for (std::size_t i = 0; i < values.size(); ++i) {
            values[i] -= sums[levelAt(i)] / counts[levelAt(i)];
            values[i] *= rootCount(m_table.cells[i]);
        }
        return values;
    }

    // The same for a contrast; what is left of one that the levels explain is rounding only.
    // Errors: InvalidInput for such a contrast.
    [[nodiscard]] Result<std::vector<long double>> independent(
        std::vector<long double> contrast) const {
        constexpr long double kRounding = 1e-14L;  // as in the rank of a least squares fit
        auto swept = of(std::move(contrast));
        long double left = 0.0L;
        for (const long double value : swept) {
            left += value * value;
        }
        if (left > kRounding * kRounding * static_cast<long double>(m_table.count)) {
            return swept;
        }
        return fail(ErrorCode::InvalidInput,
                    said("Two-way model: rows and columns depend on each other, so they cannot be "
                         "told apart by these data. Film the missing combinations."));
    }

private:
    const TwoWayTable& m_table;
    Factor m_factor;
};

}  // namespace

Result<TwoWayTable> TwoWayTable::from(std::span<const TwoWayCell> cells) {
    TwoWayTable table;
    std::set<std::pair<std::size_t, std::size_t>> seen;
    Moments all;
    for (const TwoWayCell& cell : cells) {
        if (!seen.emplace(cell.row, cell.column).second) {
            return fail(ErrorCode::InvalidInput,
                        said("Two-way model: cell ({}, {}) is listed twice. Combine its values.",
                             cell.row, cell.column));
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

std::vector<long double> contrastRow(const TwoWayTable& table, const TwoWayCell& cell) {
    std::vector<long double> entries{1.0L};
    for (std::size_t i = 0; i + 1 < table.rows; ++i) {
        entries.push_back(sumContrast(cell.row, i, table.rows));
    }
    for (std::size_t j = 0; j + 1 < table.columns; ++j) {
        entries.push_back(sumContrast(cell.column, j, table.columns));
    }
    return entries;
}

Result<LeastSquaresSolution> fitAdditive(const TwoWayTable& table) {
    const std::size_t columns = table.rows + table.columns - 1;
    DesignMatrix design(table.cells.size(), columns);
    std::vector<long double> response;
    for (std::size_t row = 0; row < table.cells.size(); ++row) {
        const TwoWayCell& cell = table.cells[row];
        const long double weight = rootCount(cell);
        const auto entries = contrastRow(table, cell);
        for (std::size_t column = 0; column < columns; ++column) {
            design.at(row, column) = weight * entries[column];
        }
        response.push_back(weight * (cell.moments.mean - table.grandMean));
    }
    return solveLeastSquares(design, response);
}

Result<long double> additiveResidual(const TwoWayTable& table) {
    const bool isRowSwept = table.rows >= table.columns;
    const Sweep sweep{table, isRowSwept ? Factor::Row : Factor::Column};
    const std::size_t levels = isRowSwept ? table.columns : table.rows;
    DesignMatrix design(table.cells.size(), levels - 1);
    for (std::size_t level = 0; level + 1 < levels; ++level) {
        std::vector<long double> contrast;
        for (const TwoWayCell& cell : table.cells) {
            contrast.push_back(sumContrast(isRowSwept ? cell.column : cell.row, level, levels));
        }
        BOOST_OUTCOME_TRY(swept, sweep.independent(std::move(contrast)));
        for (std::size_t row = 0; row < swept.size(); ++row) {
            design.at(row, level) = swept[row];
        }
    }
    std::vector<long double> means;
    for (const TwoWayCell& cell : table.cells) {
        means.push_back(cell.moments.mean - table.grandMean);
    }
    BOOST_OUTCOME_TRY(fit, solveLeastSquares(design, sweep.of(std::move(means))));
    return fit.residualSumSquares;
}

}  // namespace core::stats
