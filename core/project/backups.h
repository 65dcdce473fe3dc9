#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>
#include <stop_token>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/project/model.h"

/// Copies of a project in a folder beside it, made while it is worked on, and the way back
/// (FORMAT.md R31). May be called on any thread, also while the project is open.
namespace core::project {

/// One copy.
struct Backup {
    std::filesystem::path file;
    std::string madeAt;  ///< ISO 8601, UTC, to the second; from the name of the file
    std::int64_t bytes{};
};

/// What is in a copy.
struct BackupPreview {
    Backup backup;
    std::size_t shots{};
    std::size_t kept{};
    std::size_t readings{};
    std::optional<HistoryEntry> lastLine;
    std::string trouble;  ///< why it cannot be looked into; empty when it can
};

/// "p backups" beside p.turnmark.
[[nodiscard]] std::filesystem::path backupFolder(const std::filesystem::path& project);
/// Newest first; other files in the folder are left out.
[[nodiscard]] std::vector<Backup> backupsOf(const std::filesystem::path& project);

/// Copies the project as it is now when something was changed since the newest copy, and lets old
/// copies go: the newest ten stay, and of each of the last 14 days with a copy its newest. Whoever
/// writes to the project meanwhile waits for a few pages at most. The copy is checked, and there
/// complete or not at all; what a stopped program has left of its own is taken away. Gives back the
/// copy, or nothing when none was needed.
/// Errors: those of opening a file; WriteFailed; Damaged; Cancelled.
Result<std::optional<Backup>> makeBackup(const std::filesystem::path& project,
                                         std::stop_token stop = {});

/// A copy of the project as it is at one moment, also while it is open; checked, and there complete
/// or not at all. A file of the name is replaced. Errors: as makeBackup().
Result<void> copyProject(const std::filesystem::path& project, const std::filesystem::path& to,
                         std::stop_token stop = {});

/// Those that are let go when these copies are there, whatever their order.
[[nodiscard]] std::vector<Backup> backupsToLetGo(std::vector<Backup> backups);

/// Reads the whole copy; tenths of a second for a large project.
[[nodiscard]] BackupPreview previewOf(const Backup& backup);

/// Puts a copy in the place of the project. The file that is there, sound or not, is kept beside it
/// under the name given back, which is empty when there was none.
/// Errors: Busy while somebody has the project open; what is wrong with the copy; WriteFailed.
/// After an error the project is as it was.
Result<std::filesystem::path> restoreBackup(const std::filesystem::path& project,
                                            const std::filesystem::path& backup);

}  // namespace core::project
