#pragma once

#include <span>
#include <string>
#include <vector>

#include "core/project/store.h"

/// Where clips belong, which way up they are and how the balls in them turn, as a person says.
namespace core::intake {

/// Moves clips, with their shots, into another filming day and gives them its facts: one edit.
/// Returns the kept shots that rest on what changed, for ReadAgain. Errors: NotFound, Damaged,
/// those of project::Store::moveClips().
Result<std::vector<project::ShotId>> moveToDay(project::Store& store,
                                               std::span<const project::ClipId> clips,
                                               project::SessionId session);

struct MovedToNewDay {
    project::SessionId day;
    std::vector<project::ShotId> resting;  ///< as moveToDay() returns them
};
/// The same into a day that is made for them, in one edit: where the move fails there is no day.
/// Errors: those of moveToDay() and project::Store::addSession().
Result<MovedToNewDay> moveToNewDay(project::Store& store, std::span<const project::ClipId> clips,
                                   const std::string& name);

/// Says in which sense the strokes of shots turn the ball; absent: as on their filming day. Returns
/// the kept shots whose number rests on it, for ReadAgain. Errors: those of
/// project::Store::setShotStroke().
Result<std::vector<project::ShotId>> setStroke(project::Store& store,
                                               std::span<const project::ShotId> shots,
                                               std::optional<project::Stroke> stroke);

/// Turns clips clockwise by 0, 90, 180 or 270 degrees from what their files say. Returns the kept
/// shots that rest on it, for ReadAgain. Errors: those of project::Store::turnClips().
Result<std::vector<project::ShotId>> turnClips(project::Store& store,
                                               std::span<const project::ClipId> clips, int degrees);

}  // namespace core::intake
