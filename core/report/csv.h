#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace core::report {

/// The text, with an apostrophe in front when a spreadsheet program would run it as a formula: it
/// begins with = + - @, a tab or a carriage return.
[[nodiscard]] std::string guardedForSpreadsheets(std::string_view text);

/// Writes a table as RFC 4180 CSV: CRLF line ends, fields in double quotes where needed, UTF-8.
class CsvWriter {
public:
    explicit CsvWriter(const std::vector<std::string>& columns);

    /// A field of text from people or files, guarded for spreadsheets.
    CsvWriter& text(std::string_view value);
    /// A number, written so that it reads back exactly; an empty field when it is not finite.
    CsvWriter& number(double value);
    CsvWriter& whole(std::int64_t value);
    CsvWriter& empty();
    void endRow();

    [[nodiscard]] const std::string& content() const noexcept { return m_content; }

private:
    void field(std::string_view raw);
    std::string m_content;
    std::size_t m_columns;
    std::size_t m_inRow{0};
};

}  // namespace core::report
