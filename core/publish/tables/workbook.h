#pragma once

#include <filesystem>
#include <vector>

#include "core/base/result.h"
#include "core/publish/origin.h"
#include "core/report/table.h"

namespace core::publish {

/// Writes tables as a workbook (Office Open XML, ECMA-376): a sheet that says what every
/// column means, then one a table with a frozen header and a filter. Texts are strings whatever
/// they begin with. The same tables give the same bytes. Errors: WriteFailed; Unsupported for a
/// table of more than 1,048,575 rows.
Result<void> writeWorkbook(const std::filesystem::path& file,
                           const std::vector<report::Table>& tables, const Origin& origin);

}  // namespace core::publish
