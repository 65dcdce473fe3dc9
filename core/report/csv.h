#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace core::report {

/// Writes a table as RFC 4180 CSV: CRLF line ends, fields in double quotes where needed, UTF-8.
class CsvWriter {
public:
    explicit CsvWriter(const std::vector<std::string>& columns);

    /// A field of text from people or files. A text that a spreadsheet program would run as a
    /// formula (it begins with = + - @, a tab or a carriage return) gets an apostrophe in front.
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
