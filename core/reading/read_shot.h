#pragma once

#include <optional>
#include <span>
#include <stop_token>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/image/flight_facts.h"
#include "core/image/frame_source.h"
#include "core/image/track_ball.h"
#include "core/reading/filming_facts.h"
#include "core/reading/readout_part.h"
#include "core/spin/fit/rotation_fit.h"
#include "core/timebase/clip_clock.h"

/// Spin from the pictures of a shot: the ball tracked, the rotation fitted.
namespace core::reading {

/// The pictures of the ball that a fit looks at. Move-only: the fit's input points into it.
class ShotPictures {
public:
    /// Cuts the ball, and what lies behind it, out of every frame of the track in which it was
    /// seen. Errors: those of the source.
    static Result<ShotPictures> cutOut(const image::BallTrack& track, image::FrameSource& source,
                                       const FilmingFacts& facts);
    ShotPictures(ShotPictures&&) noexcept = default;
    ShotPictures& operator=(ShotPictures&&) noexcept = default;
    ShotPictures(const ShotPictures&) = delete;
    ShotPictures& operator=(const ShotPictures&) = delete;
    ~ShotPictures() = default;

    [[nodiscard]] const spin::fit::FitInput& input() const noexcept { return m_input; }

private:
    ShotPictures() = default;
    Result<void> add(const image::BallTrack& track, image::FrameSource& source, std::size_t index);
    std::vector<PixelBuffer> m_pictures;  ///< of the ball, and of what lies behind it
    spin::fit::FitInput m_input;
};

/// A shot as the pictures tell it.
struct PictureReading {
    image::BallTrack track;
    spin::fit::FitOutcome fit;
    std::string reason;  ///< why there is no reading, in kept words; empty for a reading
    /// Rate and interval with the uncertainties of clock and readout in them; absent for no
    /// reading.
    std::optional<Measured<Rpm>> rate;
    std::optional<Interval<Rpm>> interval95;
    double clockRelativeSigma{};  ///< the part of it that the clip's shots share
    ReadoutPart readout;          ///< and the part that the camera's shots in this mode share
    /// Present when the ball's diameter is known and the track is long enough.
    std::optional<image::FlightFacts> flight;
    std::optional<image::GravityVerdict> gravity;

    /// The flight does not fall as it must at the clock's capture rate.
    [[nodiscard]] bool isClockRefuted() const noexcept {
        return gravity && gravity->kind == image::GravityVerdict::Kind::DoesNotFit;
    }
};

/// Completes a reading: the uncertainties of clock and readout are joined to the fit's, the flight
/// is worked out.
/// A reading on a clock that gravity refutes would be wrong by a factor, and is refused.
[[nodiscard]] PictureReading completeReading(image::BallTrack track, spin::fit::FitOutcome fit,
                                             const timebase::ClipClock& clock,
                                             const FilmingFacts& facts);

/// Tracks the ball in a range, led by the reviewer's clicks where there are any, and fits its
/// rotation. shot: its frames, where they are known (image::TrackOptions). The reading is of the
/// flight before the first kink of the path (image/kink.h), and a warning says so where the shot
/// was said to reach beyond. Errors: those of image::trackBall, image::trackFromClicks and the
/// source; Cancelled.
Result<PictureReading> readShot(image::FrameSource& source, const timebase::ClipClock& clock,
                                image::FrameRange range,
                                const std::optional<image::FrameRange>& shot,
                                std::span<const image::BallHint> clicks, const FilmingFacts& facts,
                                std::stop_token stop = {},
                                const spin::fit::FitProgress& progress = {});

}  // namespace core::reading
