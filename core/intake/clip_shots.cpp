#include "core/intake/clip_shots.h"

#include <algorithm>
#include <array>

#include "core/base/kept_words.h"
#include "core/base/words.h"
#include "core/intake/clip_record.h"
#include "core/intake/find_clip.h"
#include "core/intake/shot_corrections.h"
#include "core/media/file/sound_envelope.h"
#include "core/media/frames/frame_decoder.h"
#include "core/project/clip_clock.h"
#include "core/reading/decoded_frames.h"
#include "core/shots/find_shots.h"

namespace core::intake {
namespace {

project::Shot wholeClip(project::ClipId clip, std::int64_t frameCount) {
    project::Shot shot;
    shot.clip = clip;
    shot.lastFrame = {frameCount - 1};
    return shot;
}

/// The new ones of the shots found, added. The clip's own edit.
Result<std::vector<project::ShotId>> addUntouched(project::Store& store, project::ClipId clip,
                                                  std::vector<project::Shot> found) {
    const auto snapshot = store.snapshot();
    const auto known = project::shotsOfClip(*snapshot, clip);
    std::erase_if(found, [&](const project::Shot& shot) {
        return isDealtWith(*snapshot, shot) ||
               std::any_of(known.begin(), known.end(), [&shot](const project::Shot* other) {
                   return other->firstFrame <= shot.lastFrame &&
                          shot.firstFrame <= other->lastFrame;
               });
    });
    if (found.empty()) {
        return std::vector<project::ShotId>{};
    }
    std::vector<bool> isAside;
    for (project::Shot& shot : found) {
        isAside.push_back(isFlightAfterKink(shot));
        shot.standing = project::ShotStanding::Open;
        shot.reason.clear();
    }
    BOOST_OUTCOME_TRY(ids, store.addShots(found));
    for (std::size_t k = 0; k < ids.size(); ++k) {
        if (isAside[k]) {
            BOOST_OUTCOME_TRY(store.setAside(ids[k], std::string{kFlightAfterKink}));
        }
    }
    return ids;
}

}  // namespace

bool isFlightAfterKink(const project::Shot& shot) {
    return shot.standing == project::ShotStanding::SetAside && shot.reason == kFlightAfterKink;
}

Result<ShotSearch> shotSearchOf(project::Store& store, project::ClipId clip) {
    const auto snapshot = store.snapshot();
    const auto* record = snapshot->clips.find(clip);
    if (record == nullptr) {
        return fail(ErrorCode::NotFound, said("The clip is no longer in the project."));
    }
    if (!record->clock) {
        return fail(ErrorCode::Contradiction,
                    said("The clock of the clip is not settled. Settle it, then look for shots."));
    }
    BOOST_OUTCOME_TRY(file, findClip(store, clip));
    BOOST_OUTCOME_TRY(frames, store.clipFrames(clip));
    BOOST_OUTCOME_TRY(clock, project::clipClock(*record->clock, *frames));
    ShotSearch search{clip, file, indexOf(*record, *frames), clock, std::nullopt};
    if (record->frameCount <= kWholeClipShotFrames) {
        BOOST_OUTCOME_TRY(slates, slateSearchOf(store, clip));
        search.slates = std::move(slates);
    }
    return search;
}

Result<std::vector<project::Shot>> searchShots(const ShotSearch& search, std::stop_token stop) {
    std::shared_ptr<reading::DecodedFrames> frames;
    return searchShots(search, frames, std::move(stop));
}

Result<std::vector<project::Shot>> searchShots(const ShotSearch& search,
                                               std::shared_ptr<reading::DecodedFrames>& frames,
                                               std::stop_token stop) {
    BOOST_OUTCOME_TRY(sound, media::readSoundEnvelope(search.file, stop));
    if (!frames) {
        BOOST_OUTCOME_TRY(decoder, media::FrameDecoder::open(search.file, search.index));
        frames = std::make_shared<reading::DecodedFrames>(std::move(decoder), stop);
    }
    BOOST_OUTCOME_TRY(found,
                      shots::findShots(*frames, search.clock, search.index.stamps, sound, stop));
    std::vector<project::Shot> shots;
    for (const auto& flight : found) {
        project::Shot shot;
        shot.clip = search.clip;
        shot.firstFrame = std::min(flight.strike, flight.flight.first);
        shot.lastFrame = flight.flight.last;
        if (flight.isAfterKink) {
            shot.standing = project::ShotStanding::SetAside;
            shot.reason = kFlightAfterKink;
            shot.firstFrame = std::max(
                shot.firstFrame,
                timebase::FrameIndex{shots.empty() ? 0 : shots.back().lastFrame.value + 1});
        } else {
            shot.strikeFrame = flight.strike;
        }
        shots.push_back(shot);
    }
    if (shots.empty() && search.slates) {
        BOOST_OUTCOME_TRY(slates, readSlateCards(*search.slates, stop));
        if (slates.empty()) {
            shots.push_back(wholeClip(search.clip, search.index.frameCount()));
        }
    }
    return shots;
}

Result<std::vector<project::ShotId>> addNewShots(project::Store& store, project::ClipId clip,
                                                 std::vector<project::Shot> found) {
    const auto snapshot = store.snapshot();
    const auto* record = snapshot->clips.find(clip);
    if (record == nullptr) {
        return fail(ErrorCode::NotFound, said("The clip is no longer in the project."));
    }
    std::vector<project::ShotId> added;
    BOOST_OUTCOME_TRY(
        store.together(toKeep("Looked for shots in clip {:s}.", project::clipName(*snapshot, clip)),
                       [&]() -> Result<void> {
                           BOOST_OUTCOME_TRY(ids, addUntouched(store, clip, std::move(found)));
                           added = std::move(ids);
                           return store.setSearchedForShots(clip);
                       }));
    return added;
}

Result<project::ShotId> addWholeClipShot(project::Store& store, project::ClipId clip) {
    const auto snapshot = store.snapshot();
    const auto* record = snapshot->clips.find(clip);
    if (record == nullptr) {
        return fail(ErrorCode::NotFound, said("The clip is no longer in the project."));
    }
    const std::array shots{wholeClip(clip, record->frameCount)};
    BOOST_OUTCOME_TRY(added, store.addShots(shots));
    return added.front();
}

}  // namespace core::intake
