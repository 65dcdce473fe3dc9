#pragma once

#include <string>
#include <string_view>

#include "core/base/result.h"

/// Texts that people enter. Private to core/project.
namespace core::project {

/// True for UTF-8 (RFC 3629) without a NUL character.
[[nodiscard]] bool isPlainText(std::string_view text);
/// Without white space at the ends.
[[nodiscard]] std::string trimmed(std::string_view text);
/// The present time in UTC to the second, ISO 8601: "2026-05-03T09:41:07Z".
[[nodiscard]] std::string presentTime();

}  // namespace core::project
