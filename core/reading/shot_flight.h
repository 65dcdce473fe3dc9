#pragma once

#include <optional>

#include "core/base/units.h"
#include "core/image/flight_facts.h"
#include "core/spin/fit/rotation_fit.h"

namespace core::reading {

struct PictureReading;

/// A ratio without a unit.
struct Ratio {
    double value{};
    auto operator<=>(const Ratio&) const = default;
};

/// How a ball flies and turns, in terms of its flight. Immutable value; uncertainties are one
/// sigma, and cover what FlightFacts and the rotation fit cover, taken as independent.
///
/// With v the unit vector of the velocity and up the vertical (the camera is taken as level),
///   across = up x v / |up x v|, which points to the left of the flight,
///   above  = v x across,
/// the angular velocity w (right-handed) has the parts
///   topspin     w . across   the upper side of the ball runs forward; negative: backspin,
///   sidespin   -w . above    seen from above it turns clockwise, and the ball curves to the right,
///   rifle spin  w . v        about the direction of flight, which bends no path.
struct ShotFlight {
    Measured<image::MetresPerSecond> speed;  ///< at the first frame of the track
    Measured<Radians> launchAngle;           ///< above the horizontal
    Measured<Rpm> topspin;
    Measured<Rpm> sidespin;
    Measured<Rpm> rifleSpin;
    /// Between the horizontal and the axis as seen along the flight: 0 for pure topspin or
    /// backspin, positive for sidespin to the right, at most a quarter turn.
    Measured<Radians> axisTilt;
    /// S = R w / v with the ball's radius R and the whole spin w (Nathan 2008, Am. J. Phys.
    /// 76:119).
    Measured<Ratio> spinParameter;
};

/// Absent without a rate, without the ball's diameter, and for a ball that flies straight up.
[[nodiscard]] std::optional<ShotFlight> shotFlightOf(const PictureReading& reading,
                                                     Measured<image::Metres> ballDiameter);

/// The direction of an angular velocity that is all topspin, camera coordinates; absent for a track
/// that is too short to tell the flight, and for a ball that flies straight up.
[[nodiscard]] std::optional<spin::fit::Vector3> topspinAxisOf(const image::BallTrack& track);

}  // namespace core::reading
