#pragma once

#include <filesystem>
#include <memory>
#include <optional>
#include <string>

#include "core/base/result.h"

namespace core::project {

/// Who has a project open for writing, for people to read (FORMAT.md R30).
struct Writer {
    std::string user;
    std::string host;
    std::string program;
    std::int64_t process{};
    std::string since;   ///< ISO 8601, UTC, to the second
    std::string bootId;  ///< of the machine since its last start; empty where that is not known
    bool operator==(const Writer&) const = default;
};

/// "ann on bench-pc (turnmark, process 4711) since 2026-05-03T09:41:07Z".
[[nodiscard]] std::string nameOf(const Writer& writer);

/// The right to write a project: a file beside it with the facts of the writer, locked by the
/// system as long as this object lives, and gone afterwards. Private to core/project.
///
/// The system lets go of the lock when the process ends, however it ends, so a file that can be
/// locked was left by a process that is gone; it is taken over. One that names another host is not:
/// a lock may not reach from one machine to another (a folder that is copied between them), so the
/// person has to say that it is left over, by deleting it.
class WriterLock {
public:
    /// Errors: Busy, with who has it and, for another host, how to clear it; WriteFailed.
    static Result<std::unique_ptr<WriterLock>> take(const std::filesystem::path& project);
    /// Who has the project open for writing now; absent when nobody has. On another machine: who
    /// said so last.
    [[nodiscard]] static std::optional<Writer> holder(const std::filesystem::path& project);
    ~WriterLock();
    WriterLock(const WriterLock&) = delete;
    WriterLock& operator=(const WriterLock&) = delete;

    /// "p.turnmark.open" beside the file itself, also when the project is named by a symbolic link.
    [[nodiscard]] static std::filesystem::path fileFor(const std::filesystem::path& project);

private:
    WriterLock(std::filesystem::path file, int descriptor)
        : m_file{std::move(file)}, m_descriptor{descriptor} {}
    std::filesystem::path m_file;
    int m_descriptor;
};

}  // namespace core::project
