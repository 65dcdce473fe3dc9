#pragma once

#include <vector>

#include "core/project/store.h"

namespace core::intake {

/// The films of a session in the order in which they were taken: by the time of last change of
/// their files, clips of one second by their path. Copying may lose that time; files that were
/// copied together then stand by their names, as cameras number them. Tallies are left out.
/// Errors: NotFound when the session or the file of a clip is not found.
Result<std::vector<project::ClipId>> filmOrder(project::Store& store, project::SessionId session);

/// The shots of these clips, one clip after the other.
[[nodiscard]] std::vector<const project::Shot*> shotsInFilmOrder(
    const project::Snapshot& snapshot, const std::vector<project::ClipId>& clips);

}  // namespace core::intake
