#pragma once

#include <string>
#include <vector>

#include "core/stats/comparison/two_way.h"
#include "tests/core/stats/grouped.h"

namespace tests {

/// A table with columns a, b, y as cells; levels numbered as they first appear.
struct CellTable {
    std::vector<std::string> rows{};
    std::vector<std::string> columns{};
    std::vector<core::stats::TwoWayCell> cells{};

    static CellTable load(const std::string& file) {
        const auto table = ReferenceTable::load(file);
        Grouped rows;
        Grouped columns;
        Grouped cells;
        for (std::size_t i = 0; i < table.rowCount(); ++i) {
            const std::string a = table.text(i, "a");
            const std::string b = table.text(i, "b");
            rows.at(a);
            columns.at(b);
            cells.at(a + ':' + b).push_back(table.number(i, "y"));
        }
        CellTable result{.rows = rows.names, .columns = columns.names};
        for (std::size_t i = 0; i < cells.names.size(); ++i) {
            const std::size_t colon = cells.names[i].find(':');
            result.cells.push_back({.row = rows.indexOf(cells.names[i].substr(0, colon)),
                                    .column = columns.indexOf(cells.names[i].substr(colon + 1)),
                                    .moments = core::stats::momentsOf(cells.values[i])});
        }
        return result;
    }
};

}  // namespace tests
