#pragma once

#include <span>
#include <stop_token>

#include "core/image/flight_linking.h"
#include "core/image/track_ball.h"

namespace core::image {

/// Across the picture, where the field of view is not known; phones film at about 45 to 80 degrees.
inline constexpr double kUsualFieldOfViewDegrees = 62.0;

/// From a linked flight to a track in sub-pixels: cuts out the surroundings of the ball, fits all
/// frames together, finds the first and last frame that show the ball. Of a flight that turns out
/// to have kinks the part that is the shot is fitted anew. Internal to core/image.
/// Errors: those of the source; NotFound when fewer than 4 frames show a ball on the path;
/// Untrustworthy when fewer than kFewestBeforeKink show it whole before a kink; Cancelled.
Result<BallTrack> fitFlight(FrameSource& source, const MovingPictures& moving,
                            const LinkedFlight& flight, std::span<const BallHint> clicks,
                            const TrackOptions& options, const std::stop_token& stop);

/// The first and the last frame that show the ball of a linked flight on its path, from the coarse
/// part of that fit. Errors: NotFound when fewer than 4 frames do; Cancelled; those of the source.
Result<FrameRange> seenInFlight(FrameSource& source, const MovingPictures& moving,
                                const LinkedFlight& flight, const TrackOptions& options,
                                const std::stop_token& stop);

/// Share of the outline's area, swept by smear, that lies inside the picture.
double visibleShare(const Ellipse& outline, PointPx smear, int width, int height);

}  // namespace core::image
