#include "core/pack/pack.h"

#include <fmt/format.h>

#include <algorithm>
#include <fstream>
#include <set>

#include "core/base/words.h"
#include "core/media/file/clip_index.h"
#include "core/media/file/sha256.h"
#include "core/media/file/stretches.h"
#include "core/pack/archive.h"
#include "core/pack/manifest.h"
#include "core/project/backups.h"
#include "core/project/clip_location.h"
#include "core/project/store.h"

namespace core::pack {
namespace {

namespace fs = std::filesystem;

constexpr const char* kCopyName = "project";
constexpr const char* kReadyName = "pack";
constexpr std::size_t kReadBytes = std::size_t{1} << 20U;

/// A file that goes into the pack.
struct Source {
    fs::path file;
    Manifest::File entry;
};

/// Hands the parts of a file, or all of it, to the sink, piece by piece. Errors: Unreadable;
/// Cancelled.
Result<void> forEachPiece(const fs::path& file, std::vector<media::ByteRange> parts,
                          const std::stop_token& stop,
                          const std::function<Result<void>(std::string_view)>& sink) {
    std::error_code unknown;
    if (parts.empty()) {
        parts.push_back({0, static_cast<std::int64_t>(fs::file_size(file, unknown))});
    }
    std::ifstream stream{file, std::ios::binary};
    std::vector<char> piece(kReadBytes);
    for (media::ByteRange part : parts) {
        stream.seekg(part.begin);
        while (stream && !unknown && part.begin < part.end) {
            if (stop.stop_requested()) {
                return fail(ErrorCode::Cancelled,
                            said("Packing was cancelled; nothing was written."));
            }
            const auto wanted =
                std::min(part.end - part.begin, static_cast<std::int64_t>(kReadBytes));
            if (stream.read(piece.data(), wanted)) {
                part.begin += wanted;
                BOOST_OUTCOME_TRY(sink({piece.data(), static_cast<std::size_t>(wanted)}));
            }
        }
    }
    if (!stream || unknown) {
        return fail(ErrorCode::Unreadable,
                    said("{} cannot be read. Check the disk it lies on.", file.string()));
    }
    return ok();
}

Result<Source> sourceOf(const fs::path& file, const std::string& path, const std::stop_token& stop,
                        std::vector<media::ByteRange> parts = {}) {
    media::Sha256 sum;
    std::int64_t size = 0;
    BOOST_OUTCOME_TRY(forEachPiece(file, parts, stop, [&](std::string_view piece) -> Result<void> {
        sum.add(piece);
        size += static_cast<std::int64_t>(piece.size());
        return ok();
    }));
    Source source{file, {path, size, sum.hexadecimal()}};
    if (!parts.empty()) {
        source.entry.parts = std::move(parts);
        source.entry.wholeSize = static_cast<std::int64_t>(fs::file_size(file));
    }
    return source;
}

/// The names in one pack: allowed, and none the same as another where case does not count.
class NamesInPack {
public:
    /// The name wished for where it may be had, else one by the number.
    std::string take(const std::string& wished, std::string_view otherwise) {
        std::string name = isSafePath(wished) ? wished : std::string{otherwise};
        for (int number = 2; !m_taken.insert(caseless(name)).second; ++number) {
            name = fmt::format("{} ({})", otherwise, number);
        }
        return name;
    }

private:
    std::set<std::string> m_taken;
};

/// The clip's own place where that lies in the project's folder, else one under clips/.
std::string pathInPack(const project::Clip& clip, NamesInPack& names) {
    const fs::path own = fs::path{clip.path}.lexically_normal();
    const std::string byNumber = fmt::format("clips/{}", clip.id.value);
    if (own.is_relative() && own.generic_string() == clip.path && isSafePath(clip.path)) {
        return names.take(clip.path, byNumber);
    }
    return names.take(fmt::format("{} {}", byNumber, own.filename().string()), byNumber);
}

bool needs(const project::Shot& shot, const project::Clip& clip, Footage footage) {
    const bool isToRead =
        footage == Footage::StretchesOfShots && shot.standing == project::ShotStanding::Open;
    return shot.clip == clip.id && (shot.standing == project::ShotStanding::Kept || isToRead);
}

bool isWanted(const project::Snapshot& snapshot, const project::Clip& clip, Footage footage) {
    if (project::isTally(clip) || footage == Footage::None) {
        return false;
    }
    return footage == Footage::All ||
           std::any_of(snapshot.shots.begin(), snapshot.shots.end(),
                       [&](const project::Shot& shot) { return needs(shot, clip, footage); });
}

/// The file of a clip, if its content is the one that was added.
Result<fs::path> filmOf(const fs::path& project, const project::Clip& clip) {
    BOOST_OUTCOME_TRY(found, project::locateClip(project, clip, media::fingerprint));
    BOOST_OUTCOME_TRY(print, media::fingerprint(found.file));
    if (print != clip.fingerprint) {
        return fail(
            ErrorCode::InvalidInput,
            said("{} has another content than the clip that was added.", found.file.string()));
    }
    return found.file;
}

/// The parts of a film that its shots need; absent when it goes along whole.
Result<std::optional<std::vector<media::ByteRange>>> partsOf(const project::Store& store,
                                                             const project::Clip& clip,
                                                             const fs::path& film,
                                                             const std::stop_token& stop) {
    BOOST_OUTCOME_TRY(frames, store.clipFrames(clip.id));
    media::ClipIndex index;
    index.facts.codec = clip.codec;
    index.facts.container = clip.container;
    index.stamps = frames->stamps;
    index.isKey = frames->isKey;
    std::vector<media::FrameStretch> stretches;
    for (const project::Shot& shot : store.snapshot()->shots) {
        if (needs(shot, clip, Footage::StretchesOfShots)) {
            stretches.push_back({shot.firstFrame, shot.lastFrame});
        }
    }
    return media::bytesOfStretches(film, index, stretches, stop);
}

/// The same; empty for a film that goes along whole, with the reason among the remarks.
Result<std::vector<media::ByteRange>> partsOrWhy(const project::Store& store,
                                                 const project::Clip& clip, const fs::path& film,
                                                 const std::stop_token& stop,
                                                 std::vector<std::string>& remarks) {
    auto parts = partsOf(store, clip, film, stop);
    if (!parts && parts.error().code == ErrorCode::Cancelled) {
        return parts.error();
    }
    if (parts && parts.value()) {
        return std::move(*parts.value());
    }
    remarks.push_back(parts ? said("{} is packed whole: stretches can be taken only from MP4 and "
                                   "QuickTime clips in H.264 and HEVC.",
                                   film.string())
                            : said("A clip is packed whole: {}", parts.error().message));
    return std::vector<media::ByteRange>{};
}

Result<void> addFile(ArchiveWriter& writer, const Source& source, const std::stop_token& stop,
                     const std::function<void(std::size_t)>& written) {
    BOOST_OUTCOME_TRY(writer.begin(source.entry.path, source.entry.size));
    media::Sha256 sum;
    BOOST_OUTCOME_TRY(forEachPiece(source.file, source.entry.parts, stop,
                                   [&](std::string_view piece) -> Result<void> {
                                       sum.add(piece);
                                       written(piece.size());
                                       return writer.add(piece);
                                   }));
    if (sum.hexadecimal() != source.entry.sha256) {
        return fail(
            ErrorCode::Unreadable,
            said("{} was changed while it was being packed. Pack again.", source.file.string()));
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
    BOOST_OUTCOME_TRY(manifestFrom(text));  // nothing is packed that could not be unpacked
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

/// A packing that was ended by force leaves gigabytes in a folder that nobody sees. What publishing
/// has left stays: it is finished by the next publishing.
void removeLeftovers(const fs::path& folder) {
    for (StagingFolder& left : StagingFolder::abandonedIn(folder)) {
        std::error_code problem;
        if (!fs::exists(left.path() / kReadyName, problem) &&
            !fs::exists(left.path() / kCopyName, problem)) {
            left.abandon();
        }
    }
}

}  // namespace

Result<Packed> pack(const fs::path& project, const fs::path& to, Footage footage,
                    std::stop_token stop, const PackProgress& progress, Existing existing) {
    WriteRule rule{existing, {project}};
    BOOST_OUTCOME_TRY(mayWrite(to, rule));
    removeLeftovers(to.has_parent_path() ? to.parent_path() : fs::path{"."});
    BOOST_OUTCOME_TRY(staging, StagingFolder::beside(to));
    const fs::path copy = staging.path() / kCopyName;
    BOOST_OUTCOME_TRY(project::copyProject(project, copy, stop));
    BOOST_OUTCOME_TRY(store, project::Store::openToRead(copy));
    const auto snapshot = store->snapshot();
    rule.inUse = project::filesInUse(project, *snapshot);
    BOOST_OUTCOME_TRY(mayWrite(to, rule));
    NamesInPack names;
    const std::string projectName = names.take(project.filename().string(), "project.turnmark");
    BOOST_OUTCOME_TRY(projectSource, sourceOf(copy, projectName, stop));
    std::vector<Source> sources{std::move(projectSource)};
    Packed packed;
    for (const project::Clip& clip : snapshot->clips) {
        if (!isWanted(*snapshot, clip, footage)) {
            continue;
        }
        const auto film = filmOf(project, clip);
        if (!film) {
            packed.remarks.push_back(said("Not packed: {}", film.error().message));
            continue;
        }
        rule.inUse.push_back(film.value());  // it may have been moved since it was added
        std::vector<media::ByteRange> parts;
        if (footage == Footage::StretchesOfShots) {
            BOOST_OUTCOME_TRY(found, partsOrWhy(*store, clip, film.value(), stop, packed.remarks));
            parts = std::move(found);
        }
        BOOST_OUTCOME_TRY(source,
                          sourceOf(film.value(), pathInPack(clip, names), stop, std::move(parts)));
        sources.push_back(std::move(source));
        packed.clips.push_back(clip.path);
    }
    const fs::path ready = staging.path() / kReadyName;
    BOOST_OUTCOME_TRY(writeArchive(ready, sources, projectName, stop, progress));
    BOOST_OUTCOME_TRY(moveToPlace(ready, to, rule));
    std::error_code unknown;
    packed.bytes = static_cast<std::int64_t>(fs::file_size(to, unknown));
    return packed;
}

}  // namespace core::pack
