#pragma once

#include <filesystem>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/files.h"

namespace core::publish {

/// The list of files that this program wrote into a folder, itself one of them.
inline constexpr std::string_view kContentsFile = "contents.json";
/// A line of a text file that holds this is left out of its fingerprint: the one line that tells
/// the date of publishing.
inline constexpr std::string_view kDatedLineMark = "class=\"published-on\"";

/// SHA-256 of a file's content, its dated line left out.
[[nodiscard]] std::string contentFingerprint(std::string_view content);

struct Written {
    std::vector<std::filesystem::path> files;  ///< in alphabetical order
    /// Written into the folder earlier and no part of this time's files: they stay.
    std::vector<std::filesystem::path> leftOver;
};

/// A folder that files are written into, all of them or none. Confined.
///
/// Files are made ready in a folder of their own inside the target and moved to their places by
/// commit(); when that is never reached, nothing in the folder has changed. Before the first file
/// moves a list of them is on the disk; when the program, the machine or the disk stops commit()
/// midway, the next open() finishes it, and leaves alone what somebody has changed since. A file
/// that is in the way and known, by the fingerprint in contents.json, as written by this program
/// and untouched since, is replaced; any other is foreign, and core::mayWrite() decides. Nothing is
/// written through a symbolic link.
class OutputFolder {
public:
    /// Makes the folder where it is not there, and finishes or lets go what an earlier program was
    /// stopped in. Errors: WriteFailed; InvalidInput when it is no folder.
    static Result<OutputFolder> open(const std::filesystem::path& folder, WriteRule foreign);

    /// name: "index.html" or "figures/ranked.svg"; of our own making, never of a user's (see
    /// FileNames). Errors: InvalidInput for a foreign file in the way; WriteFailed.
    Result<void> put(const std::string& name, std::string_view content);
    /// Where a writer that needs a path may write this file; the same rules and errors as put().
    Result<std::filesystem::path> place(const std::string& name);

    /// A path outside the publication for a file that may yet fail; take() makes it one of the
    /// files, by the rules and errors of put(), and what is not taken disappears.
    [[nodiscard]] std::filesystem::path scratch(const std::string& fileName) const;
    Result<void> take(const std::string& name, const std::filesystem::path& scratchFile);

    /// Moves everything to its place, contents.json last; it is on the disk then. `writer` goes
    /// into it: program and project. Errors: WriteFailed.
    Result<Written> commit(const std::string& writer);

private:
    OutputFolder(std::filesystem::path folder, StagingFolder staging, WriteRule foreign);
    [[nodiscard]] Result<void> checkNotForeign(const std::string& name) const;
    void readContents();
    [[nodiscard]] std::string contentsJson(const std::string& writer,
                                           const std::map<std::string, std::string>& all) const;

    std::filesystem::path m_folder;
    StagingFolder m_staging;
    WriteRule m_foreign;
    std::map<std::string, std::string> m_known;  ///< name to fingerprint, from contents.json
    std::vector<std::string> m_names;            ///< of this time's files
};

}  // namespace core::publish
