#pragma once

#include <exception>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/words.h"
#include "core/project/file/row.h"
#include "core/project/snapshot.h"
#include "core/timebase/rational.h"

namespace core::project {

/// Goes over the columns of a row and the members they belong to, in the order of the table: writes
/// the members into a row, reads them from one, or checks what they refer to. So each kind names
/// its columns once (kinds.h). Members change only while a row is read.
///
/// The first thing that is wrong makes fault() say so; what is read from then on is a default.
class Fields {
public:
    /// Writes.
    Fields() = default;
    /// Reads a row without its check number.
    explicit Fields(Row row) : m_isReading{true}, m_row{std::move(row)} {}
    /// Checks that what is referred to is in the snapshot.
    explicit Fields(const Snapshot& all) : m_all{&all} {}

    void operator()(const char* column, std::int64_t& value);
    void operator()(const char* column, int& value);
    void operator()(const char* column, bool& value);
    void operator()(const char* column, double& value);
    void operator()(const char* column, std::string& value);
    void operator()(const char* column, Blob& value);
    void operator()(const char* column, std::optional<std::int64_t>& value);
    void operator()(const char* column, std::optional<double>& value);
    void operator()(const char* column, std::optional<std::string>& value);
    void operator()(const char* column, timebase::FrameIndex& frame) {
        (*this)(column, frame.value);
    }
    void operator()(const char* column, std::optional<timebase::FrameIndex>& frame) {
        numbered(column, frame);
    }
    /// A reference, which must hold. Where it need not, and for the row's own number, pass .value.
    template <class Entity>
    void operator()(const char* column, Id<Entity>& id) {
        (*this)(column, id.value);
        refer(id);
    }
    template <class Entity>
    void operator()(const char* column, std::optional<Id<Entity>>& id) {
        numbered(column, id);
        if (id) {
            refer(*id);
        }
    }
    /// A word for each value of an enumeration, in their order.
    template <class Enum, std::size_t count>
    void word(const char* column, std::optional<Enum>& value, const char* const (&words)[count]) {
        std::optional<std::string> text;
        if (value) {
            text = words[static_cast<std::size_t>(*value)];
        }
        (*this)(column, text);
        if (m_isReading) {
            const auto at = text ? placeOf(*text, words, count) : std::nullopt;
            value = at ? std::optional{static_cast<Enum>(*at)} : std::nullopt;
        }
    }
    template <class Enum, std::size_t count>
    void word(const char* column, Enum& value, const char* const (&words)[count]) {
        std::optional<Enum> held = value;
        word(column, held, words);
        if (m_isReading) {
            value = held.value_or(Enum{});
            if (!held) {
                reject(said("a word is missing"));
            }
        }
    }
    /// Two columns, a fraction greater than 0.
    void fraction(const char* numerator, const char* denominator,
                  std::optional<timebase::Rational>& value);
    /// A text that is made of a value and that the value is made of again.
    template <class T>
    void json(const char* column, T& value, std::string (*write)(const T&),
              Result<T> (*read)(std::string_view)) {
        std::string text;
        try {
            text = isWriting() ? write(value) : std::string{};
        } catch (const std::exception& notText) {  // nlohmann::json meets what is not UTF-8
            reject(notText.what());
        }
        (*this)(column, text);
        if (m_isReading && m_fault.empty()) {
            if (Result<T> made = read(text)) {
                value = std::move(made).value();
            } else {
                reject(made.error().message);
            }
        }
    }

    [[nodiscard]] bool isReading() const noexcept { return m_isReading; }
    [[nodiscard]] bool isWriting() const noexcept { return !m_isReading && m_all == nullptr; }
    /// Marks the row as wrong.
    void reject(std::string why);
    /// What is wrong; while a row is read, also that it has columns too many. Null when nothing is.
    [[nodiscard]] const std::string* fault();
    [[nodiscard]] const std::vector<const char*>& columns() const noexcept { return m_columns; }
    [[nodiscard]] Row& row() & noexcept { return m_row; }

private:
    template <class T>
    void cell(const char* column, T& value, std::string_view typeName);
    template <class T>
    void optionalCell(const char* column, std::optional<T>& value, std::string_view typeName);
    /// The next cell of the row, which must be there. Null when it is not of the type.
    template <class T>
    T* next(const char* column, std::string_view typeName, bool mayBeNull);
    template <class Numbered>
    void numbered(const char* column, std::optional<Numbered>& value) {
        std::optional<std::int64_t> number;
        if (value) {
            number = value->value;
        }
        (*this)(column, number);
        if (m_isReading) {
            value = number ? std::optional{Numbered{*number}} : std::nullopt;
        }
    }
    template <class Entity>
    void refer(Id<Entity> id) {
        if (m_all != nullptr && m_all->of<Entity>().find(id) == nullptr) {
            reject(said("it refers to something that is not in the file"));
        }
    }
    std::optional<std::size_t> placeOf(const std::string& word, const char* const* words,
                                       std::size_t count);

    bool m_isReading{};
    const Snapshot* m_all{};
    Row m_row;
    std::vector<const char*> m_columns;
    std::string m_fault;
};

}  // namespace core::project
