#include "core/base/text_table.h"

#include <algorithm>
#include <array>
#include <cctype>

namespace core {
namespace {

constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";
constexpr std::string_view kSpace = " \t\r\n\f\v";

std::string placeOf(std::size_t row, std::size_t column) {
    return "Row " + std::to_string(row) + ", column " + columnLetters(column);
}

/// The separator that the first line has most of, outside quotes; the comma when it has none.
char separatorOf(std::string_view text) {
    constexpr std::array kCandidates{'\t', ';', ','};
    std::array<std::size_t, kCandidates.size()> counts{};
    bool isQuoted = false;
    for (const char c : text) {
        if (c == '"') {
            isQuoted = !isQuoted;
        } else if (!isQuoted && (c == '\n' || c == '\r')) {
            break;
        } else if (!isQuoted) {
            for (std::size_t i = 0; i < kCandidates.size(); ++i) {
                counts[i] += c == kCandidates[i] ? 1U : 0U;
            }
        }
    }
    const auto most = std::max_element(counts.begin(), counts.end());
    return *most == 0 ? ',' : kCandidates[static_cast<std::size_t>(most - counts.begin())];
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
                        placeOf(m_row, column) +
                            ": there is text after the closing quote. Put the whole field in "
                            "quotes, and double the quotes within it.");
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
                    placeOf(m_row, column) + ": the quote that opens here is never closed.");
    }

    std::string_view m_text;
    char m_separator;
    std::size_t m_at{0};
    std::size_t m_row{0};
};

bool isEmptyRow(const std::vector<std::string>& fields) {
    return std::all_of(fields.begin(), fields.end(),
                       [](const std::string& field) { return field.empty(); });
}

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
                        placeOf(row, i) +
                            ": the column has no name. The first row names the "
                            "columns.");
        }
        for (std::size_t j = 0; j < i; ++j) {
            if (isSameName(columns[i], columns[j])) {
                return fail(ErrorCode::InvalidInput,
                            placeOf(row, i) + ": the column name \"" + columns[i] +
                                "\" is there twice. Give each column a name of its own.");
            }
        }
    }
    return ok();
}

/// As many fields as columns. Errors: InvalidInput for content beyond the last column.
Result<void> fitToColumns(TextRow& row, std::size_t columns) {
    for (std::size_t i = columns; i < row.fields.size(); ++i) {
        if (!row.fields[i].empty()) {
            return fail(ErrorCode::InvalidInput,
                        placeOf(row.number, i) + ": \"" + row.fields[i] +
                            "\" stands beyond the last named column. Name the column, or put a "
                            "field that holds separators in quotes.");
        }
    }
    row.fields.resize(columns);
    return ok();
}

/// Bytes that follow the first byte of a character; 0 for ASCII, -1 for no first byte.
int followers(unsigned char first) {
    if (first < 0x80U) {
        return 0;
    }
    if (first >= 0xC2U && first <= 0xDFU) {
        return 1;
    }
    if (first >= 0xE0U && first <= 0xEFU) {
        return 2;
    }
    return first >= 0xF0U && first <= 0xF4U ? 3 : -1;
}

/// RFC 3629, section 4: the second byte is limited after E0 (overlong), ED (surrogates), F0
/// (overlong) and F4 (beyond U+10FFFF).
bool isSecondByte(unsigned char first, unsigned char second) {
    switch (first) {
        case 0xE0U:
            return second >= 0xA0U && second <= 0xBFU;
        case 0xEDU:
            return second >= 0x80U && second <= 0x9FU;
        case 0xF0U:
            return second >= 0x90U && second <= 0xBFU;
        case 0xF4U:
            return second >= 0x80U && second <= 0x8FU;
        default:
            return second >= 0x80U && second <= 0xBFU;
    }
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

Result<TextTable> readTextTable(std::string_view text) {
    if (text.starts_with(kByteOrderMark)) {
        text.remove_prefix(kByteOrderMark.size());
    }
    if (!isUtf8Text(text)) {
        return fail(ErrorCode::InvalidInput,
                    "The table is not UTF-8 text. Save it from the spreadsheet as CSV in UTF-8.");
    }
    FieldReader reader{text, separatorOf(text)};
    TextTable table;
    while (!reader.isAtEnd()) {
        BOOST_OUTCOME_TRY(fields, reader.nextRow());
        if (isEmptyRow(fields)) {
            continue;
        }
        if (table.columns.empty()) {
            while (fields.back().empty()) {
                fields.pop_back();
            }
            BOOST_OUTCOME_TRY(checkHeader(fields, reader.rowNumber()));
            table.columns = std::move(fields);
            continue;
        }
        TextRow row{reader.rowNumber(), std::move(fields)};
        BOOST_OUTCOME_TRY(fitToColumns(row, table.columns.size()));
        table.rows.push_back(std::move(row));
    }
    if (table.columns.empty()) {
        return fail(ErrorCode::InvalidInput,
                    "The table is empty. It needs a first row that names the columns.");
    }
    return table;
}

std::string columnLetters(std::size_t column) {
    constexpr std::size_t kLetters = 26;
    std::string letters;
    for (std::size_t rest = column + 1; rest > 0; rest = (rest - 1) / kLetters) {
        letters.insert(letters.begin(), static_cast<char>('A' + (rest - 1) % kLetters));
    }
    return letters;
}

bool isUtf8Text(std::string_view text) noexcept {
    for (std::size_t i = 0; i < text.size();) {
        const auto first = static_cast<unsigned char>(text[i]);
        const int count = followers(first);
        if (first == 0 || count < 0 || i + static_cast<std::size_t>(count) >= text.size()) {
            return false;
        }
        for (std::size_t k = 1; k <= static_cast<std::size_t>(count); ++k) {
            const auto byte = static_cast<unsigned char>(text[i + k]);
            if (k == 1 ? !isSecondByte(first, byte) : (byte & 0xC0U) != 0x80U) {
                return false;
            }
        }
        i += static_cast<std::size_t>(count) + 1;
    }
    return true;
}

std::string_view withoutOuterSpace(std::string_view text) noexcept {
    const auto begin = text.find_first_not_of(kSpace);
    if (begin == std::string_view::npos) {
        return {};
    }
    return text.substr(begin, text.find_last_not_of(kSpace) - begin + 1);
}

}  // namespace core
