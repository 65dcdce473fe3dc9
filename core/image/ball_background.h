#pragma once

#include <cstddef>
#include <optional>

#include "core/base/pixels.h"
#include "core/base/result.h"
#include "core/image/ball_track.h"
#include "core/image/frame_source.h"

namespace core::image {

/// What the box of track.frames[index] would show without the ball: Rgb8, the median of up to seven
/// frames of the track in which the ball keeps clear of the place, moved as the camera moved.
/// Absent when there is no such frame. Errors: those of the source.
Result<std::optional<PixelBuffer>> backgroundBehind(const BallTrack& track, FrameSource& source,
                                                    std::size_t index, const PixelBox& box);

}  // namespace core::image
