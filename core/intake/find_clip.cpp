#include "core/intake/find_clip.h"

#include "core/base/words.h"
#include "core/media/file/clip_index.h"
#include "core/project/clip_location.h"

namespace core::intake {
namespace {

Result<const project::Clip*> clipIn(const project::Snapshot& snapshot, project::ClipId id) {
    const project::Clip* clip = snapshot.clips.find(id);
    if (clip == nullptr) {
        return fail(ErrorCode::NotFound, said("The clip is no longer in the project."));
    }
    return clip;
}

}  // namespace

Result<std::filesystem::path> findClip(project::Store& store, project::ClipId id) {
    const auto snapshot = store.snapshot();
    BOOST_OUTCOME_TRY(clip, clipIn(*snapshot, id));
    if (project::isTally(*clip)) {
        return fail(
            ErrorCode::Unsupported,
            said("{} is a table of frame counts: there are no pictures to show.", clip->path));
    }
    BOOST_OUTCOME_TRY(found, project::locateClip(store.file(), *clip, media::fingerprint));
    if (found.isMoved && store.readOnlyReason().empty()) {
        BOOST_OUTCOME_TRY(store.setClipPath(id, project::pathToKeep(store.file(), found.file)));
    }
    return found.file;
}

std::vector<std::string> missingClips(const project::Snapshot& snapshot,
                                      const std::filesystem::path& projectFile) {
    std::vector<std::string> missing;
    for (const auto& clip : snapshot.clips) {
        if (!project::isTally(clip) &&
            !project::locateClip(projectFile, clip, media::fingerprint)) {
            missing.push_back(clip.path);
        }
    }
    return missing;
}

Result<void> pointToClip(project::Store& store, project::ClipId id,
                         const std::filesystem::path& file) {
    const auto snapshot = store.snapshot();
    BOOST_OUTCOME_TRY(clip, clipIn(*snapshot, id));
    BOOST_OUTCOME_TRY(print, media::fingerprint(file));
    if (print != clip->fingerprint) {
        return fail(ErrorCode::InvalidInput, said("{} is not the clip {}: its content differs. "
                                                  "Choose the file that was added to the project.",
                                                  file.string(), clip->path));
    }
    return store.setClipPath(id, project::pathToKeep(store.file(), file));
}

}  // namespace core::intake
