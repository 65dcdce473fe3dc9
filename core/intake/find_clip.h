#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "core/project/store.h"

namespace core::intake {

/// The file of a clip. One that has moved within the project's folder is found by its content, and
/// the new place is kept. Errors: Unsupported for a tally; those of project::locateClip
/// and project::Store::setClipPath.
Result<std::filesystem::path> findClip(project::Store& store, project::ClipId clip);

/// Paths of the clips whose file is nowhere under the project's folder.
[[nodiscard]] std::vector<std::string> missingClips(const project::Snapshot& snapshot,
                                                    const std::filesystem::path& projectFile);

/// Takes a file that a person points at for a clip that was not found. Errors: InvalidInput when
/// its content is another; those of media::fingerprint.
Result<void> pointToClip(project::Store& store, project::ClipId clip,
                         const std::filesystem::path& file);

}  // namespace core::intake
