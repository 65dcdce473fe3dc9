#pragma once

#include <span>

#include "core/image/flight_linking.h"
#include "core/image/track_ball.h"

namespace core::image {

/// Position of a frame of the clip among those of moving.
std::size_t ordinalOf(const MovingPictures& moving, timebase::FrameIndex frame);

/// A click as a member of a flight, in the coordinates of the reference frame.
LinkedFlight::Member memberFor(const MovingPictures& moving, const BallHint& click);

/// The track that the reviewer's clicks alone give: straight lines between them, one radius, the
/// uncertainty of a hand. At least two clicks, in time order; where they tell a kink, those of the
/// shot count (kink.h). Internal to core/image.
BallTrack interpolateClicks(const MovingPictures& moving, std::span<const BallHint> clicks,
                            double radiusPx, const TrackOptions& options);

}  // namespace core::image
