#include <algorithm>
#include <fstream>
#include <map>
#include <set>

#include "core/base/files.h"
#include "core/base/words.h"
#include "core/media/file/sha256.h"
#include "core/pack/archive.h"
#include "core/pack/manifest.h"
#include "core/pack/pack.h"
#include "core/project/store.h"

namespace core::pack {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t kLargestManifest = std::size_t{16} << 20U;

auto notAsPromised(const std::string& what) {
    return fail(ErrorCode::Damaged,
                said("The packed project is damaged: {}. Nothing was unpacked. Copy the "
                     "file again.",
                     what));
}

/// The folder to unpack into, with a folder of its own inside where everything is put together
/// first. What was made is taken away at the end unless it was moved to its place by then.
class Target {
public:
    static Result<std::unique_ptr<Target>> make(const fs::path& folder) {
        std::error_code error;
        const bool isNew = !fs::exists(folder, error);
        fs::create_directory(folder, error);
        if (error || !fs::is_directory(folder)) {
            return cannotWrite(folder, error ? error.message() : said("it is no folder"));
        }
        auto staging = StagingFolder::in(folder);
        if (!staging) {
            if (isNew) {
                fs::remove(folder, error);
            }
            return staging.error();
        }
        return std::unique_ptr<Target>{new Target{folder, isNew, std::move(staging).value()}};
    }
    ~Target() {
        std::error_code ignored;
        fs::remove_all(m_staging.path(), ignored);
        if (!m_isDone) {
            for (auto at = m_made.rbegin(); at != m_made.rend(); ++at) {
                fs::remove(*at, ignored);
            }
            if (m_isNew) {
                fs::remove(m_folder, ignored);
            }
        }
    }
    Target(const Target&) = delete;
    Target& operator=(const Target&) = delete;

    [[nodiscard]] fs::path placeOf(const std::string& path) const {
        return m_staging.path() / path;
    }

    /// Moves everything to its place; over nothing that is there, and through no link.
    Result<std::vector<fs::path>> moveOut(const Manifest& manifest) {
        std::vector<fs::path> files;
        for (const auto& file : manifest.files) {
            BOOST_OUTCOME_TRY(makeFoldersOf(file.path));
            const fs::path to = m_folder / file.path;
            if (!mayWrite(to)) {
                return fail(ErrorCode::InvalidInput,
                            said("{} exists already. Nothing was unpacked; choose another "
                                 "folder.",
                                 to.string()));
            }
            BOOST_OUTCOME_TRY(moveToPlace(placeOf(file.path), to));
            m_made.push_back(to);
            files.push_back(to);
        }
        m_isDone = true;
        return files;
    }

private:
    Target(fs::path folder, bool isNew, StagingFolder staging)
        : m_folder{std::move(folder)}, m_isNew{isNew}, m_staging{std::move(staging)} {}

    Result<void> makeFoldersOf(const std::string& path) {
        fs::path folder = m_folder;
        for (const fs::path& part : fs::path{path}.parent_path()) {
            folder /= part;
            std::error_code error;
            const auto status = fs::symlink_status(folder, error);
            if (fs::is_directory(status)) {
                continue;
            }
            if (fs::exists(status)) {
                return fail(ErrorCode::InvalidInput,
                            said("{} is there and is no folder. Nothing was unpacked; "
                                 "choose another folder.",
                                 folder.string()));
            }
            fs::create_directory(folder, error);
            if (error) {
                return cannotWrite(folder, error.message());
            }
            m_made.push_back(folder);
        }
        return ok();
    }

    fs::path m_folder;
    bool m_isNew;
    StagingFolder m_staging;
    bool m_isDone{};
    std::vector<fs::path> m_made;
};

Result<Manifest> readManifest(ArchiveReader& reader) {
    BOOST_OUTCOME_TRY(entry, reader.next());
    if (!entry || entry->path != kManifestName || !entry->isPlainFile) {
        return fail(ErrorCode::ForeignFile,
                    said("This is no packed project: it does not begin with manifest.json."));
    }
    std::string text;
    BOOST_OUTCOME_TRY(reader.read([&text](std::string_view piece) -> Result<void> {
        if (text.size() + piece.size() > kLargestManifest) {
            return fail(ErrorCode::ForeignFile,
                        said("This is no packed project: its manifest is too large."));
        }
        text += piece;
        return ok();
    }));
    return manifestFrom(text);
}

/// Writes what comes one after the other to the parts of a file. What lies between them is never
/// written: a hole, where the disk knows holes.
class PartsWriter {
public:
    PartsWriter(std::ofstream& stream, std::vector<media::ByteRange> parts)
        : m_stream{stream}, m_parts{std::move(parts)} {
        std::reverse(m_parts.begin(), m_parts.end());  // the next one is the last
    }
    void write(std::string_view piece) {
        while (!piece.empty() && !m_parts.empty()) {
            media::ByteRange& part = m_parts.back();
            const auto bytes =
                std::min(part.end - part.begin, static_cast<std::int64_t>(piece.size()));
            m_stream.seekp(part.begin);
            m_stream.write(piece.data(), bytes);
            piece.remove_prefix(static_cast<std::size_t>(bytes));
            part.begin += bytes;
            if (part.begin == part.end) {
                m_parts.pop_back();
            }
        }
    }

private:
    std::ofstream& m_stream;
    std::vector<media::ByteRange> m_parts;
};

Result<void> unpackFile(ArchiveReader& reader, const Manifest::File& promised,
                        const fs::path& place, const std::stop_token& stop,
                        const std::function<void(std::size_t)>& written) {
    std::error_code error;
    fs::create_directories(place.parent_path(), error);
    std::ofstream stream{place, std::ios::binary | std::ios::trunc};
    const bool isWhole = promised.parts.empty();
    PartsWriter writer{
        stream, isWhole ? std::vector<media::ByteRange>{{0, promised.size}} : promised.parts};
    media::Sha256 sum;
    std::int64_t size = 0;
    BOOST_OUTCOME_TRY(reader.read([&](std::string_view piece) -> Result<void> {
        if (stop.stop_requested()) {
            return fail(ErrorCode::Cancelled,
                        said("Unpacking was cancelled; nothing was unpacked."));
        }
        size += static_cast<std::int64_t>(piece.size());
        if (size > promised.size) {
            return notAsPromised(said("{} is longer than its manifest says", promised.path));
        }
        sum.add(piece);
        writer.write(piece);
        written(piece.size());
        return stream ? Result<void>{ok()} : Result<void>{cannotWrite(place, said("disk full?"))};
    }));
    stream.close();
    if (!stream) {
        return cannotWrite(place, said("the file could not be closed"));
    }
    if (!isWhole) {
        fs::resize_file(place, static_cast<std::uintmax_t>(promised.wholeSize), error);
        if (error) {
            return cannotWrite(place, error.message());
        }
    }
    if (size != promised.size) {
        return notAsPromised(said("{} is shorter than its manifest says", promised.path));
    }
    if (sum.hexadecimal() != promised.sha256) {
        return notAsPromised(said("{} does not fit its check sum", promised.path));
    }
    return ok();
}

Result<void> unpackAll(ArchiveReader& reader, const Manifest& manifest, const Target& target,
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
                        said("The packed project has a link, folder or device, \"{}\". "
                             "Nothing was unpacked.",
                             entry->path));
        }
        const auto promised = awaited.find(entry->path);
        if (promised == awaited.end()) {
            return fail(ErrorCode::InvalidInput,
                        said("The packed project has a file that its manifest does not "
                             "have, or has it twice: \"{}\". Nothing was unpacked.",
                             entry->path));
        }
        BOOST_OUTCOME_TRY(unpackFile(reader, *promised->second, target.placeOf(promised->first),
                                     stop, [&](std::size_t bytes) {
                                         done += static_cast<double>(bytes);
                                         if (progress) {
                                             progress(done / total);
                                         }
                                     }));
        awaited.erase(promised);
    }
    return awaited.empty()
               ? Result<void>{ok()}
               : Result<void>{notAsPromised(said("{} is missing", awaited.begin()->first))};
}

Result<void> checkRoom(const Manifest& manifest, const fs::path& folder) {
    std::error_code error;
    const auto space = fs::space(folder, error);
    double wanted = 0.0;
    for (const auto& file : manifest.files) {
        wanted += static_cast<double>(file.size);
    }
    if (!error && wanted > static_cast<double>(space.available)) {
        return cannotWrite(folder, said("{:.0f} MB are needed", wanted / 1e6));
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

Result<Unpacked> unpackFrom(ArchiveReader& reader, const fs::path& to, const std::stop_token& stop,
                            const PackProgress& progress) {
    BOOST_OUTCOME_TRY(manifest, readManifest(reader));
    BOOST_OUTCOME_TRY(target, Target::make(to));
    BOOST_OUTCOME_TRY(checkRoom(manifest, to));
    BOOST_OUTCOME_TRY(unpackAll(reader, manifest, *target, stop, progress));
    BOOST_OUTCOME_TRY(checkProject(target->placeOf(manifest.project)));
    BOOST_OUTCOME_TRY(files, target->moveOut(manifest));
    return Unpacked{to / manifest.project, std::move(files)};
}

}  // namespace

Result<Unpacked> unpack(const fs::path& archive, const fs::path& to, std::stop_token stop,
                        const PackProgress& progress) {
    BOOST_OUTCOME_TRY(reader, ArchiveReader::open(archive));
    return unpackFrom(*reader, to, stop, progress);
}

Result<Unpacked> unpack(std::span<const std::byte> archive, const fs::path& to,
                        std::stop_token stop, const PackProgress& progress) {
    BOOST_OUTCOME_TRY(reader, ArchiveReader::of(archive));
    return unpackFrom(*reader, to, stop, progress);
}

}  // namespace core::pack
