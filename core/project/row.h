#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "core/base/result.h"

namespace core::project {

using Blob = std::vector<std::uint8_t>;
/// One cell of a table row: NULL, INTEGER, REAL, TEXT (UTF-8) or BLOB.
using Value = std::variant<std::monostate, std::int64_t, double, std::string, Blob>;
/// One row, columns in the order of the table.
using Row = std::vector<Value>;

/// The check number of a row, as laid down in FORMAT.md R08: CRC-32 (ISO 3309) over the values.
[[nodiscard]] std::int64_t rowCheck(const Row& withoutCheck);
/// The row with its check number as last column.
[[nodiscard]] Row sealed(Row row);
/// The row without its last column. Errors: Damaged when that is not the check number of the rest.
Result<Row> unsealed(Row row);

/// Takes the cells of a row one after the other as what they should be. The first cell of another
/// type makes finish() fail; values taken from then on are defaults.
class RowReader {
public:
    explicit RowReader(Row row) : m_row{std::move(row)} {}

    std::int64_t integer();
    double real();
    std::string text();
    Blob blob();
    std::optional<std::int64_t> optionalInteger();
    std::optional<double> optionalReal();
    std::optional<std::string> optionalText();

    /// One of the words of an enumeration, in the order of its values.
    template <class Enum, std::size_t count>
    std::optional<Enum> optionalWord(const char* const (&words)[count]) {
        const auto word = optionalText();
        for (std::size_t i = 0; word && i < count; ++i) {
            if (*word == words[i]) {
                return static_cast<Enum>(i);
            }
        }
        if (word) {
            reject("the word '" + *word + "' is not known here");
        }
        return std::nullopt;
    }
    template <class Enum, std::size_t count>
    Enum word(const char* const (&words)[count]) {
        const auto found = optionalWord<Enum>(words);
        if (!found) {
            reject("a word is missing");
        }
        return found.value_or(Enum{});
    }
    /// What `parse` makes of a text.
    template <class T>
    T json(Result<T> (*parse)(std::string_view)) {
        const std::string value = text();
        if (!m_fault.empty()) {
            return {};
        }
        Result<T> result = parse(value);
        if (!result) {
            reject(result.error().message);
            return {};
        }
        return std::move(result).value();
    }

    /// Marks the row as wrong from outside, for a text that is no JSON or a word that is unknown.
    void reject(std::string why);
    /// Errors: Damaged with the column and the reason.
    [[nodiscard]] Result<void> finish() const;

private:
    template <class T>
    std::optional<T> take(const char* typeName, bool mayBeNull);

    Row m_row;
    std::size_t m_next{};
    std::string m_fault;
};

/// Value of an optional: NULL when absent.
template <class T>
[[nodiscard]] Value valueOf(const std::optional<T>& optional) {
    return optional ? Value{*optional} : Value{};
}

}  // namespace core::project
