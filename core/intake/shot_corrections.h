#pragma once

#include <optional>
#include <span>

#include "core/project/store.h"

/// Shots made, moved, split, joined and dropped by hand. Each is one edit; what was done is kept,
/// so that finding shots again brings nothing back that a person changed (FORMAT.md R28).
namespace core::intake {

/// Frames from the strike on that a shot made by hand spans, as far as the clip goes.
inline constexpr std::int64_t kHandMadeShotFrames = 24;

/// A shot that is struck at this frame. Errors: NotFound; OutOfRange for a frame that the clip does
/// not have.
Result<project::ShotId> addShotByHand(project::Store& store, project::ClipId clip,
                                      timebase::FrameIndex strike);

/// Gives a shot other frames. A strike outside them comes to the nearer end.
/// Errors: those of project::Store::setShotRange.
Result<void> moveShot(project::Store& store, project::ShotId shot, timebase::FrameIndex first,
                      timebase::FrameIndex last, std::optional<timebase::FrameIndex> strike);

/// Ends a shot before a frame and makes a second one of the rest, struck at that frame, in the same
/// cell; marks, clicks and readings stay with the first. Errors: NotFound; InvalidInput when the
/// frame is not inside the shot, or when marks, clicks or readings speak of the part that would
/// go (they are named).
Result<project::ShotId> splitShot(project::Store& store, project::ShotId shot,
                                  timebase::FrameIndex at);

/// Makes one shot of this one and the next of its clip, in the place of the first. Errors: NotFound
/// when there is no next one; Contradiction when the next has marks, clicks, readings or a
/// decision, or another cell.
Result<void> joinWithNext(project::Store& store, project::ShotId shot);

/// Removes shots with their readings. Those that were found do not come back when shots are found
/// again. Errors: those of project::Store::removeShots.
Result<void> dropShots(project::Store& store, std::span<const project::ShotId> shots);

/// Whether a person has dealt with what was found at these frames: moved, joined or dropped. It
/// counts as the same when the two share more than half of the shorter.
[[nodiscard]] bool isDealtWith(const project::Snapshot& snapshot, const project::Shot& found);

}  // namespace core::intake
