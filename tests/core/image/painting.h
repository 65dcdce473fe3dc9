#pragma once

#include <array>
#include <cstdint>

#include "core/image/projected_sphere.h"
#include "memory_frames.h"

namespace tests {

using Colour = std::array<std::uint8_t, 3>;

/// A disc with smooth edges.
void paintDisc(core::PixelBuffer& picture, core::image::PointPx centre, double radiusPx,
               Colour colour);

/// A flat ellipse in which the picture is darker by the given factor.
void paintShadow(core::PixelBuffer& picture, core::image::PointPx centre, double halfWidthPx,
                 double factor);

/// A figure of 40 x 130 px whose top left corner is at the given place, swinging an arm.
void paintFigure(core::PixelBuffer& picture, int left, int top, int frame);

/// The clip with something painted into each frame: paint(picture, frame).
template <typename Paint>
MemorySource painted(MemorySource clip, const Paint& paint) {
    MemorySource out;
    for (int frame = 0; frame < static_cast<int>(clip.frameCount()); ++frame) {
        core::PixelBuffer picture = clip.frame({frame}).value()->rgb();
        paint(picture, frame);
        out.add(std::move(picture));
    }
    return out;
}

}  // namespace tests
