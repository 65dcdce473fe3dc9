#pragma once

#include <string>
#include <string_view>

namespace core {

/// The version of the program, for example "0.6.0"; decided in CMakeLists.txt.
[[nodiscard]] std::string_view version() noexcept;

/// Name and version as files carry them, for example "Turnmark 0.6.0".
[[nodiscard]] std::string programName();

}  // namespace core
