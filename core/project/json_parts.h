#pragma once

#include <nlohmann/json.hpp>
#include <optional>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "core/base/whole_number.h"
#include "core/base/words.h"
#include "core/timebase/frame_time.h"
#include "core/timebase/rational.h"

/// Small helpers for reading and writing JSON. Private to core/project.
namespace core::project {

using Json = nlohmann::json;

/// The kinds of a clip's clock, in the order of timebase::ClockKind.
inline constexpr const char* kClockKinds[] = {"stamped", "stretched", "counted"};

/// A value that is not what its place in the text asks for. Never leaves parsed().
class BadJson : public std::runtime_error {
public:
    using std::runtime_error::runtime_error;
};

/// What `read` makes of the text. Errors: InvalidInput for no JSON, a missing or wrong member.
template <class T, class Read>
Result<T> parsed(std::string_view text, Read read) {
    try {
        return T{read(Json::parse(text))};
    } catch (const std::exception& wrong) {  // of nlohmann::json and BadJson
        return fail(ErrorCode::InvalidInput, wrong.what());
    }
}

[[nodiscard]] Json toJson(const timebase::Rational& fraction);
[[nodiscard]] timebase::Rational rationalFrom(const Json& json);
[[nodiscard]] inline timebase::FrameIndex frameFrom(const Json& json) {
    return {wholeFrom<std::int64_t>(json)};
}

template <class T, class Write>
[[nodiscard]] Json listToJson(const std::vector<T>& items, Write write) {
    Json list = Json::array();
    for (const T& item : items) {
        list.push_back(write(item));
    }
    return list;
}

template <class T, class Read>
[[nodiscard]] std::vector<T> listFrom(const Json& json, Read read) {
    if (!json.is_array()) {
        throw BadJson(said("a list was expected"));
    }
    std::vector<T> items;
    items.reserve(json.size());
    for (const Json& item : json) {
        items.push_back(read(item));
    }
    return items;
}

/// The member, or nothing when it is absent.
template <class T>
[[nodiscard]] std::optional<T> optionalFrom(const Json& json, const char* key) {
    const auto at = json.find(key);
    if (at == json.end()) {
        return std::nullopt;
    }
    if constexpr (std::integral<T> && !std::same_as<T, bool>) {
        return wholeFrom<T>(*at);
    } else {
        return at->get<T>();
    }
}

/// Index of a word among the words of an enumeration.
template <class Enum, std::size_t count>
[[nodiscard]] Enum enumFrom(const Json& json, const char* const (&words)[count]) {
    const auto word = json.get<std::string>();
    for (std::size_t i = 0; i < count; ++i) {
        if (word == words[i]) {
            return static_cast<Enum>(i);
        }
    }
    throw BadJson(said("the word '{}' is not known here", word));
}

}  // namespace core::project
