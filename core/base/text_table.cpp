#include "core/base/text_table.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <iterator>
#include <map>

#include "core/base/words.h"

namespace core {
namespace {

constexpr std::string_view kSpace = " \t\r\n\f\v";

std::string placeOf(std::size_t row, std::size_t column) {
    return said("Row {}, column {}", row, columnLetters(column));
}

constexpr std::array kSeparators{'\t', ';', ','};
constexpr std::size_t kLinesLookedAt = 20;
using SeparatorCounts = std::array<std::size_t, kSeparators.size()>;

/// How often the first lines with content have each separator, outside quotes.
std::vector<SeparatorCounts> separatorsOfLines(std::string_view text) {
    std::vector<SeparatorCounts> lines;
    SeparatorCounts counts{};
    bool isQuoted = false;
    bool hasContent = false;
    bool isFieldStart = true;  // a quote within a field is a sign like any other: 27" racket
    const auto endLine = [&] {
        if (hasContent) {
            lines.push_back(counts);
        }
        counts = {};
        hasContent = false;
    };
    for (const char c : text) {
        if (lines.size() == kLinesLookedAt) {
            return lines;
        }
        if (c == '"' && (isQuoted || isFieldStart)) {
            isQuoted = !isQuoted;
        }
        const auto* const found = std::find(kSeparators.begin(), kSeparators.end(), c);
        const bool isLineEnd = c == '\n' || c == '\r';
        isFieldStart = isLineEnd || found != kSeparators.end();
        if (isQuoted || !isFieldStart) {
            hasContent = hasContent || c != ' ';
        } else if (isLineEnd) {
            endLine();
        } else {
            ++counts.at(static_cast<std::size_t>(found - kSeparators.begin()));
        }
    }
    endLine();
    return lines;
}

/// How many lines agree on how many of a separator; compared in this order.
struct Agreement {
    std::size_t lines{};
    std::size_t count{};
    auto operator<=>(const Agreement&) const = default;
};

char separatorOf(std::string_view text) {
    const auto lines = separatorsOfLines(text);
    char best = ',';
    Agreement most;
    for (std::size_t i = 0; i < kSeparators.size(); ++i) {
        std::map<std::size_t, std::size_t> linesWith;
        for (const SeparatorCounts& line : lines) {
            ++linesWith[line.at(i)];
        }
        linesWith.erase(0);
        for (const auto& [count, agreeing] : linesWith) {
            if (const Agreement found{agreeing, count}; found > most) {
                most = found;
                best = kSeparators.at(i);
            }
        }
    }
    return best;
}

/// Takes fields from a text, one row after the other.
class FieldReader {
public:
    FieldReader(std::string_view text, char separator) : m_text{text}, m_separator{separator} {}

    [[nodiscard]] bool isAtEnd() const { return m_at >= m_text.size(); }
    [[nodiscard]] std::size_t rowNumber() const { return m_row; }

    Result<std::vector<std::string>> nextRow() {
        ++m_row;
        std::vector<std::string> fields;
        while (true) {
            BOOST_OUTCOME_TRY(field, nextField(fields.size()));
            fields.push_back(std::move(field));
            if (isAtEnd()) {
                return fields;
            }
            const char end = m_text[m_at++];
            if (end == m_separator) {
                continue;
            }
            if (end == '\r' && !isAtEnd() && m_text[m_at] == '\n') {
                ++m_at;
            }
            return fields;
        }
    }

private:
    [[nodiscard]] bool isEndOfField() const {
        return isAtEnd() || m_text[m_at] == m_separator || m_text[m_at] == '\n' ||
               m_text[m_at] == '\r';
    }

    Result<std::string> nextField(std::size_t column) {
        if (isAtEnd() || m_text[m_at] != '"') {
            const std::size_t begin = m_at;
            while (!isEndOfField()) {
                ++m_at;
            }
            return std::string{withoutOuterSpace(m_text.substr(begin, m_at - begin))};
        }
        BOOST_OUTCOME_TRY(content, quotedField(column));
        while (!isEndOfField() && m_text[m_at] == ' ') {
            ++m_at;
        }
        if (!isEndOfField()) {
            return fail(ErrorCode::InvalidInput,
                        said("{}: there is text after the closing quote. Put the whole field in "
                             "quotes, and double the quotes within it.",
                             placeOf(m_row, column)));
        }
        return std::string{withoutOuterSpace(content)};
    }

    Result<std::string> quotedField(std::size_t column) {
        std::string content;
        for (++m_at; !isAtEnd(); ++m_at) {
            if (m_text[m_at] != '"') {
                content += m_text[m_at];
            } else if (m_at + 1 < m_text.size() && m_text[m_at + 1] == '"') {
                content += '"';
                ++m_at;
            } else {
                ++m_at;
                return content;
            }
        }
        return fail(ErrorCode::InvalidInput,
                    said("{}: the quote that opens here is never closed.", placeOf(m_row, column)));
    }

    std::string_view m_text;
    char m_separator;
    std::size_t m_at{0};
    std::size_t m_row{0};
};

bool isSameName(std::string_view a, std::string_view b) {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](char x, char y) {
        return std::tolower(static_cast<unsigned char>(x)) ==
               std::tolower(static_cast<unsigned char>(y));
    });
}

Result<void> checkHeader(const std::vector<std::string>& columns, std::size_t row) {
    for (std::size_t i = 0; i < columns.size(); ++i) {
        if (columns[i].empty()) {
            return fail(ErrorCode::InvalidInput,
                        said("{}: the column has no name. The first row names the columns.",
                             placeOf(row, i)));
        }
        for (std::size_t j = 0; j < i; ++j) {
            if (isSameName(columns[i], columns[j])) {
                return fail(ErrorCode::InvalidInput,
                            said("{}: the column name \"{}\" is there twice. Give each column a "
                                 "name of its own.",
                                 placeOf(row, i), columns[i]));
            }
        }
    }
    return ok();
}

/// What stands beyond the last named column. Errors: InvalidInput.
Result<void> checkWidth(const TextRow& row, std::size_t columns) {
    for (std::size_t i = columns; i < row.fields.size(); ++i) {
        if (!row.fields[i].empty()) {
            return fail(ErrorCode::InvalidInput,
                        said("{}: \"{}\" stands beyond the last named column. Name the column, or "
                             "put a field that holds separators in quotes.",
                             placeOf(row.number, i), row.fields[i]));
        }
    }
    return ok();
}

/// Position after the last field with content.
std::size_t widthOf(const std::vector<std::string>& fields) {
    std::size_t width = fields.size();
    while (width > 0 && fields[width - 1].empty()) {
        --width;
    }
    return width;
}

}  // namespace

std::optional<std::size_t> TextTable::column(std::string_view name) const {
    for (std::size_t i = 0; i < columns.size(); ++i) {
        if (isSameName(columns[i], name)) {
            return i;
        }
    }
    return std::nullopt;
}

Result<TextGrid> readTextGrid(std::string_view bytes) {
    BOOST_OUTCOME_TRY(text, decodeText(bytes));
    TextGrid grid;
    grid.encoding = text.encoding;
    grid.separator = separatorOf(text.utf8);
    FieldReader reader{text.utf8, grid.separator};
    while (!reader.isAtEnd()) {
        BOOST_OUTCOME_TRY(fields, reader.nextRow());
        const std::size_t width = widthOf(fields);
        if (width > 0) {
            grid.columns = std::max(grid.columns, width);
            grid.rows.push_back({reader.rowNumber(), std::move(fields)});
        }
    }
    for (TextRow& row : grid.rows) {
        row.fields.resize(grid.columns);
    }
    return grid;
}

Result<TextTable> readTextTable(std::string_view bytes) {
    BOOST_OUTCOME_TRY(grid, readTextGrid(bytes));
    if (grid.rows.empty()) {
        return fail(ErrorCode::InvalidInput,
                    said("The table is empty. It needs a first row that names the columns."));
    }
    TextTable table;
    table.encoding = grid.encoding;
    table.columns = std::move(grid.rows.front().fields);
    table.columns.resize(widthOf(table.columns));
    BOOST_OUTCOME_TRY(checkHeader(table.columns, grid.rows.front().number));
    table.rows.assign(std::make_move_iterator(grid.rows.begin() + 1),
                      std::make_move_iterator(grid.rows.end()));
    for (TextRow& row : table.rows) {
        BOOST_OUTCOME_TRY(checkWidth(row, table.columns.size()));
        row.fields.resize(table.columns.size());
    }
    return table;
}

std::string_view separatorName(char separator) noexcept {
    return separator == '\t'  ? toSay("tab")
           : separator == ';' ? toSay("semicolon")
                              : toSay("comma");
}

std::string columnLetters(std::size_t column) {
    constexpr std::size_t kLetters = 26;
    std::string letters;
    for (std::size_t rest = column + 1; rest > 0; rest = (rest - 1) / kLetters) {
        letters.insert(letters.begin(), static_cast<char>('A' + (rest - 1) % kLetters));
    }
    return letters;
}

std::string_view withoutOuterSpace(std::string_view text) noexcept {
    const auto begin = text.find_first_not_of(kSpace);
    if (begin == std::string_view::npos) {
        return {};
    }
    return text.substr(begin, text.find_last_not_of(kSpace) - begin + 1);
}

}  // namespace core
