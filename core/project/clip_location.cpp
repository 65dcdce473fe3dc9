#include "core/project/clip_location.h"

#include <algorithm>
#include <vector>

#include "core/base/words.h"

namespace core::project {
namespace {

namespace fs = std::filesystem;

fs::path folderOf(const fs::path& projectFile) {
    return fs::absolute(projectFile).parent_path();
}

bool hasSize(const fs::path& file, std::int64_t bytes) {
    std::error_code error;
    return fs::is_regular_file(file, error) &&
           fs::file_size(file, error) == static_cast<std::uintmax_t>(bytes) && !error;
}

/// Files of the size under a folder, sorted. Folders that cannot be read are passed over.
std::vector<fs::path> filesOfSize(const fs::path& folder, std::int64_t bytes) {
    std::vector<fs::path> files;
    std::error_code error;
    fs::recursive_directory_iterator at{folder, fs::directory_options::skip_permission_denied,
                                        error};
    for (const fs::recursive_directory_iterator end; !error && at != end; at.increment(error)) {
        // A project file is never looked into: closing it again would drop the lock on it.
        if (at->path().extension() != ".turnmark" && hasSize(at->path(), bytes)) {
            files.push_back(at->path());
        }
    }
    std::sort(files.begin(), files.end());
    return files;
}

}  // namespace

Result<ClipLocation> locateClip(const fs::path& projectFile, const Clip& clip,
                                const Fingerprint& fingerprint) {
    const fs::path folder = folderOf(projectFile);
    const fs::path expected = (folder / clip.path).lexically_normal();
    if (hasSize(expected, clip.sizeBytes)) {
        return ClipLocation{expected, false};
    }
    for (const fs::path& file : filesOfSize(folder, clip.sizeBytes)) {
        const Result<std::string> found = fingerprint(file);
        if (found && found.value() == clip.fingerprint) {
            return ClipLocation{file, true};
        }
    }
    return fail(ErrorCode::NotFound,
                said("The clip {} is not at {}, and no file of the same content lies under "
                     "{}. Put it back, or show where it is.",
                     fs::path{clip.path}.filename().string(), expected.string(), folder.string()));
}

std::vector<fs::path> filesInUse(const fs::path& projectFile, const Snapshot& snapshot) {
    std::vector<fs::path> files{projectFile};
    for (const Clip& clip : snapshot.clips) {
        files.push_back(folderOf(projectFile) / clip.path);
    }
    return files;
}

std::string pathToKeep(const fs::path& projectFile, const fs::path& clipFile) {
    std::error_code error;
    const fs::path folder = fs::weakly_canonical(folderOf(projectFile), error);
    const fs::path file = fs::weakly_canonical(fs::absolute(clipFile), error);
    const fs::path relative = file.lexically_relative(folder);
    return (relative.empty() ? file : relative).generic_string();
}

}  // namespace core::project
