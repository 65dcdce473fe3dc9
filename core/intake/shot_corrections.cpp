#include "core/intake/shot_corrections.h"

#include <algorithm>
#include <array>
#include <string>
#include <vector>

#include "core/base/kept_words.h"
#include "core/base/words.h"

namespace core::intake {
namespace {

using project::CorrectionKind;
using project::Shot;
using project::ShotCorrection;
using timebase::FrameIndex;

Result<Shot> shotIn(const project::Snapshot& snapshot, project::ShotId id) {
    const Shot* shot = snapshot.shots.find(id);
    if (shot == nullptr) {
        return fail(ErrorCode::NotFound, said("The shot is no longer in the project."));
    }
    return *shot;
}

ShotCorrection correctionOf(const Shot& shot, CorrectionKind kind) {
    return {{}, shot.clip, shot.id, kind, shot.firstFrame, shot.lastFrame};
}

/// Whether the shot still lies where it was found. Shots made by hand never did, and of moved ones
/// the place is kept already.
bool isAsFound(const project::Snapshot& snapshot, project::ShotId shot) {
    return std::none_of(snapshot.corrections.begin(), snapshot.corrections.end(),
                        [shot](const ShotCorrection& each) { return each.shot == shot; });
}

Result<void> keepPlace(project::Store& store, const Shot& shot, CorrectionKind kind) {
    if (!isAsFound(*store.snapshot(), shot.id)) {
        return ok();
    }
    const std::array corrections{correctionOf(shot, kind)};
    return store.addCorrections(corrections);
}

Result<project::ShotId> addAsHandMade(project::Store& store, const Shot& shot) {
    const std::array shots{shot};
    BOOST_OUTCOME_TRY(added, store.addShots(shots));
    Shot made = shot;
    made.id = added.front();
    BOOST_OUTCOME_TRY(keepPlace(store, made, CorrectionKind::ByHand));
    return made.id;
}

/// The last frame that marks and clicks of a shot speak of.
std::int64_t lastFrameUsed(const Shot& shot) {
    std::int64_t last = -1;
    const auto use = [&last](FrameIndex frame) { last = std::max(last, frame.value); };
    for (const auto& click : shot.clicks) {
        use(click.frame);
    }
    if (shot.marks.start) {
        use(shot.marks.start->frame);
    }
    for (const auto& mark : shot.marks.returns) {
        use(std::max(mark.frame, mark.frameAfter));
    }
    for (const auto& mark : shot.marks.angles) {
        use(mark.frame);
    }
    return last;
}

bool isTouched(const project::Snapshot& snapshot, const Shot& shot) {
    return lastFrameUsed(shot) >= 0 || shot.doubtful ||
           shot.standing != project::ShotStanding::Open ||
           !project::readingsOfShot(snapshot, shot.id).empty();
}

}  // namespace

Result<project::ShotId> addShotByHand(project::Store& store, project::ClipId clip,
                                      FrameIndex strike) {
    const auto snapshot = store.snapshot();
    const auto* record = snapshot->clips.find(clip);
    if (record == nullptr) {
        return fail(ErrorCode::NotFound, said("The clip is no longer in the project."));
    }
    Shot shot;
    shot.clip = clip;
    shot.firstFrame = strike;
    shot.strikeFrame = strike;
    shot.lastFrame = {std::max(
        strike.value, std::min(strike.value + kHandMadeShotFrames - 1, record->frameCount - 1))};
    project::ShotId made;
    BOOST_OUTCOME_TRY(store.together(toKeep("Added a shot by hand at frame {} of clip {:s}.",
                                            strike.value, project::clipName(*snapshot, clip)),
                                     [&]() -> Result<void> {
                                         BOOST_OUTCOME_TRY(added, addAsHandMade(store, shot));
                                         made = added;
                                         return ok();
                                     }));
    return made;
}

Result<void> moveShot(project::Store& store, project::ShotId id, FrameIndex first, FrameIndex last,
                      std::optional<FrameIndex> strike) {
    const auto snapshot = store.snapshot();
    BOOST_OUTCOME_TRY(shot, shotIn(*snapshot, id));
    if (strike && first <= last) {
        strike = std::clamp(*strike, first, last);
    }
    if (shot.firstFrame == first && shot.lastFrame == last && shot.strikeFrame == strike) {
        return ok();
    }
    const std::string name = project::shotNameToKeep(*snapshot, shot);
    return store.together(strike
                              ? toKeep("Set {} to frames {} to {}, strike at {}.", name,
                                       first.value, last.value, strike->value)
                              : toKeep("Set {} to frames {} to {}.", name, first.value, last.value),
                          [&]() -> Result<void> {
                              BOOST_OUTCOME_TRY(keepPlace(store, shot, CorrectionKind::Moved));
                              return store.setShotRange(id, first, last, strike);
                          });
}

Result<project::ShotId> splitShot(project::Store& store, project::ShotId id, FrameIndex at) {
    const auto snapshot = store.snapshot();
    BOOST_OUTCOME_TRY(shot, shotIn(*snapshot, id));
    if (at <= shot.firstFrame || at > shot.lastFrame) {
        return fail(
            ErrorCode::InvalidInput,
            said("Frame {} does not divide {}, which has frames {} to {}. Go to a frame inside it.",
                 at.value, project::shotName(*snapshot, shot), shot.firstFrame.value,
                 shot.lastFrame.value));
    }
    if (lastFrameUsed(shot) >= at.value || !project::readingsOfShot(*snapshot, id).empty()) {
        return fail(ErrorCode::InvalidInput,
                    said("{} has readings, or marks at or after frame {}. Split it before reading "
                         "it, or add a shot by hand beside it.",
                         project::shotName(*snapshot, shot), at.value));
    }
    Shot rest;
    rest.clip = shot.clip;
    rest.cell = shot.cell;
    rest.firstFrame = at;
    rest.strikeFrame = at;
    rest.lastFrame = shot.lastFrame;
    project::ShotId made;
    BOOST_OUTCOME_TRY(store.together(
        toKeep("Split {} at frame {}.", project::shotNameToKeep(*snapshot, shot), at.value),
        [&]() -> Result<void> {
            const FrameIndex end{at.value - 1};
            BOOST_OUTCOME_TRY(moveShot(store, id, shot.firstFrame, end, shot.strikeFrame));
            BOOST_OUTCOME_TRY(added, addAsHandMade(store, rest));
            made = added;
            return ok();
        }));
    return made;
}

Result<void> joinWithNext(project::Store& store, project::ShotId id) {
    const auto snapshot = store.snapshot();
    BOOST_OUTCOME_TRY(shot, shotIn(*snapshot, id));
    const auto shots = project::shotsOfClip(*snapshot, shot.clip);
    const auto own =
        std::find_if(shots.begin(), shots.end(), [id](const Shot* each) { return each->id == id; });
    if (own == shots.end() || own + 1 == shots.end()) {
        return fail(ErrorCode::NotFound,
                    said("{} is the last of its clip: there is no next one to join it with.",
                         project::shotName(*snapshot, shot)));
    }
    const Shot& next = **(own + 1);
    if (isTouched(*snapshot, next) || (next.cell && next.cell != shot.cell)) {
        return fail(ErrorCode::Contradiction,
                    said("{} has marks, readings, a decision or another cell, which would be lost. "
                         "Remove it first if that is meant.",
                         project::shotName(*snapshot, next)));
    }
    return store.together(
        toKeep("Joined {} with the next.", project::shotNameToKeep(*snapshot, shot)),
        [&]() -> Result<void> {
            const std::array dropped{next.id};
            BOOST_OUTCOME_TRY(dropShots(store, dropped));
            return moveShot(store, id, std::min(shot.firstFrame, next.firstFrame),
                            std::max(shot.lastFrame, next.lastFrame), shot.strikeFrame);
        });
}

Result<void> dropShots(project::Store& store, std::span<const project::ShotId> ids) {
    const auto snapshot = store.snapshot();
    std::vector<ShotCorrection> corrections;
    std::string name;
    for (const auto id : ids) {
        BOOST_OUTCOME_TRY(shot, shotIn(*snapshot, id));
        name = project::shotNameToKeep(*snapshot, shot);
        if (isAsFound(*snapshot, id)) {
            corrections.push_back(correctionOf(shot, CorrectionKind::Dropped));
        }
    }
    return store.together(
        toKeep("Removed {}.", ids.size() == 1 ? name : countToKeep(ids.size(), "shot", "shots")),
        [&]() -> Result<void> {
            if (!corrections.empty()) {
                BOOST_OUTCOME_TRY(store.addCorrections(corrections));
            }
            return store.removeShots(ids);
        });
}

bool isDealtWith(const project::Snapshot& snapshot, const Shot& found) {
    const auto framesOf = [](const auto& range) {
        return range.lastFrame.value - range.firstFrame.value + 1;
    };
    return std::any_of(
        snapshot.corrections.begin(), snapshot.corrections.end(), [&](const ShotCorrection& each) {
            const std::int64_t shared = std::min(each.lastFrame, found.lastFrame).value -
                                        std::max(each.firstFrame, found.firstFrame).value + 1;
            return each.clip == found.clip && each.kind != CorrectionKind::ByHand &&
                   2 * shared > std::min(framesOf(each), framesOf(found));
        });
}

}  // namespace core::intake
