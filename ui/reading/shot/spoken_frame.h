#pragma once

#include <QString>

#include "ui/reading/shot/shot_view.h"

namespace ui::reading {

/// What is said of a frame of the shot: "Frame 14, start".
[[nodiscard]] QString spokenFrame(const ShotView& view, core::timebase::FrameIndex frame);

/// When it was taken: "+37.5 ms after the strike".
[[nodiscard]] QString spokenTime(const ShotView& view, core::timebase::FrameIndex frame);

/// Where the ball is in it, in pixels of the picture.
[[nodiscard]] QString spokenBall(const ShotView& view, core::timebase::FrameIndex frame);

}  // namespace ui::reading
