#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace core::report {

/// A table of data, one kind of thing a row, before it becomes CSV, a sheet or JSON. Plain values.

/// A cell: nothing, a truth value, a whole number, a number or a text.
using Cell = std::variant<std::monostate, bool, std::int64_t, double, std::string>;

/// Types of the Table Schema standard.
enum class FieldType { Text, Whole, Number, Truth, Moment };

struct Field {
    std::string name;  ///< lower-case words, the unit last: "mean_rpm"
    FieldType type{};
    std::string unit;                    ///< "rpm"; empty for what has none
    std::string description;             ///< a sentence
    std::vector<std::string> allowed{};  ///< the only values there are; empty: any
};

struct Table {
    std::string name;  ///< of its file, without extension
    std::string title;
    std::string description;  ///< a sentence: what one row is
    std::vector<Field> fields;
    std::vector<std::vector<Cell>> rows;    ///< each as long as fields, types as the fields say
    std::vector<std::string> primaryKey{};  ///< fields that together name a row
    /// A field that names a row of another table by a field there.
    struct Reference {
        std::string field;
        std::string table;
        std::string fieldThere{};  ///< empty: of the same name
    };
    std::vector<Reference> references{};
};

[[nodiscard]] Cell numberOrNothing(std::optional<double> value);
[[nodiscard]] Cell textOrNothing(const std::string& text);

/// RFC 4180, UTF-8, CRLF. Nothing is an empty field; truth is "true" or "false".
[[nodiscard]] std::string csvOf(const Table& table);

}  // namespace core::report
