#pragma once

#include <string>

#include "core/doubts/doubt.h"
#include "core/project/snapshot.h"

/// Doubts that somebody has looked at and let stand.
namespace core::doubts {

/// Whether all reasons stand among those that somebody has looked at: for a shot in its second look
/// (FORMAT.md R29), for a cell in a setting (R10), which no longer holds once a shot of the cell is
/// kept, let go or read anew.
[[nodiscard]] bool wasLookedAt(const project::Snapshot& snapshot, const Doubted& doubted);

/// The setting of a cell, and its value after somebody has looked at these doubts too.
[[nodiscard]] std::string cellLookKey(project::CellId cell);
[[nodiscard]] std::string cellLookValue(const project::Snapshot& snapshot, project::CellId cell,
                                        const Doubted& doubted);

}  // namespace core::doubts
