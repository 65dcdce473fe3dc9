#include "tests/support/reference_csv.h"

#include <algorithm>
#include <fstream>
#include <limits>
#include <stdexcept>

namespace tests {
namespace {

std::vector<std::string> fieldsOf(const std::string& line) {
    std::vector<std::string> fields(1);
    bool quoted = false;
    for (const char c : line) {
        if (c == '"') {
            quoted = !quoted;
        } else if (c == ',' && !quoted) {
            fields.emplace_back();
        } else if (c != '\r') {
            fields.back().push_back(c);
        }
    }
    return fields;
}

}  // namespace

std::filesystem::path dataFolder() {
    return TESTS_DATA_FOLDER;
}

ReferenceTable ReferenceTable::load(const std::filesystem::path& underTestsData) {
    const auto path = dataFolder() / underTestsData;
    std::ifstream file{path};
    if (!file) {
        throw std::runtime_error("cannot read " + path.string());
    }
    ReferenceTable table;
    for (std::string line; std::getline(file, line);) {
        if (line.empty() || line.front() == '#') {
            continue;
        }
        if (table.m_columns.empty()) {
            table.m_columns = fieldsOf(line);
        } else {
            table.m_rows.push_back(fieldsOf(line));
            table.m_rows.back().resize(table.m_columns.size());
        }
    }
    return table;
}

const std::string& ReferenceTable::text(std::size_t row, const std::string& column) const {
    const auto found = std::find(m_columns.begin(), m_columns.end(), column);
    if (found == m_columns.end()) {
        throw std::out_of_range("no column " + column);
    }
    return m_rows.at(row).at(static_cast<std::size_t>(found - m_columns.begin()));
}

double ReferenceTable::number(std::size_t row, const std::string& column) const {
    const std::string& cell = text(row, column);
    if (cell == "Inf") {
        return std::numeric_limits<double>::infinity();
    }
    if (cell.empty() || cell == "NA") {
        return std::numeric_limits<double>::quiet_NaN();
    }
    return std::stod(cell);
}

std::vector<double> ReferenceTable::numbers(const std::string& column) const {
    std::vector<double> values;
    for (std::size_t row = 0; row < m_rows.size(); ++row) {
        values.push_back(number(row, column));
    }
    return values;
}

bool ReferenceTable::hasColumn(const std::string& column) const {
    return std::find(m_columns.begin(), m_columns.end(), column) != m_columns.end();
}

}  // namespace tests
