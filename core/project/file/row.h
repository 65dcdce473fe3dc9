#pragma once

#include <cstdint>
#include <string>
#include <variant>
#include <vector>

#include "core/base/result.h"

namespace core::project {

using Blob = std::vector<std::uint8_t>;
/// One cell of a table row: NULL, INTEGER, REAL, TEXT (UTF-8) or BLOB.
using Value = std::variant<std::monostate, std::int64_t, double, std::string, Blob>;
/// One row, columns in the order of the table.
using Row = std::vector<Value>;

/// The check number of a row, as laid down in FORMAT.md R08: CRC-32 (ISO 3309) over the values.
[[nodiscard]] std::int64_t rowCheck(const Row& withoutCheck);
/// The row with its check number as last column.
[[nodiscard]] Row sealed(Row row);
/// The row without its last column. Errors: Damaged when that is not the check number of the rest.
Result<Row> unsealed(Row row);

}  // namespace core::project
