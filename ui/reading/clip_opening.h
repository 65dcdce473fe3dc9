#pragma once

#include <QString>

#include "core/media/clip_index.h"
#include "core/project/model.h"
#include "core/timebase/clip_clock.h"

/// From what the project keeps of a clip to what the reading screen needs to show it.
namespace ui::reading {

/// The index that opens the clip's pictures without reading the file again.
[[nodiscard]] core::media::ClipIndex clipIndexOf(const core::project::Clip& clip,
                                                 const core::project::ClipFrames& frames);

/// "clock 240/1 stretched ×8, tag", or what is missing.
[[nodiscard]] QString clockTextOf(const core::project::Clip& clip);

/// The settled clock; without one the playback times, which are good for drawing only.
/// Errors as timebase::ClipClock.
core::Result<core::timebase::ClipClock> clockForDrawing(const core::project::Clip& clip,
                                                        const core::project::ClipFrames& frames);

}  // namespace ui::reading
