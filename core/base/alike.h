#pragma once

#include <string>
#include <string_view>

namespace core {

/// The same text for names that differ only in the case of their letters and in spaces: "Set 3",
/// "set  3" and "SET3 " give one. Letters and spaces are those of Unicode, whatever the locale. For
/// comparing, not for people. The name is UTF-8.
[[nodiscard]] std::string alikeKey(std::string_view name);

}  // namespace core
