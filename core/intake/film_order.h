#pragma once

#include <vector>

#include "core/project/store.h"

namespace core::intake {

/// The films of a session in the order in which they were taken: by the creation time that the
/// container states (media/creation_time.h), a film that states none by the last change of its
/// file, films of one second by their path. Copying may lose the time of a file; files that were
/// copied together then stand by their names, as cameras number them. Nothing of it is kept: it is
/// asked of the files each time. Tallies are left out.
/// Errors: NotFound when the session or the file of a clip is not found.
Result<std::vector<project::ClipId>> filmOrder(project::Store& store, project::SessionId session);

/// The shots of these clips, one clip after the other.
[[nodiscard]] std::vector<const project::Shot*> shotsInFilmOrder(
    const project::Snapshot& snapshot, const std::vector<project::ClipId>& clips);

}  // namespace core::intake
