#pragma once

#include <optional>
#include <span>
#include <stop_token>

#include "core/base/result.h"
#include "core/image/ball_track.h"
#include "core/image/frame_source.h"
#include "core/image/moving_blobs.h"
#include "core/image/sensor_rows.h"
#include "core/timebase/clip_clock.h"

namespace core::image {

struct TrackOptions {
    /// Focal length in pixels, where the field of view is known.
    std::optional<double> focalPx;
    /// Time from the row of the sensor that is read first to the last; zero for a global shutter;
    /// absent: estimated from the outlines.
    std::optional<Seconds> readout;
    RowOrder rowOrder{RowOrder::Down};
    /// The frames of the shot, where they are known; the range may reach beyond, for background.
    /// Flights that are seen in fewer than three of them are others.
    std::optional<FrameRange> shot{};
};

/// Standard uncertainty of a place that a person pointed at, in radii of the ball.
inline constexpr double kClickSigmaRadii = 0.12;

/// The reviewer says: here is the ball.
struct BallHint {
    timebase::FrameIndex frame;
    PointPx centre;
    std::optional<double> radiusPx;  ///< when the reviewer drew the circle too
};

/// Follows the struck ball through the frames of a range: the object that moves like a ball in
/// flight (constant acceleration, steady size), not the hitter, a shadow or a net.
///
/// Background from the frames without the ball, candidates by colour difference, ballistic linking,
/// then a fit of the projected, swept sphere to the pixels about its outline in all frames at once
/// (shared path, exposure, focal length; small deviations of the single centres allowed).
/// The range may begin before the strike and end after the ball has left the picture.
/// Frames of the range are read once, at reduced size, then only about the ball.
/// Of several flights the fast and long one is taken for the struck ball, and of flights that go on
/// in each other, as before and after a bounce, the first one after the last strike (kink.h). The
/// track ends before the first kink of its path.
/// Errors: OutOfRange (range outside the clip, fewer than 5 or more than 600 frames); NotFound (no
/// flight of at least 4 frames, only a shadow, or an outline that jumps about its path);
/// Untrustworthy (fewer than kFewestBeforeKink frames before a kink); Cancelled; those of the
/// source.
Result<BallTrack> trackBall(FrameSource& source, const timebase::ClipClock& clock, FrameRange range,
                            const TrackOptions& options, std::stop_token stop = {});

/// The first and the last frame in which the ball that trackBall() would follow shows on its path,
/// from what was found to move before, and without its place in fractions of a pixel: a small part
/// of the work. Errors: NotFound (no flight, or fewer than 4 frames show a ball on one); Cancelled;
/// those of the source.
Result<FrameRange> framesWithBall(FrameSource& source, const MovingPictures& moving,
                                  const TrackOptions& options, std::stop_token stop = {});

/// The same as trackBall(), led by clicks in at least one frame: clicks replace the search; the fit
/// starts from them and each clicked frame is held to its click within the reviewer's hand. Where
/// no fit is possible the centres are interpolated between the clicks (at least two) and are of
/// source Clicked, from the first click to the last. Clicks beyond a kink of the path are not used.
/// Errors: as trackBall; InvalidInput for no click, two clicks in a frame, or a click outside
/// range.
Result<BallTrack> trackFromClicks(FrameSource& source, const timebase::ClipClock& clock,
                                  FrameRange range, std::span<const BallHint> clicks,
                                  const TrackOptions& options, std::stop_token stop = {});

}  // namespace core::image
