#pragma once

#include <filesystem>
#include <functional>
#include <vector>

#include "core/base/result.h"
#include "core/project/snapshot.h"

/// Finding a clip's file again.
namespace core::project {

/// The content fingerprint of a file, as core::media::fingerprint gives it.
using Fingerprint = std::function<Result<std::string>(const std::filesystem::path&)>;

/// Where a clip is now.
struct ClipLocation {
    std::filesystem::path file;
    bool isMoved{};  ///< not where the project says; tell the store by setClipPath()
};

/// The file of a clip: at its path (relative ones from the project's folder) when a file of the
/// right size lies there, else the file of equal size and then equal fingerprint anywhere under the
/// project's folder, first in alphabetical order. Symbolic links to folders are not followed.
///
/// Files at the expected path are trusted by their size, so that opening a project reads no
/// footage. Cost: one look at every file under the folder when the clip has moved, and a
/// fingerprint of those of equal size. Errors: NotFound, naming the clip and where it was looked
/// for.
Result<ClipLocation> locateClip(const std::filesystem::path& projectFile, const Clip& clip,
                                const Fingerprint& fingerprint);

/// The project and the films of its clips, where it says that they are: what stays when other files
/// are written (core::WriteRule).
[[nodiscard]] std::vector<std::filesystem::path> filesInUse(
    const std::filesystem::path& projectFile, const Snapshot& snapshot);

/// The path to keep for a clip: relative to the project's folder with '/' between its parts where
/// possible, absolute on another volume (no common root).
[[nodiscard]] std::string pathToKeep(const std::filesystem::path& projectFile,
                                     const std::filesystem::path& clipFile);

}  // namespace core::project
