#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace core::project {

/// "TMRK" in ASCII, big-endian, in the application id of the file (FORMAT.md R02).
inline constexpr std::int64_t kApplicationId = 0x544D524B;
/// The version this program writes (FORMAT.md R03).
inline constexpr std::int64_t kSchemaVersion = 5;

/// The statements that make an empty project of kSchemaVersion.
[[nodiscard]] std::string schemaSql();
/// The tables that format 2 added (FORMAT.md R23, R25).
[[nodiscard]] std::string formatTwoTablesSql();
/// The tables that format 3 added (FORMAT.md R26 to R29).
[[nodiscard]] std::string formatThreeTablesSql();
/// The table that format 4 added (FORMAT.md R32).
[[nodiscard]] std::string formatFourTablesSql();
/// Tables whose changes can be undone. Their first column is the row's id.
[[nodiscard]] const std::vector<std::string>& undoableTables();
/// Tables and triggers a project must have, sorted by name.
[[nodiscard]] const std::vector<std::string>& requiredObjects();

}  // namespace core::project
