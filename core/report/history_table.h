#pragma once

#include <string>
#include <vector>

#include "core/project/store.h"
#include "core/report/table.h"

namespace core::report {

/// One row a line of the history, oldest first: who did what when, and to which shot where a line
/// is about exactly one that is still there.
[[nodiscard]] Table historyTable(const std::vector<project::HistoryEntry>& lines,
                                 const project::Snapshot& snapshot);

/// The shot of a name as the history writes it, "shot 3 of clip b.mp4".
/// Errors: NotFound; InvalidInput when clips in two folders have the name.
Result<project::ShotId> shotNamed(const project::Snapshot& snapshot, const std::string& name);

}  // namespace core::report
