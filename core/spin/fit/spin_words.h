#pragma once

#include <string>

#include "core/base/result.h"
#include "core/spin/fit/rotation_fit.h"

/// Words of the trade for the sign and the axis of a spin.
namespace core::spin::fit {

/// A spin in the terms of the ball's flight. Immutable value.
///
/// With v the direction of flight and up the vertical, both in camera coordinates:
///
///      up                        topspin   about  up x v: the top of the ball moves forward
///       |   o-> v   (seen from   sidespin  about  up:     positive curves the flight to the left
///       |           the side)    gyrospin  about  v:      positive is clockwise seen from behind
///
/// The lift of a spinning ball acts along (axis x v): topspin presses it down, backspin holds it
/// up, spin about the direction of flight does neither.
struct SpinWords {
    Rpm topspin;   ///< component; negative: backspin
    Rpm sidespin;  ///< component; seen from behind, positive bends to the left
    Rpm gyrospin;  ///< component along the flight
    /// For example "backspin", "topspin with sidespin to the left", "spin about the line of
    /// flight".
    std::string text;
};

/// Resolves an angular velocity (rad/s) along the flight. flight: direction of flight, any length,
/// camera coordinates; where only the picture is known its z is 0. The camera is taken as level:
/// up is against y, and only the part of flight square to it counts as forward.
///
/// A component is named when it is at least a third of the whole (axis within 70.5 degrees of it);
/// the strongest comes first. Common practice, no source for the limit.
///
/// Errors: NotFinite; OutOfRange for a spin of zero or a flight straight up or down, which has no
/// forward.
Result<SpinWords> describeSpin(const Vector3& angularVelocity, const Vector3& flight);

}  // namespace core::spin::fit
