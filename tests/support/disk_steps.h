#pragma once

#include <cstdint>
#include <filesystem>
#include <map>
#include <string>
#include <vector>

/// What a program asks of a disk, and what may be left of it after a loss of power.
///
/// A program that links this has the system calls for files passed through the recorder (symbols
/// of the program come before those of the libraries), so that it sees what SQLite, the standard
/// library and the code itself do, in one order.
namespace tests {

struct DiskStep {
    enum class Kind { Create, MakeFolder, Write, Resize, Sync, SyncFolder, Rename, Link, Remove };
    Kind kind{};
    std::string name;      ///< from the recorded folder, parts separated by '/'
    std::string newName;   ///< of a rename or link
    std::uint64_t file{};  ///< which file, whatever its name
    std::int64_t at{};     ///< of a write its offset, of a change of length the length, in bytes
    std::string bytes;
};

/// A folder as it is: files by the names that lead to them, and their content.
struct DiskState {
    std::map<std::string, std::uint64_t> names;  ///< folders are 0
    std::map<std::uint64_t, std::string> contents;

    friend bool operator==(const DiskState&, const DiskState&) = default;
};

/// Notes what this program does in a folder, from being made to being destroyed. One at a time.
/// Not seen: files that are mapped into memory.
class DiskRecorder {
public:
    explicit DiskRecorder(std::filesystem::path folder);
    ~DiskRecorder();
    DiskRecorder(const DiskRecorder&) = delete;
    DiskRecorder& operator=(const DiskRecorder&) = delete;

    [[nodiscard]] const std::vector<DiskStep>& steps() const { return m_steps; }
    [[nodiscard]] const DiskState& atStart() const { return m_atStart; }
    /// The folder read again, for comparison with what the steps lead to.
    [[nodiscard]] DiskState present();

    /// Kills this program (SIGKILL) right after so many steps.
    void killAfter(std::size_t steps) { m_killAfter = steps; }
    /// The same right after a file is renamed to this name.
    void killAtName(std::string name) { m_killAtName = std::move(name); }

    void note(DiskStep step);
    /// The name from the folder; empty when the path leads elsewhere.
    [[nodiscard]] std::string nameOf(const std::filesystem::path& path) const;
    std::uint64_t fileOf(std::uint64_t inode);
    void forget(std::uint64_t inode) { m_files.erase(inode); }

private:
    std::filesystem::path m_folder;
    std::map<std::uint64_t, std::uint64_t> m_files;  ///< by the system's number, which comes again
    std::uint64_t m_lastFile{};
    std::size_t m_killAfter{};
    std::string m_killAtName;
    DiskState m_atStart;
    std::vector<DiskStep> m_steps;
};

/// While it lives, what this program writes in a folder is refused with an error of the system
/// (ENOSPC: the disk is full; EROFS: it is write-protected; EIO: it is broken). One at a time.
class RefusingDisk {
public:
    RefusingDisk(const std::filesystem::path& folder, int error);
    ~RefusingDisk();
    RefusingDisk(const RefusingDisk&) = delete;
    RefusingDisk& operator=(const RefusingDisk&) = delete;
};

/// The state after the first `count` steps, had all of them reached the disk.
DiskState stateAfter(const DiskState& start, const std::vector<DiskStep>& steps, std::size_t count);

/// A state that a loss of power after the first `count` steps may leave. Synced content is there;
/// of what was written since, any sectors (of 512 or 4096 bytes) are, in any order; names that were
/// given, changed or taken since their folder was synced, too. A rename is done or not.
DiskState afterPowerLoss(const DiskState& start, const std::vector<DiskStep>& steps,
                         std::size_t count, std::uint64_t seed);

/// Writes a state into an empty folder.
void writeState(const DiskState& state, const std::filesystem::path& folder);

}  // namespace tests
