#include "core/intake/clip_places.h"

#include <algorithm>
#include <iterator>

#include "core/base/kept_words.h"
#include "core/intake/day_setup.h"

namespace core::intake {
namespace {

std::string namedToKeep(const project::Snapshot& snapshot, std::span<const project::ClipId> clips) {
    return clips.size() == 1 ? toKeep("the clip {:s}", clipName(snapshot, clips.front()))
                             : countToKeep(clips.size(), "clip", "clips");
}

}  // namespace

Result<std::vector<project::ShotId>> moveToDay(project::Store& store,
                                               std::span<const project::ClipId> clips,
                                               project::SessionId session) {
    BOOST_OUTCOME_TRY(change, factChangeOfMove(store, clips, session));
    const auto snapshot = store.snapshot();
    auto resting = keptShotsRestingOn(*snapshot, change);
    if (change.clips.empty()) {
        return resting;
    }
    std::vector<project::ClipId> moved;
    std::transform(change.clips.begin(), change.clips.end(), std::back_inserter(moved),
                   [](const project::Clip& clip) { return clip.id; });
    BOOST_OUTCOME_TRY(
        store.together(toKeep("Moved {} to the filming day {:s}.", namedToKeep(*snapshot, moved),
                              snapshot->sessions.find(session)->name),
                       [&]() -> Result<void> {
                           BOOST_OUTCOME_TRY(store.moveClips(clips, session));
                           for (const project::Clip& clip : change.clips) {
                               BOOST_OUTCOME_TRY(store.setClipClock(clip.id, clip.evidence,
                                                                    clip.clock, clip.clockRemarks));
                           }
                           return ok();
                       }));
    return resting;
}

Result<MovedToNewDay> moveToNewDay(project::Store& store, std::span<const project::ClipId> clips,
                                   const std::string& name) {
    MovedToNewDay moved;
    const auto what = namedToKeep(*store.snapshot(), clips);
    BOOST_OUTCOME_TRY(store.together(toKeep("Moved {} to the new filming day {:s}.", what, name),
                                     [&]() -> Result<void> {
                                         project::Session day;
                                         day.name = name;
                                         BOOST_OUTCOME_TRY(added, store.addSession(day));
                                         moved.day = added;
                                         BOOST_OUTCOME_TRY(resting, moveToDay(store, clips, added));
                                         moved.resting = std::move(resting);
                                         return ok();
                                     }));
    return moved;
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
