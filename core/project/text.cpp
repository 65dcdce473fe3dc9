#include "core/project/text.h"

#include <fmt/chrono.h>

#include <chrono>

#include "core/project/json_parts.h"

namespace core::project {

bool isPlainText(std::string_view text) {
    if (text.find('\0') != std::string_view::npos) {
        return false;
    }
    try {
        (void)Json(text).dump();  // refuses what is not UTF-8
        return true;
    } catch (const Json::exception&) {
        return false;
    }
}

std::string trimmed(std::string_view text) {
    constexpr std::string_view kWhite = " \t\r\n\v\f";
    const auto first = text.find_first_not_of(kWhite);
    if (first == std::string_view::npos) {
        return {};
    }
    return std::string{text.substr(first, text.find_last_not_of(kWhite) - first + 1)};
}

std::string presentTime() {
    const auto now = std::chrono::system_clock::to_time_t(std::chrono::system_clock::now());
    return fmt::format("{:%Y-%m-%dT%H:%M:%SZ}", fmt::gmtime(now));
}

}  // namespace core::project
