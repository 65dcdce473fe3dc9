#pragma once

#include <cstdint>
#include <filesystem>
#include <memory>
#include <utility>

#include "core/base/result.h"

namespace core::project {

/// Marks a file as open in this process until destroyed.
///
/// Needed because POSIX record locks belong to the process: closing any descriptor of a file drops
/// the lock SQLite holds on it, so a file that is open here must not be looked into a second time.
class OpenFileClaim {
public:
    /// Errors: NotFound; Busy when this process has the file open already.
    static Result<std::unique_ptr<OpenFileClaim>> take(const std::filesystem::path& file);
    ~OpenFileClaim();
    OpenFileClaim(const OpenFileClaim&) = delete;
    OpenFileClaim& operator=(const OpenFileClaim&) = delete;

private:
    explicit OpenFileClaim(std::pair<std::uint64_t, std::uint64_t> identity)
        : m_identity{identity} {}
    std::pair<std::uint64_t, std::uint64_t> m_identity;  ///< device and inode
};

/// Looks at the 100 bytes of the file's header, without SQLite and without writing
/// (https://www.sqlite.org/fileformat2.html, section 1.3). Returns the schema version. The claim on
/// the file must be held. Errors: Unreadable; ForeignFile; NewerVersion; Damaged.
Result<std::int64_t> checkFileHeader(const std::filesystem::path& file);

}  // namespace core::project
