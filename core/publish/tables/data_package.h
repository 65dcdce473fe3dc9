#pragma once

#include <string>
#include <vector>

#include "core/publish/origin.h"
#include "core/report/table.h"

namespace core::publish {

/// A table as it was written.
struct TableFile {
    const report::Table* table{};
    std::string name;     ///< of the file
    std::string content;  ///< CSV
};

/// datapackage.json for tables written as CSV: a tabular data package (Data Package and Table
/// Schema, specs.frictionlessdata.io, version 1): fields with types, units, descriptions and
/// missing values, keys, sizes and hashes.
[[nodiscard]] std::string dataPackageJson(const std::vector<TableFile>& files,
                                          const Origin& origin);

}  // namespace core::publish
