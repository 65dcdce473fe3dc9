#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "core/base/text_encoding.h"

/// Tables as text, as spreadsheets write and copy them.
namespace core {

/// One row, with the number by which a person finds it.
struct TextRow {
    /// Row of the spreadsheet from 1, the header included: a field with line breaks in quotes is
    /// one row, an empty line counts.
    std::size_t number{};
    std::vector<std::string> fields;  ///< without space at the ends
};

/// The fields of a table before anybody says what they are. Immutable value.
struct TextGrid {
    TextEncoding encoding{TextEncoding::Utf8};
    char separator{','};
    std::size_t columns{};      ///< up to the last one that holds something
    std::vector<TextRow> rows;  ///< those that hold something, each with as many fields as columns
};

/// A header and rows. Immutable value.
struct TextTable {
    TextEncoding encoding{TextEncoding::Utf8};
    std::vector<std::string> columns;
    std::vector<TextRow> rows;

    /// Position of a column by its name as written, letters of either case.
    [[nodiscard]] std::optional<std::size_t> column(std::string_view name) const;
};

/// Reads the fields of a table after RFC 4180 (quotes around fields with separators, line breaks or
/// doubled quotes), lines that end in LF, CRLF or CR, in any encoding of decodeText(). The
/// separator is the tab, the semicolon or the comma: the one of which most of the first 20 lines
/// with content have an equal number outside quotes; of equals the one they have more of, then in
/// this order. Rows without any content are left out, short ones filled with empty fields.
///
/// Errors: those of decodeText(); InvalidInput, with row and column, for a quote that is never
/// closed or text after a closing quote.
Result<TextGrid> readTextGrid(std::string_view bytes);

/// The same for a table whose first row names the columns. Errors: those of readTextGrid();
/// InvalidInput, with row and column, for a header that is missing, has an empty or a repeated name
/// or fewer names than a row has fields with content.
Result<TextTable> readTextTable(std::string_view bytes);

/// Column names of spreadsheets: 0 is A, 25 is Z, 26 is AA.
[[nodiscard]] std::string columnLetters(std::size_t column);
/// "comma", "semicolon" or "tab".
[[nodiscard]] std::string_view separatorName(char separator) noexcept;

/// Without white space (ASCII) at the ends.
[[nodiscard]] std::string_view withoutOuterSpace(std::string_view text) noexcept;

}  // namespace core
