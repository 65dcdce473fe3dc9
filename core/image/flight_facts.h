#pragma once

#include <optional>
#include <string>

#include "core/base/result.h"
#include "core/image/ball_track.h"
#include "core/timebase/frame_time.h"
#include "core/timebase/free_fall.h"

namespace core::image {

struct MetresPerSecond {
    double metresPerSecond{};
    auto operator<=>(const MetresPerSecond&) const = default;
};

struct MetresPerSecondSquared {
    double metresPerSecondSquared{};
    auto operator<=>(const MetresPerSecondSquared&) const = default;
};

struct Metres {
    double metres{};
    auto operator<=>(const Metres&) const = default;
};

/// A direction or velocity in the camera frame: x right, y down, z forward.
struct CameraVector {
    double x{};
    double y{};
    double z{};
};

/// What a track says of the flight once the ball's diameter is known. Immutable value.
///
/// The camera is taken as level. Uncertainties (one sigma) cover the track, the focal length and
/// the ball's diameter; not the clock, a tilted camera, or drag within the flight.
struct FlightFacts {
    CameraVector velocity;            ///< m/s, at the first frame of the track
    Measured<MetresPerSecond> speed;  ///< its length
    /// Rise above the horizontal: positive upwards.
    Measured<Radians> launchAngle;
    /// Acceleration towards the ground in the middle of the flight: gravity, less or more what lift
    /// and drag do.
    Measured<MetresPerSecondSquared> downwardAcceleration;
    Measured<Metres> distance;  ///< from the camera at the first frame
};

/// Speed, launch angle and acceleration from a track.
/// Errors: OutOfRange unless diameter > 0 and its sigma >= 0; Untrustworthy when fewer than 4
/// frames of the track are measured.
Result<FlightFacts> flightOf(const BallTrack& track, Measured<Metres> ballDiameter);

/// Whether the flight falls as it must if the clip was captured at the rate that the clock assumes.
struct GravityVerdict {
    using Kind = timebase::FallVerdict;
    Kind kind{Kind::CannotTell};
    /// True rate over assumed rate if gravity alone acted: sqrt(g / downward acceleration), with
    /// g = 9.80665 m/s^2 (3rd CGPM, 1901). Zero when the ball does not fall.
    double factor{};
    /// The rate nearest to factor times the assumed one among those that cameras have, when the
    /// flight does not fit.
    std::optional<timebase::CaptureRate> likelier;
    /// One sentence, for example "The flight fits a capture rate of 240, not 30."
    /// As it is kept; for people by saidKept().
    std::string statement;
};

/// timebase::judgeFall() on the flight, in words.
GravityVerdict checkGravity(const FlightFacts& flight, timebase::CaptureRate assumed);

}  // namespace core::image
