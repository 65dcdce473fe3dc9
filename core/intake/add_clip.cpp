#include "core/intake/add_clip.h"

#include <system_error>

#include "core/intake/clip_clock_setting.h"
#include "core/intake/clip_record.h"
#include "core/media/clip_index.h"
#include "core/project/clip_location.h"

namespace core::intake {
namespace {

bool isReviewerEntry(const timebase::CaptureRateEvidence& evidence) {
    return std::holds_alternative<timebase::ReviewerEntry>(evidence);
}

}  // namespace

Result<PreparedClip> prepareClip(const std::filesystem::path& file,
                                 const std::filesystem::path& projectFile, std::stop_token stop) {
    BOOST_OUTCOME_TRY(index, media::readClipIndex(file, stop));
    BOOST_OUTCOME_TRY(print, media::fingerprint(file));
    PreparedClip prepared{recordOf(index), framesOf(index)};
    prepared.clip.path = project::pathToKeep(projectFile, std::filesystem::absolute(file));
    prepared.clip.fingerprint = print;
    std::error_code problem;
    prepared.clip.sizeBytes = static_cast<std::int64_t>(std::filesystem::file_size(file, problem));
    if (problem) {
        return fail(ErrorCode::Unreadable,
                    "The size of " + file.string() + " cannot be read: " + problem.message() + ".");
    }
    auto settled = settleClock(index.playbackRate, index.stamps, prepared.clip.evidence);
    prepared.clip.clock = settled.setting;
    prepared.clip.clockRemarks = std::move(settled.remarks);
    return prepared;
}

Result<project::ClipId> addPreparedClip(project::Store& store, project::SessionId session,
                                        const PreparedClip& prepared) {
    project::Clip clip = prepared.clip;
    clip.session = session;
    return store.addClip(clip, prepared.frames);
}

Result<project::Clip> withReviewersWord(project::Clip clip, const timebase::FrameStamps& stamps,
                                        const ReviewersWord& word) {
    std::erase_if(clip.evidence, isReviewerEntry);
    for (auto& item : clip.evidence) {
        if (auto* tag = std::get_if<timebase::ContainerTag>(&item)) {
            tag->isSetAside = word.areTagsSetAside;
        }
    }
    if (word.rate) {
        clip.evidence.emplace_back(timebase::ReviewerEntry{*word.rate, std::nullopt});
    }
    auto settled = settleClock(clip.playbackRate, stamps, clip.evidence, word.trust);
    if (!settled.setting) {
        return fail(ErrorCode::Contradiction, settled.remarks.front().message);
    }
    clip.clock = settled.setting;
    clip.clockRemarks = std::move(settled.remarks);
    return clip;
}

Result<void> setReviewersWord(project::Store& store, project::ClipId clipId,
                              const ReviewersWord& word) {
    const auto snapshot = store.snapshot();
    const project::Clip* clip = snapshot->clips.find(clipId);
    if (clip == nullptr) {
        return fail(ErrorCode::NotFound, "The clip is no longer in the project.");
    }
    BOOST_OUTCOME_TRY(frames, store.clipFrames(clipId));
    BOOST_OUTCOME_TRY(settled, withReviewersWord(*clip, frames->stamps, word));
    return store.setClipClock(clipId, settled.evidence, settled.clock, settled.clockRemarks);
}

}  // namespace core::intake
