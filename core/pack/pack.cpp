#include "core/pack/pack.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <fstream>
#include <set>

#include "core/media/clip_index.h"
#include "core/media/sha256.h"
#include "core/pack/archive.h"
#include "core/pack/manifest.h"
#include "core/project/backups.h"
#include "core/project/clip_location.h"
#include "core/project/store.h"

namespace core::pack {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t kReadBytes = std::size_t{1} << 20U;

/// A file that goes into the pack.
struct Source {
    fs::path file;
    Manifest::File entry;
};

/// Hands the content of a file to the sink, piece by piece. Errors: Unreadable; Cancelled.
Result<void> forEachPiece(const fs::path& file, const std::stop_token& stop,
                          const std::function<Result<void>(std::string_view)>& sink) {
    std::ifstream stream{file, std::ios::binary};
    std::vector<char> piece(kReadBytes);
    while (stream) {
        if (stop.stop_requested()) {
            return fail(ErrorCode::Cancelled, "Packing was cancelled; nothing was written.");
        }
        stream.read(piece.data(), static_cast<std::streamsize>(piece.size()));
        const auto got = static_cast<std::size_t>(stream.gcount());
        if (got > 0) {
            BOOST_OUTCOME_TRY(sink({piece.data(), got}));
        }
    }
    if (!stream.eof()) {
        return fail(ErrorCode::Unreadable,
                    fmt::format("{} cannot be read. Check the disk it lies on.", file.string()));
    }
    return ok();
}

Result<Source> sourceOf(const fs::path& file, const std::string& path,
                        const std::stop_token& stop) {
    media::Sha256 sum;
    std::int64_t size = 0;
    BOOST_OUTCOME_TRY(forEachPiece(file, stop, [&](std::string_view piece) -> Result<void> {
        sum.add(piece);
        size += static_cast<std::int64_t>(piece.size());
        return ok();
    }));
    return Source{file, {path, size, sum.hexadecimal()}};
}

/// The clip's own place where that lies in the project's folder, else one under clips/.
std::string pathInPack(const project::Clip& clip) {
    const fs::path own = fs::path{clip.path}.lexically_normal();
    if (own.is_relative() && own.generic_string() == clip.path && isSafePath(clip.path)) {
        return clip.path;
    }
    const std::string name = fs::path{clip.path}.filename().string();
    const std::string placed = fmt::format("clips/{} {}", clip.id.value, name);
    return isSafePath(placed) ? placed : fmt::format("clips/{}", clip.id.value);
}

bool isWanted(const project::Snapshot& snapshot, const project::Clip& clip, Footage footage) {
    if (project::isTally(clip) || footage == Footage::None) {
        return false;
    }
    return footage == Footage::All ||
           std::any_of(
               snapshot.shots.begin(), snapshot.shots.end(), [&clip](const project::Shot& shot) {
                   return shot.clip == clip.id && shot.standing == project::ShotStanding::Kept;
               });
}

/// The file of a clip, if its content is the one that was added.
Result<fs::path> filmOf(const fs::path& project, const project::Clip& clip) {
    BOOST_OUTCOME_TRY(found, project::locateClip(project, clip, media::fingerprint));
    BOOST_OUTCOME_TRY(print, media::fingerprint(found.file));
    if (print != clip.fingerprint) {
        return fail(ErrorCode::InvalidInput,
                    fmt::format("{} has another content than the clip that was added.",
                                found.file.string()));
    }
    return found.file;
}

Result<void> addFile(ArchiveWriter& writer, const Source& source, const std::stop_token& stop,
                     const std::function<void(std::size_t)>& written) {
    BOOST_OUTCOME_TRY(writer.begin(source.entry.path, source.entry.size));
    media::Sha256 sum;
    BOOST_OUTCOME_TRY(forEachPiece(source.file, stop, [&](std::string_view piece) -> Result<void> {
        sum.add(piece);
        written(piece.size());
        return writer.add(piece);
    }));
    if (sum.hexadecimal() != source.entry.sha256) {
        return fail(ErrorCode::Unreadable,
                    fmt::format("{} was changed while it was being packed. Pack again.",
                                source.file.string()));
    }
    return ok();
}

Result<void> writeArchive(const fs::path& file, const std::vector<Source>& sources,
                          const std::string& project, const std::stop_token& stop,
                          const PackProgress& progress) {
    Manifest manifest;
    manifest.project = project;
    double total = 1.0;
    for (const Source& source : sources) {
        manifest.files.push_back(source.entry);
        total += static_cast<double>(source.entry.size);
    }
    const std::string text = toJson(manifest);
    BOOST_OUTCOME_TRY(writer, ArchiveWriter::create(file));
    BOOST_OUTCOME_TRY(
        writer->begin(std::string{kManifestName}, static_cast<std::int64_t>(text.size())));
    BOOST_OUTCOME_TRY(writer->add(text));
    double done = 0.0;
    for (const Source& source : sources) {
        BOOST_OUTCOME_TRY(addFile(*writer, source, stop, [&](std::size_t bytes) {
            done += static_cast<double>(bytes);
            if (progress) {
                progress(done / total);
            }
        }));
    }
    return writer->finish();
}

/// Removes a file at the end, whatever comes between.
struct RemoveLater {
    fs::path file;
    explicit RemoveLater(fs::path of) : file{std::move(of)} {}
    ~RemoveLater() {
        std::error_code ignored;
        fs::remove(file, ignored);
    }
    RemoveLater(const RemoveLater&) = delete;
    RemoveLater& operator=(const RemoveLater&) = delete;
};

/// The name is taken without overwriting what has it.
Result<void> giveName(const fs::path& part, const fs::path& to) {
    const int descriptor = ::open(part.c_str(), O_RDONLY | O_CLOEXEC);
    const bool isSynced = descriptor >= 0 && ::fsync(descriptor) == 0;
    if (descriptor >= 0) {
        ::close(descriptor);
    }
    std::error_code error;
    if (isSynced && !fs::exists(to, error)) {
        fs::rename(part, to, error);
        if (!error) {
            return ok();
        }
    }
    return fail(ErrorCode::WriteFailed, fmt::format("{} cannot be written. Check that the disk has "
                                                    "room and choose a name that is free.",
                                                    to.string()));
}

}  // namespace

Result<Packed> pack(const fs::path& project, const fs::path& to, Footage footage,
                    std::stop_token stop, const PackProgress& progress) {
    std::error_code error;
    if (fs::exists(fs::symlink_status(to, error))) {
        return fail(ErrorCode::InvalidInput,
                    fmt::format("{} exists already. Choose another name.", to.string()));
    }
    const fs::path part = fs::path{to} += ".part";
    const fs::path copy = fs::path{to} += ".project";
    const RemoveLater partGoes{part};
    const RemoveLater copyGoes{copy};
    BOOST_OUTCOME_TRY(project::copyProject(project, copy, stop));
    BOOST_OUTCOME_TRY(store, project::Store::openToRead(copy));
    const auto snapshot = store->snapshot();
    store.reset();
    const std::string projectName = project.filename().string();
    BOOST_OUTCOME_TRY(projectSource, sourceOf(copy, projectName, stop));
    std::vector<Source> sources{std::move(projectSource)};
    Packed packed;
    for (const project::Clip& clip : snapshot->clips) {
        if (!isWanted(*snapshot, clip, footage)) {
            continue;
        }
        const auto film = filmOf(project, clip);
        if (!film) {
            packed.remarks.push_back("Not packed: " + film.error().message);
            continue;
        }
        BOOST_OUTCOME_TRY(source, sourceOf(film.value(), pathInPack(clip), stop));
        sources.push_back(std::move(source));
        packed.clips.push_back(clip.path);
    }
    BOOST_OUTCOME_TRY(writeArchive(part, sources, projectName, stop, progress));
    BOOST_OUTCOME_TRY(giveName(part, to));
    packed.bytes = static_cast<std::int64_t>(fs::file_size(to, error));
    return packed;
}

}  // namespace core::pack
