#include "core/report/csv.h"

#include "core/base/expects.h"
#include "core/report/number_format.h"

namespace core::report {

std::string guardedForSpreadsheets(std::string_view text) {
    constexpr std::string_view kRunBySpreadsheets = "=+-@\t\r";
    const bool isRun =
        !text.empty() && kRunBySpreadsheets.find(text.front()) != std::string_view::npos;
    return (isRun ? "'" : "") + std::string{text};
}

CsvWriter::CsvWriter(const std::vector<std::string>& columns) : m_columns{columns.size()} {
    CORE_EXPECTS(!columns.empty());
    for (const auto& column : columns) {
        field(column);
    }
    endRow();
}

CsvWriter& CsvWriter::text(std::string_view value) {
    field(guardedForSpreadsheets(value));
    return *this;
}

CsvWriter& CsvWriter::number(double value) {
    field(roundTrip(value));
    return *this;
}

CsvWriter& CsvWriter::whole(std::int64_t value) {
    field(std::to_string(value));
    return *this;
}

CsvWriter& CsvWriter::empty() {
    field({});
    return *this;
}

void CsvWriter::endRow() {
    CORE_EXPECTS(m_inRow == m_columns);
    m_content += "\r\n";
    m_inRow = 0;
}

void CsvWriter::field(std::string_view raw) {
    if (m_inRow > 0) {
        m_content += ',';
    }
    ++m_inRow;
    if (raw.find_first_of(",\"\r\n") == std::string_view::npos) {
        m_content += raw;
        return;
    }
    m_content += '"';
    for (const char c : raw) {
        if (c == '"') {
            m_content += '"';
        }
        m_content += c;
    }
    m_content += '"';
}

}  // namespace core::report
