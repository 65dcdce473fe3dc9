#pragma once

#include <string>
#include <string_view>

namespace core::publish {

/// SHA-256 (FIPS 180-4) of bytes, in lower-case hexadecimal.
[[nodiscard]] std::string sha256(std::string_view bytes);

}  // namespace core::publish
