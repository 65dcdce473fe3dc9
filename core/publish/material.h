#pragma once

#include <filesystem>
#include <map>
#include <memory>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/project/store.h"
#include "core/publish/origin.h"

namespace core::publish {

/// What a publication is made from, taken from the store on its thread. Immutable value: the work
/// itself needs the store no more.
struct Material {
    project::SnapshotPtr snapshot;
    std::filesystem::path projectFile;
    Origin origin;
    std::vector<project::HistoryEntry> history;
    /// Time stamps of the clips that pictures are cut from.
    std::map<project::ClipId, std::shared_ptr<const project::ClipFrames>> frames;
};

enum class Films { None, OneAShot };

/// Errors: those of the store and of report::summarise().
Result<Material> gather(const project::Store& store, Films films);

/// The shot of an implement whose counting reading is the median of its kept shots: of an even
/// number the lower one of the two in the middle. Null without kept shots.
[[nodiscard]] const project::Shot* medianShot(const project::Snapshot& snapshot,
                                              project::ImplementId implement);

}  // namespace core::publish
