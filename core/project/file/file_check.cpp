#include "core/project/file/file_check.h"

#include <sys/stat.h>

#include <algorithm>
#include <array>
#include <fstream>
#include <mutex>
#include <set>
#include <span>
#include <string_view>
#include <vector>

#include "core/base/words.h"
#include "core/project/file/schema.h"

namespace core::project {
namespace {

constexpr std::size_t kHeaderBytes = 100;
constexpr std::string_view kMagic{"SQLite format 3\0", 16};
std::mutex& claimsMutex() {
    static std::mutex mutex;
    return mutex;
}
std::set<std::pair<std::uint64_t, std::uint64_t>>& claims() {
    static std::set<std::pair<std::uint64_t, std::uint64_t>> open;
    return open;
}

std::uint32_t bigEndian(std::span<const unsigned char> bytes, std::size_t at, std::size_t count) {
    std::uint32_t number = 0;
    for (std::size_t i = 0; i < count; ++i) {
        number = number << 8U | bytes[at + i];
    }
    return number;
}

/// The first bytes of a file; fewer when it is shorter, none when it cannot be read.
std::vector<unsigned char> firstBytes(const std::filesystem::path& file, std::size_t count) {
    std::ifstream stream{file, std::ios::binary};
    std::string bytes(count, '\0');
    stream.read(bytes.data(), static_cast<std::streamsize>(count));
    return {bytes.begin(), bytes.begin() + stream.gcount()};
}

Result<void> checkKind(const std::filesystem::path& file, std::span<const unsigned char> header) {
    const std::string name = file.string();
    if (header.empty()) {
        return fail(ErrorCode::ForeignFile,
                    said("{} is empty and no project. Choose another file, or delete it and "
                         "create the project anew.",
                         name));
    }
    const std::string_view start{reinterpret_cast<const char*>(header.data()),
                                 std::min(header.size(), kMagic.size())};
    if (start != kMagic) {
        return fail(ErrorCode::ForeignFile,
                    said("{} is not a Turnmark project. Choose a file that ends in "
                         ".turnmark and was written by Turnmark.",
                         name));
    }
    if (header.size() < kHeaderBytes) {
        return fail(ErrorCode::Damaged,
                    said("{} is damaged: it ends after {} bytes. Restore a copy of the "
                         "file.",
                         name, header.size()));
    }
    if (bigEndian(header, 68, 4) != kApplicationId) {
        return fail(ErrorCode::ForeignFile,
                    said("{} is a database of another program and no Turnmark project. "
                         "Choose another file.",
                         name));
    }
    return ok();
}

/// Whether a journal names a super-journal, which SQLite has for a change of several databases at
/// once (https://www.sqlite.org/fileformat2.html, section 3): its last bytes are these. No project
/// has one, and SQLite deletes the file that is named, whatever it is.
bool hasSuperJournal(const std::filesystem::path& journal) {
    constexpr std::array<unsigned char, 8> kSuperJournalEnd{0xd9, 0xd5, 0x05, 0xf9,
                                                            0x20, 0xa1, 0x63, 0xd7};
    std::ifstream stream{journal, std::ios::binary};
    stream.seekg(-static_cast<std::streamoff>(kSuperJournalEnd.size()), std::ios::end);
    std::array<char, kSuperJournalEnd.size()> last{};
    stream.read(last.data(), last.size());
    return stream.good() &&
           std::equal(kSuperJournalEnd.begin(), kSuperJournalEnd.end(), last.begin(),
                      [](unsigned char a, char b) { return a == static_cast<unsigned char>(b); });
}

/// SQLite would open whatever lies there and wait for it for ever when it is a pipe.
Result<void> checkCompanions(const std::filesystem::path& file) {
    std::error_code unknown;
    const std::filesystem::path real = std::filesystem::canonical(file, unknown);
    for (const char* end : {"-journal", "-wal", "-shm"}) {
        std::filesystem::path companion = unknown ? file : real;
        companion += end;
        std::error_code error;
        const auto status = std::filesystem::status(companion, error);
        if (std::filesystem::exists(status) && !std::filesystem::is_regular_file(status)) {
            return fail(ErrorCode::Unreadable,
                        said("{} is no file, and lies where the journal of the project "
                             "belongs. Remove it, and open the project again.",
                             companion.string()));
        }
        if (end == std::string_view{"-journal"} && hasSuperJournal(companion)) {
            return fail(ErrorCode::ForeignFile,
                        said("{} was not written by Turnmark: it would have another file deleted. "
                             "Remove it, and open the project again.",
                             companion.string()));
        }
    }
    return ok();
}

}  // namespace

Result<std::unique_ptr<OpenFileClaim>> OpenFileClaim::take(const std::filesystem::path& file) {
    struct stat facts {};
    if (::stat(file.c_str(), &facts) != 0) {
        return fail(ErrorCode::NotFound,
                    said("There is no file {}. Check the name and the folder.", file.string()));
    }
    const std::pair<std::uint64_t, std::uint64_t> identity{facts.st_dev, facts.st_ino};
    const std::lock_guard lock{claimsMutex()};
    if (!claims().insert(identity).second) {
        return fail(ErrorCode::Busy,
                    said("{} is open in this program already. Go on there, or close it "
                         "first.",
                         file.string()));
    }
    return std::unique_ptr<OpenFileClaim>{new OpenFileClaim{identity}};
}

OpenFileClaim::~OpenFileClaim() {
    const std::lock_guard lock{claimsMutex()};
    claims().erase(m_identity);
}

Result<std::int64_t> checkFileHeader(const std::filesystem::path& file) {
    std::error_code error;
    if (!std::filesystem::is_regular_file(file, error)) {
        return fail(ErrorCode::Unreadable,
                    said("{} is not a file. Choose a project file.", file.string()));
    }
    if (std::filesystem::file_size(file, error) > 0 && firstBytes(file, 1).empty()) {
        return fail(ErrorCode::Unreadable,
                    said("{} cannot be read. Check that you may read it.", file.string()));
    }
    const std::vector<unsigned char> header = firstBytes(file, kHeaderBytes);
    BOOST_OUTCOME_TRY(checkKind(file, header));
    BOOST_OUTCOME_TRY(checkCompanions(file));
    const auto version = static_cast<std::int64_t>(bigEndian(header, 60, 4));
    if (version > kSchemaVersion) {
        return fail(ErrorCode::NewerVersion,
                    said("{} was written by a newer version of the program (format {}; this "
                         "program knows up to {}). Nothing was changed. Install the newer "
                         "version to open it.",
                         file.string(), version, kSchemaVersion));
    }
    if (version < 1) {
        return fail(ErrorCode::Damaged,
                    said("{} is damaged: it has no format version. Restore a copy of the "
                         "file.",
                         file.string()));
    }
    if (header[18] != 1 || header[19] != 1) {  // 1: rollback journal, 2: write-ahead log
        return fail(ErrorCode::Damaged,
                    said("{} was switched to another kind of journal by another program. "
                         "Switch it back there (PRAGMA journal_mode=DELETE) or restore a "
                         "copy.",
                         file.string()));
    }
    return version;
}

}  // namespace core::project
