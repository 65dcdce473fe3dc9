#pragma once

#include <cstdint>

namespace core::project {

/// "TMRK" in ASCII, big-endian, in the application id of the file (FORMAT.md R02).
inline constexpr std::int64_t kApplicationId = 0x544D524B;
/// The version this program writes (FORMAT.md R03).
inline constexpr std::int64_t kSchemaVersion = 7;

}  // namespace core::project
