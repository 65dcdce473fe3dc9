#include "core/project/store/fields.h"

#include "core/base/words.h"

namespace core::project {

template <class T>
T* Fields::next(const char* column, std::string_view typeName, bool mayBeNull) {
    if (!m_fault.empty()) {
        return nullptr;
    }
    const std::size_t at = m_columns.size() - 1;
    if (at >= m_row.size()) {
        reject(said("the column {} is missing", column));
        return nullptr;
    }
    T* value = std::get_if<T>(&m_row[at]);
    if (value == nullptr && !(mayBeNull && std::holds_alternative<std::monostate>(m_row[at]))) {
        reject(said("{} is not {}", column, saidText(typeName)));
    }
    return value;
}

template <class T>
void Fields::cell(const char* column, T& value, std::string_view typeName) {
    m_columns.push_back(column);
    if (m_isReading) {
        T* found = next<T>(column, typeName, false);
        value = found != nullptr ? std::move(*found) : T{};
    } else if (isWriting()) {
        m_row.emplace_back(value);
    }
}

template <class T>
void Fields::optionalCell(const char* column, std::optional<T>& value, std::string_view typeName) {
    m_columns.push_back(column);
    if (m_isReading) {
        T* found = next<T>(column, typeName, true);
        value = found != nullptr ? std::optional{std::move(*found)} : std::nullopt;
    } else if (isWriting()) {
        m_row.push_back(value ? Value{*value} : Value{});
    }
}

void Fields::operator()(const char* column, std::int64_t& value) {
    cell(column, value, toSay("a whole number"));
}
void Fields::operator()(const char* column, int& value) {
    std::int64_t number = value;
    (*this)(column, number);
    if (m_isReading) {
        value = static_cast<int>(number);
    }
}
void Fields::operator()(const char* column, bool& value) {
    std::int64_t number = value ? 1 : 0;
    (*this)(column, number);
    if (m_isReading) {
        value = number != 0;
    }
}
void Fields::operator()(const char* column, double& value) {
    cell(column, value, toSay("a number"));
}
void Fields::operator()(const char* column, std::string& value) {
    cell(column, value, toSay("a text"));
}
void Fields::operator()(const char* column, Blob& value) {
    cell(column, value, toSay("a block of bytes"));
}
void Fields::operator()(const char* column, std::optional<std::int64_t>& value) {
    optionalCell(column, value, toSay("a whole number"));
}
void Fields::operator()(const char* column, std::optional<double>& value) {
    optionalCell(column, value, toSay("a number"));
}
void Fields::operator()(const char* column, std::optional<std::string>& value) {
    optionalCell(column, value, toSay("a text"));
}

void Fields::fraction(const char* numerator, const char* denominator,
                      std::optional<timebase::Rational>& value) {
    std::optional<std::int64_t> num;
    std::optional<std::int64_t> den;
    if (value) {
        num = value->num();
        den = value->den();
    }
    (*this)(numerator, num);
    (*this)(denominator, den);
    if (!m_isReading) {
        return;
    }
    value.reset();
    if (num && den && *num > 0 && *den > 0) {
        value = timebase::Rational{*num, *den};
    } else if (num && den) {
        reject(said("a fraction is not positive"));
    }
}

std::optional<std::size_t> Fields::placeOf(const std::string& word, const char* const* words,
                                           std::size_t count) {
    for (std::size_t i = 0; i < count; ++i) {
        if (word == words[i]) {
            return i;
        }
    }
    reject(said("the word '{}' is not known here", word));
    return std::nullopt;
}

void Fields::reject(std::string why) {
    if (m_fault.empty()) {
        m_fault = std::move(why);
    }
}

const std::string* Fields::fault() {
    if (m_isReading && m_columns.size() < m_row.size()) {
        reject(said("the row has columns too many"));
    }
    return m_fault.empty() ? nullptr : &m_fault;
}

}  // namespace core::project
