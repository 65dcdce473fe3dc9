#pragma once

#include <filesystem>
#include <string_view>
#include <vector>

#include "core/base/result.h"

/// Files that are written: one rule for all of them, and one way.
namespace core {

/// What happens to a file that has the name already.
enum class Existing {
    Keep,       ///< it stays, and the new one is refused
    Overwrite,  ///< it is replaced: somebody asked for that (--overwrite, a dialog's question)
};

/// When a file may be written.
struct WriteRule {
    Existing existing{Existing::Keep};
    /// Files that stay whatever was asked: the project at hand and its films.
    std::vector<std::filesystem::path> inUse{};
};

/// Whether a file may be written under this name. A free name may be taken, a file that is there
/// only be replaced when that was asked for. Never written over are a folder, a file in use, and
/// any project of ours (Store::create and restoring a copy are the ways to put one there). A link
/// is replaced, not what it leads to. Errors: InvalidInput.
Result<void> mayWrite(const std::filesystem::path& to, const WriteRule& rule = {});

/// Writes a file, whole or not at all: it is made ready elsewhere and moved to its place.
/// Errors: as mayWrite(); WriteFailed.
Result<void> writeFile(const std::filesystem::path& to, std::string_view content,
                       const WriteRule& rule = {});

/// Gives a finished file of the same disk its name; brings it to the disk before, and the name
/// after. Without Overwrite, nothing that another program puts there meanwhile is replaced either.
/// Needs no hard links. Errors: as mayWrite(); WriteFailed.
Result<void> moveToPlace(const std::filesystem::path& finished, const std::filesystem::path& to,
                         const WriteRule& rule = {});

/// Brings the content of a file to the disk. Errors: WriteFailed.
Result<void> syncToDisk(const std::filesystem::path& file);

/// Brings the names in the folder of a file to the disk, so that a file that was given a name has
/// it after a loss of power too; nothing where the file system cannot. Errors: WriteFailed.
Result<void> syncNameToDisk(const std::filesystem::path& file);

/// A new, empty folder with a name that nobody has, to make files ready in. It goes with all that
/// is left in it, and is locked until then (`flock`), so that one that a stopped program has left
/// behind can be told from one in use. Confined.
class StagingFolder {
public:
    /// Inside a folder that is there. Errors: WriteFailed.
    static Result<StagingFolder> in(const std::filesystem::path& folder);
    /// Beside a file, so that moveToPlace() can move to it. Errors: WriteFailed.
    static Result<StagingFolder> beside(const std::filesystem::path& file);
    /// Those in a folder that stopped programs have left behind; nobody else takes them meanwhile.
    static std::vector<StagingFolder> abandonedIn(const std::filesystem::path& folder);
    StagingFolder(StagingFolder&& other) noexcept;
    StagingFolder& operator=(StagingFolder&& other) = delete;
    StagingFolder(const StagingFolder&) = delete;
    StagingFolder& operator=(const StagingFolder&) = delete;
    ~StagingFolder();

    [[nodiscard]] const std::filesystem::path& path() const noexcept { return m_path; }
    /// It stays, as one that a stopped program has left behind.
    void abandon() noexcept { m_isAbandoned = true; }

private:
    StagingFolder(std::filesystem::path path, int lock) : m_path{std::move(path)}, m_lock{lock} {}
    std::filesystem::path m_path;
    int m_lock;  ///< a descriptor of the folder; -1 where there is none
    bool m_isAbandoned{};
};

/// The failure to write a file. why: as the system or a library says it; may be empty.
[[nodiscard]] Error cannotWrite(const std::filesystem::path& file, std::string_view why);

}  // namespace core
