#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <functional>
#include <span>
#include <stop_token>
#include <string>
#include <vector>

#include "core/base/files.h"

/// A project and its footage as one file to carry away, and the way back.
///
/// The file is a tar archive in the pax format (POSIX.1-2001), not compressed. Its first entry is
/// manifest.json: "format" ("turnmark pack"), "version", "project" (path of the project file) and
/// "files", each with "path", "size" and "sha256"; the files follow (core/project/FORMAT.md R36).
namespace core::pack {

/// Which clips go along.
enum class Footage {
    OfKeptShots,  ///< clips with a kept shot, whole
    All,
    /// Of clips with a shot that is kept or to be read, the bytes that these shots need. Unpacked,
    /// a film has its whole size again with zeros for what was left out (a hole on disks that know
    /// holes), so that every frame that is there keeps its number, its time and its pixels; a frame
    /// that is not is refused by name. A film of which nothing can be left out goes along whole,
    /// which is said.
    StretchesOfShots,
    None,  ///< the pictures kept in the project stand in for the films
};

struct Packed {
    std::int64_t bytes{};
    std::vector<std::string> clips;    ///< as the project names them
    std::vector<std::string> remarks;  ///< what is not in it, and why; one sentence each
};

/// Share done, 0 to 1.
using PackProgress = std::function<void(double share)>;

/// Packs the project as it is now; it may be open. Nothing in the project is changed: a clip keeps
/// its place in the project's folder, or lies under clips/ when it was elsewhere, where its content
/// finds it again. A clip that is gone, or has another content than was added, is left out and
/// said. A name that could not be unpacked everywhere (with '\\', differing from another only in
/// case, …) becomes clips/ and a number. Errors: those of mayWrite() for `to` and of copying the
/// project; WriteFailed; Cancelled. After an error there is no file.
Result<Packed> pack(const std::filesystem::path& project, const std::filesystem::path& to,
                    Footage footage, std::stop_token stop = {}, const PackProgress& progress = {},
                    Existing existing = Existing::Keep);

struct Unpacked {
    std::filesystem::path project;  ///< where it is now
    std::vector<std::filesystem::path> files;
};

/// Unpacks into a folder, which is made when it is not there. Refused are: names that lead out of
/// the folder or into a link in it, names twice, anything but plain files, anything that is not in
/// the manifest or of another size or sum than it says, and what would be written over a file that
/// is there. Errors: NotFound; ForeignFile; Damaged; InvalidInput; WriteFailed; Cancelled. After
/// an error the folder is as it was.
Result<Unpacked> unpack(const std::filesystem::path& archive, const std::filesystem::path& to,
                        std::stop_token stop = {}, const PackProgress& progress = {});
/// The same of a packed project in the memory that is trusted; it may be compressed by xz.
Result<Unpacked> unpack(std::span<const std::byte> archive, const std::filesystem::path& to,
                        std::stop_token stop = {}, const PackProgress& progress = {});

}  // namespace core::pack
