#include "core/intake/clip_places.h"

#include "core/base/kept_words.h"
#include "core/intake/day_setup.h"

namespace core::intake {

Result<std::vector<project::ShotId>> moveToDay(project::Store& store,
                                               std::span<const project::ClipId> clips,
                                               project::SessionId session) {
    BOOST_OUTCOME_TRY(change, factChangeOfMove(store, clips, session));
    const auto snapshot = store.snapshot();
    auto resting = keptShotsRestingOn(*snapshot, change);
    if (change.clips.empty()) {
        return resting;
    }
    const std::string what =
        change.clips.size() == 1
            ? toKeep("the clip {:s}", clipName(*snapshot, change.clips.front().id))
            : countToKeep(change.clips.size(), "clip", "clips");
    BOOST_OUTCOME_TRY(store.together(
        toKeep("Moved {} to the filming day {:s}.", what, snapshot->sessions.find(session)->name),
        [&]() -> Result<void> {
            BOOST_OUTCOME_TRY(store.moveClips(clips, session));
            for (const project::Clip& clip : change.clips) {
                BOOST_OUTCOME_TRY(
                    store.setClipClock(clip.id, clip.evidence, clip.clock, clip.clockRemarks));
            }
            return ok();
        }));
    return resting;
}

Result<std::vector<project::ShotId>> setStroke(project::Store& store,
                                               std::span<const project::ShotId> shots,
                                               std::optional<project::Stroke> stroke) {
    const auto before = store.snapshot();
    BOOST_OUTCOME_TRY(store.setShotStroke(shots, stroke));
    const auto after = store.snapshot();
    std::vector<project::ShotId> resting;
    for (const project::ShotId id : shots) {
        const auto* shot = after->shots.find(id);
        const auto* clip = shot != nullptr ? after->clips.find(shot->clip) : nullptr;
        const auto* day = clip != nullptr ? after->sessions.find(clip->session) : nullptr;
        if (day != nullptr && strokeOf(*day, *before->shots.find(id)) != strokeOf(*day, *shot) &&
            restsOnStroke(*after, *shot)) {
            resting.push_back(id);
        }
    }
    return resting;
}

Result<std::vector<project::ShotId>> turnClips(project::Store& store,
                                               std::span<const project::ClipId> clips,
                                               int degrees) {
    const auto before = store.snapshot();
    BOOST_OUTCOME_TRY(store.turnClips(clips, degrees));
    return keptShotsRestingOnChange(*before, *store.snapshot());
}

}  // namespace core::intake
