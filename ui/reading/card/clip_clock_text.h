#pragma once

#include <QString>

#include "core/project/model.h"
#include "core/timebase/clip_clock.h"

/// The clock of a clip as the reading screen uses and names it.
namespace ui::reading {

/// "clock 240/1 stretched ×8, tag", or what is missing.
[[nodiscard]] QString clockTextOf(const core::project::Clip& clip);

/// The settled clock; without one the playback times, which are good for drawing only.
/// Errors as timebase::ClipClock.
core::Result<core::timebase::ClipClock> clockForDrawing(const core::project::Clip& clip,
                                                        const core::project::ClipFrames& frames);

}  // namespace ui::reading
