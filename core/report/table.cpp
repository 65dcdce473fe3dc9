#include "core/report/table.h"

#include <cmath>

#include "core/base/expects.h"
#include "core/report/csv.h"

namespace core::report {

Cell numberOrNothing(std::optional<double> value) {
    return value && std::isfinite(*value) ? Cell{*value} : Cell{};
}

Cell textOrNothing(const std::string& text) {
    return text.empty() ? Cell{} : Cell{text};
}

std::string csvOf(const Table& table) {
    std::vector<std::string> names;
    for (const auto& field : table.fields) {
        names.push_back(field.name);
    }
    report::CsvWriter csv{names};
    for (const auto& row : table.rows) {
        CORE_EXPECTS(row.size() == table.fields.size());
        for (const auto& cell : row) {
            if (const auto* truth = std::get_if<bool>(&cell)) {
                csv.text(*truth ? "true" : "false");
            } else if (const auto* whole = std::get_if<std::int64_t>(&cell)) {
                csv.whole(*whole);
            } else if (const auto* number = std::get_if<double>(&cell)) {
                csv.number(*number);
            } else if (const auto* text = std::get_if<std::string>(&cell)) {
                csv.text(*text);
            } else {
                csv.empty();
            }
        }
        csv.endRow();
    }
    return csv.content();
}

}  // namespace core::report
