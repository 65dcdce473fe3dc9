#pragma once

#include "core/synthesis/ball_drawing.h"

namespace core::synthesis {

/// Draws the walking figure as it stands at a capture time: head, trunk, legs in step, one arm that
/// swings an implement through each strike. Sharp in time (no exposure sweep). Returns the pixels
/// that may have changed.
PixelRect drawFigure(LightPicture& picture, const Scene& scene, const PicturePoint& sway,
                     Seconds captureTime);

}  // namespace core::synthesis
