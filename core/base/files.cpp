#include "core/base/files.h"

#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>
#include <cstdio>   // renameat2 is the GNU C library's
#include <cstdlib>  // mkdtemp is POSIX

#include <algorithm>
#include <array>
#include <cerrno>
#include <fstream>
#include <system_error>
#include <utility>

#include "core/base/words.h"

namespace core {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view kStagingStem = ".turnmark-part-";
constexpr int kTries = 100;

struct FolderLock {
    int descriptor{-1};
    bool isLocked{};         ///< false also where a file system knows no locks
    bool isHeldElsewhere{};  ///< by another program, or elsewhere in this one
};

/// A folder of our own, no link to one.
FolderLock lockFolder(const fs::path& folder) {
    FolderLock lock;
    lock.descriptor = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC);
    if (lock.descriptor >= 0) {
        lock.isLocked = ::flock(lock.descriptor, LOCK_EX | LOCK_NB) == 0;
        lock.isHeldElsewhere = !lock.isLocked && errno == EWOULDBLOCK;
    }
    return lock;
}

bool isFolder(const fs::path& path) {
    std::error_code problem;
    return fs::is_directory(fs::symlink_status(path, problem));
}

void closeIfOpen(int descriptor) {
    if (descriptor >= 0) {
        ::close(descriptor);
    }
}

std::string sayErrno() {
    return std::generic_category().message(errno);
}

/// A Turnmark project: an SQLite 3 database whose application id, at byte 68, is "TMRK"
/// (core/project/FORMAT.md R02; https://www.sqlite.org/fileformat2.html, database header).
bool isProject(const fs::path& file) {
    constexpr std::string_view kMagic{"SQLite format 3\0", 16};
    std::array<char, 72> bytes{};
    std::ifstream stream{file, std::ios::binary};
    stream.read(bytes.data(), bytes.size());
    const std::string_view header{bytes.data(), bytes.size()};
    return stream && header.starts_with(kMagic) && header.ends_with("TMRK");
}

/// Takes a name with an empty file. Errors: as mayWrite().
Result<void> claimName(const fs::path& to) {
    const int descriptor = ::open(to.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
    if (descriptor < 0) {
        BOOST_OUTCOME_TRY(mayWrite(to));
        return cannotWrite(to, sayErrno());
    }
    ::close(descriptor);
    return ok();
}

Result<void> moveOver(const fs::path& finished, const fs::path& to) {
    std::error_code problem;
    fs::rename(finished, to, problem);
    return problem ? Result<void>{cannotWrite(to, problem.message())} : Result<void>{ok()};
}

Result<void> moveToFreeName(const fs::path& finished, const fs::path& to) {
    if (::renameat2(AT_FDCWD, finished.c_str(), AT_FDCWD, to.c_str(), RENAME_NOREPLACE) == 0) {
        return ok();
    }
    const int why = errno;
    if (why != EINVAL && why != ENOSYS) {
        BOOST_OUTCOME_TRY(mayWrite(to));
        return cannotWrite(to, std::generic_category().message(why));
    }
    BOOST_OUTCOME_TRY(claimName(to));  // a file system that cannot do it in one
    Result<void> moved = moveOver(finished, to);
    if (!moved) {
        std::error_code ignored;
        fs::remove(to, ignored);
    }
    return moved;
}

}  // namespace

Error cannotWrite(const fs::path& file, std::string_view why) {
    return {
        ErrorCode::WriteFailed,
        why.empty()
            ? said("{} cannot be written. Check that the folder exists, that you may write to "
                   "it, and that the disk has room.",
                   file.string())
            : said("{} cannot be written ({}). Check that the folder exists, that you may write "
                   "to it, and that the disk has room.",
                   file.string(), why)};
}

Result<void> mayWrite(const fs::path& to, const WriteRule& rule) {
    std::error_code problem;
    const auto there = fs::symlink_status(to, problem);
    if (!fs::exists(there)) {
        return ok();
    }
    // Before anything is opened: closing a file again drops the locks that SQLite has on it.
    const bool isInUse =
        std::any_of(rule.inUse.begin(), rule.inUse.end(),
                    [&](const fs::path& used) { return fs::equivalent(to, used, problem); });
    if (isInUse) {
        return fail(ErrorCode::InvalidInput, said("{} is the open project or one of its clips, and "
                                                  "is never overwritten. Choose another name.",
                                                  to.string()));
    }
    if (fs::is_directory(to, problem)) {
        return fail(ErrorCode::InvalidInput,
                    said("{} is a folder where a file is to be written. Choose another name.",
                         to.string()));
    }
    if (rule.existing == Existing::Keep) {
        return fail(ErrorCode::InvalidInput,
                    said("{} exists already and is left alone. Choose another name or folder, or "
                         "move it away; --overwrite of the command line replaces it.",
                         to.string()));
    }
    if (fs::is_regular_file(to, problem) && isProject(to)) {
        return fail(ErrorCode::InvalidInput,
                    said("{} is a Turnmark project and is never overwritten. Choose another name.",
                         to.string()));
    }
    return ok();
}

Result<void> syncToDisk(const fs::path& file) {
    const int descriptor = ::open(file.c_str(), O_RDONLY | O_CLOEXEC);
    const bool isSynced = descriptor >= 0 && ::fsync(descriptor) == 0;
    const std::string why = isSynced ? std::string{} : sayErrno();
    closeIfOpen(descriptor);
    return isSynced ? Result<void>{ok()} : Result<void>{cannotWrite(file, why)};
}

Result<void> syncNameToDisk(const fs::path& file) {
    const fs::path folder = file.has_parent_path() ? file.parent_path() : fs::path{"."};
    const int descriptor = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    // A folder that one may write to and not read, and a file system without this, are no failure.
    const bool isSynced = descriptor < 0 || ::fsync(descriptor) == 0 || errno == EINVAL;
    const std::string why = isSynced ? std::string{} : sayErrno();
    closeIfOpen(descriptor);
    return isSynced ? Result<void>{ok()} : Result<void>{cannotWrite(file, why)};
}

Result<void> moveToPlace(const fs::path& finished, const fs::path& to, const WriteRule& rule) {
    BOOST_OUTCOME_TRY(mayWrite(to, rule));
    BOOST_OUTCOME_TRY(syncToDisk(finished));
    BOOST_OUTCOME_TRY(rule.existing == Existing::Keep ? moveToFreeName(finished, to)
                                                      : moveOver(finished, to));
    return syncNameToDisk(to);
}

Result<void> writeFile(const fs::path& to, std::string_view content, const WriteRule& rule) {
    BOOST_OUTCOME_TRY(mayWrite(to, rule));
    BOOST_OUTCOME_TRY(staging, StagingFolder::beside(to));
    const fs::path ready = staging.path() / "file";
    std::ofstream stream{ready, std::ios::binary};
    stream.write(content.data(), static_cast<std::streamsize>(content.size()));
    stream.close();
    if (!stream) {
        return cannotWrite(to, {});
    }
    return moveToPlace(ready, to, rule);
}

Result<StagingFolder> StagingFolder::in(const fs::path& folder) {
    for (int tried = 0; tried < kTries; ++tried) {
        std::string name = (folder / (std::string{kStagingStem} + "XXXXXX")).string();
        if (::mkdtemp(name.data()) == nullptr) {
            return cannotWrite(folder, sayErrno());
        }
        // Somebody who tidies up may have come between.
        const FolderLock lock = lockFolder(name);
        if (!lock.isHeldElsewhere && isFolder(name)) {
            return StagingFolder{name, lock.descriptor};
        }
        closeIfOpen(lock.descriptor);
    }
    return cannotWrite(folder, {});
}

Result<StagingFolder> StagingFolder::beside(const fs::path& file) {
    const fs::path folder = file.parent_path();
    return in(folder.empty() ? fs::path{"."} : folder);
}

std::vector<StagingFolder> StagingFolder::abandonedIn(const fs::path& folder) {
    std::vector<fs::path> named;
    std::error_code problem;
    for (fs::directory_iterator at{folder, problem}, end; !problem && at != end;
         at.increment(problem)) {
        const std::string name = at->path().filename().string();
        if (name.size() == kStagingStem.size() + 6 && name.starts_with(kStagingStem)) {
            named.push_back(at->path());
        }
    }
    std::vector<StagingFolder> abandoned;
    for (const fs::path& path : named) {
        const FolderLock lock = lockFolder(path);
        if (lock.isLocked) {
            abandoned.push_back(StagingFolder{path, lock.descriptor});
        } else {
            closeIfOpen(lock.descriptor);
        }
    }
    return abandoned;
}

StagingFolder::StagingFolder(StagingFolder&& other) noexcept
    : m_path{std::move(other.m_path)},
      m_lock{std::exchange(other.m_lock, -1)},
      m_isAbandoned{other.m_isAbandoned} {
    other.m_path.clear();
}

StagingFolder::~StagingFolder() {
    if (!m_path.empty() && !m_isAbandoned) {
        std::error_code ignored;
        fs::remove_all(m_path, ignored);
    }
    closeIfOpen(m_lock);
}

}  // namespace core
