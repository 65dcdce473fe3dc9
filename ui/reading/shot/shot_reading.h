#pragma once

#include "core/project/store.h"
#include "ui/reading/shot/shot_view.h"

namespace ui::reading {

/// Fills the reading of the shot's marks, or the trouble that prevents it.
void readMarksOf(ShotView& view, const core::project::Snapshot& snapshot,
                 const core::project::ClipFrames& frames);

/// Keeps the reading that the view shows as the counting one. Errors: InvalidInput when there is
/// none, with the next step in words; those of Store::keepReading.
core::Result<void> keepShot(core::project::Store& store, const ShotView& view);

/// Keeps the reading from the pictures as the counting one. Errors: InvalidInput when there is
/// none; those of Store::keepReading.
core::Result<void> keepPictureReading(core::project::Store& store, const ShotView& view);

}  // namespace ui::reading
