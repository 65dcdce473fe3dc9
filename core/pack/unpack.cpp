#include <fcntl.h>
#include <fmt/format.h>
#include <stdlib.h>
#include <unistd.h>

#include <fstream>
#include <map>
#include <set>

#include "core/media/sha256.h"
#include "core/pack/archive.h"
#include "core/pack/manifest.h"
#include "core/pack/pack.h"
#include "core/project/store.h"

namespace core::pack {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t kLargestManifest = std::size_t{16} << 20U;

auto cannotWriteTo(const fs::path& place, const std::string& why) {
    return fail(ErrorCode::WriteFailed,
                fmt::format("{} cannot be written ({}). Check that the disk has room and that you "
                            "may write there.",
                            place.string(), why));
}

auto notAsSaid(const std::string& path, const char* what) {
    return fail(ErrorCode::Damaged,
                fmt::format("The packed project is damaged: {} {}. Nothing was unpacked. Copy the "
                            "file again.",
                            path, what));
}

/// The folder to unpack into, with a folder of its own inside where everything is put together
/// first. What was made is taken away at the end unless it was moved to its place by then.
class Staging {
public:
    static Result<std::unique_ptr<Staging>> make(const fs::path& target) {
        auto staging = std::unique_ptr<Staging>{new Staging{target}};
        std::error_code error;
        staging->m_isTargetNew = !fs::exists(target, error);
        fs::create_directory(target, error);
        if (error || !fs::is_directory(target)) {
            return cannotWriteTo(target, error ? error.message() : "it is no folder");
        }
        std::string name = (target / ".unpacking-XXXXXX").string();
        if (::mkdtemp(name.data()) == nullptr) {
            return cannotWriteTo(target, std::generic_category().message(errno));
        }
        staging->m_folder = name;
        return staging;
    }
    ~Staging() {
        std::error_code ignored;
        if (!m_folder.empty()) {
            fs::remove_all(m_folder, ignored);
        }
        if (!m_isDone) {
            for (auto at = m_made.rbegin(); at != m_made.rend(); ++at) {
                fs::remove(*at, ignored);
            }
            if (m_isTargetNew) {
                fs::remove(m_target, ignored);
            }
        }
    }
    Staging(const Staging&) = delete;
    Staging& operator=(const Staging&) = delete;

    [[nodiscard]] fs::path placeOf(const std::string& path) const { return m_folder / path; }

    /// Moves everything to its place; over nothing that is there, and through no link.
    Result<std::vector<fs::path>> moveOut(const Manifest& manifest) {
        std::vector<fs::path> files;
        for (const auto& file : manifest.files) {
            BOOST_OUTCOME_TRY(makeFoldersOf(file.path));
            const fs::path to = m_target / file.path;
            // A second name fails where the first exists, which a rename would overwrite.
            if (::linkat(AT_FDCWD, placeOf(file.path).c_str(), AT_FDCWD, to.c_str(), 0) != 0) {
                return errno == EEXIST
                           ? Result<std::vector<fs::path>>{fail(
                                 ErrorCode::InvalidInput,
                                 fmt::format("{} exists already. Nothing was unpacked; choose "
                                             "another folder.",
                                             to.string()))}
                           : Result<std::vector<fs::path>>{
                                 cannotWriteTo(to, std::generic_category().message(errno))};
            }
            m_made.push_back(to);
            files.push_back(to);
        }
        m_isDone = true;
        return files;
    }

private:
    explicit Staging(fs::path target) : m_target{std::move(target)} {}

    Result<void> makeFoldersOf(const std::string& path) {
        fs::path folder = m_target;
        for (const fs::path& part : fs::path{path}.parent_path()) {
            folder /= part;
            std::error_code error;
            const auto status = fs::symlink_status(folder, error);
            if (fs::is_directory(status)) {
                continue;
            }
            if (fs::exists(status)) {
                return fail(ErrorCode::InvalidInput,
                            fmt::format("{} is there and is no folder. Nothing was unpacked; "
                                        "choose another folder.",
                                        folder.string()));
            }
            fs::create_directory(folder, error);
            if (error) {
                return cannotWriteTo(folder, error.message());
            }
            m_made.push_back(folder);
        }
        return ok();
    }

    fs::path m_target;
    fs::path m_folder;
    bool m_isTargetNew{};
    bool m_isDone{};
    std::vector<fs::path> m_made;
};

Result<Manifest> readManifest(ArchiveReader& reader) {
    BOOST_OUTCOME_TRY(entry, reader.next());
    if (!entry || entry->path != kManifestName || !entry->isPlainFile) {
        return fail(ErrorCode::ForeignFile,
                    "This is no packed project: it does not begin with manifest.json.");
    }
    std::string text;
    BOOST_OUTCOME_TRY(reader.read([&text](std::string_view piece) -> Result<void> {
        if (text.size() + piece.size() > kLargestManifest) {
            return fail(ErrorCode::ForeignFile,
                        "This is no packed project: its manifest is too large.");
        }
        text += piece;
        return ok();
    }));
    return manifestFrom(text);
}

Result<void> unpackFile(ArchiveReader& reader, const Manifest::File& said, const fs::path& place,
                        const std::stop_token& stop,
                        const std::function<void(std::size_t)>& written) {
    std::error_code error;
    fs::create_directories(place.parent_path(), error);
    std::ofstream stream{place, std::ios::binary | std::ios::trunc};
    media::Sha256 sum;
    std::int64_t size = 0;
    BOOST_OUTCOME_TRY(reader.read([&](std::string_view piece) -> Result<void> {
        if (stop.stop_requested()) {
            return fail(ErrorCode::Cancelled, "Unpacking was cancelled; nothing was unpacked.");
        }
        size += static_cast<std::int64_t>(piece.size());
        if (size > said.size) {
            return notAsSaid(said.path, "is longer than its manifest says");
        }
        sum.add(piece);
        stream.write(piece.data(), static_cast<std::streamsize>(piece.size()));
        written(piece.size());
        return stream ? Result<void>{ok()} : Result<void>{cannotWriteTo(place, "disk full?")};
    }));
    stream.close();
    if (!stream) {
        return cannotWriteTo(place, "the file could not be closed");
    }
    if (size != said.size) {
        return notAsSaid(said.path, "is shorter than its manifest says");
    }
    if (sum.hexadecimal() != said.sha256) {
        return notAsSaid(said.path, "does not fit its check sum");
    }
    return ok();
}

Result<void> unpackAll(ArchiveReader& reader, const Manifest& manifest, const Staging& staging,
                       const std::stop_token& stop, const PackProgress& progress) {
    std::map<std::string, const Manifest::File*> awaited;
    double total = 1.0;
    for (const auto& file : manifest.files) {
        awaited.emplace(file.path, &file);
        total += static_cast<double>(file.size);
    }
    double done = 0.0;
    for (;;) {
        BOOST_OUTCOME_TRY(entry, reader.next());
        if (!entry) {
            break;
        }
        if (!entry->isPlainFile) {
            return fail(ErrorCode::InvalidInput,
                        fmt::format("The packed project has a link, folder or device, \"{}\". "
                                    "Nothing was unpacked.",
                                    entry->path));
        }
        const auto said = awaited.find(entry->path);
        if (said == awaited.end()) {
            return fail(ErrorCode::InvalidInput,
                        fmt::format("The packed project has a file that its manifest does not "
                                    "have, or has it twice: \"{}\". Nothing was unpacked.",
                                    entry->path));
        }
        BOOST_OUTCOME_TRY(unpackFile(reader, *said->second, staging.placeOf(said->first), stop,
                                     [&](std::size_t bytes) {
                                         done += static_cast<double>(bytes);
                                         if (progress) {
                                             progress(done / total);
                                         }
                                     }));
        awaited.erase(said);
    }
    return awaited.empty() ? Result<void>{ok()}
                           : Result<void>{notAsSaid(awaited.begin()->first, "is missing")};
}

Result<void> checkRoom(const Manifest& manifest, const fs::path& folder) {
    std::error_code error;
    const auto space = fs::space(folder, error);
    double wanted = 0.0;
    for (const auto& file : manifest.files) {
        wanted += static_cast<double>(file.size);
    }
    if (!error && wanted > static_cast<double>(space.available)) {
        return cannotWriteTo(folder, fmt::format("{:.0f} MB are needed", wanted / 1e6));
    }
    return ok();
}

Result<void> checkProject(const fs::path& file) {
    const auto store = project::Store::openReadOnly(file);
    if (!store && store.error().code != ErrorCode::Unsupported) {  // an older format is whole
        return store.error();
    }
    return ok();
}

}  // namespace

Result<Unpacked> unpack(const fs::path& archive, const fs::path& to, std::stop_token stop,
                        const PackProgress& progress) {
    BOOST_OUTCOME_TRY(reader, ArchiveReader::open(archive));
    BOOST_OUTCOME_TRY(manifest, readManifest(*reader));
    BOOST_OUTCOME_TRY(staging, Staging::make(to));
    BOOST_OUTCOME_TRY(checkRoom(manifest, to));
    BOOST_OUTCOME_TRY(unpackAll(*reader, manifest, *staging, stop, progress));
    BOOST_OUTCOME_TRY(checkProject(staging->placeOf(manifest.project)));
    BOOST_OUTCOME_TRY(files, staging->moveOut(manifest));
    return Unpacked{to / manifest.project, std::move(files)};
}

}  // namespace core::pack
