#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"

/// Tables as text, as spreadsheets write and copy them.
namespace core {

/// One row below the header, with the number by which a person finds it.
struct TextRow {
    /// Row of the spreadsheet from 1, the header included: a field with line breaks in quotes is
    /// one row, an empty line counts.
    std::size_t number{};
    std::vector<std::string> fields;  ///< as many as there are columns, without space at the ends
};

/// A header and rows. Immutable value.
struct TextTable {
    std::vector<std::string> columns;
    std::vector<TextRow> rows;

    /// Position of a column by its name as written, letters of either case.
    [[nodiscard]] std::optional<std::size_t> column(std::string_view name) const;
};

/// Reads a table with a header row: fields after RFC 4180 (quotes around fields with separators,
/// line breaks or doubled quotes), lines that end in LF, CRLF or CR, UTF-8 with or without a byte
/// order mark. The separator is the tab, the semicolon or the comma, whichever the header has most
/// of outside quotes. Rows without any content are left out; missing fields at the end of a row are
/// empty, and so is what a row has beyond the header when it is empty.
///
/// Errors, with row and column: InvalidInput for a text that is not UTF-8 (RFC 3629), a header that
/// is missing, has an empty or a repeated name, a row with more content than the header has
/// columns, a quote that is never closed, or text after a closing quote.
Result<TextTable> readTextTable(std::string_view text);

/// Column names of spreadsheets: 0 is A, 25 is Z, 26 is AA.
[[nodiscard]] std::string columnLetters(std::size_t column);

/// True for UTF-8 (RFC 3629) without a NUL character.
[[nodiscard]] bool isUtf8Text(std::string_view text) noexcept;

/// Without white space (ASCII) at the ends.
[[nodiscard]] std::string_view withoutOuterSpace(std::string_view text) noexcept;

}  // namespace core
