#pragma once

#include <filesystem>

#include "core/base/result.h"
#include "core/project/snapshot.h"
#include "core/publish/output_folder.h"

namespace core::publish {

/// Writes shots.csv, shots.json, summary.csv (cells), implements.csv and summary.json (both) into a
/// folder, all of them or none; see OutputFolder for what happens to files that are there already.
/// Errors: those of OutputFolder and of report::summarise().
Result<Written> exportProject(const project::Snapshot& snapshot,
                              const std::filesystem::path& folder, WriteRule foreign);

}  // namespace core::publish
