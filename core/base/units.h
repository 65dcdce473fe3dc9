#pragma once

#include <compare>
#include <numbers>

namespace core {

inline constexpr double kPi = std::numbers::pi;

/// Plane angle in radians.
struct Radians {
    double radians{};
    auto operator<=>(const Radians&) const = default;
};

/// Duration or instant in seconds, once it has left exact ticks (see core/timebase).
struct Seconds {
    double seconds{};
    auto operator<=>(const Seconds&) const = default;
};

/// Spin rate in turns per minute. 1 rpm = 2 pi/60 rad/s (SI Brochure, 9th edition, table 4 note on
/// revolutions; ISO 80000-3).
struct Rpm {
    double rpm{};
    auto operator<=>(const Rpm&) const = default;
};

/// Angular velocity in radians per second.
struct RadiansPerSecond {
    double radiansPerSecond{};
    auto operator<=>(const RadiansPerSecond&) const = default;
};

[[nodiscard]] constexpr Radians fromDegrees(double degrees) noexcept {
    return {degrees * kPi / 180.0};
}
[[nodiscard]] constexpr double toDegrees(Radians angle) noexcept {
    return angle.radians * 180.0 / kPi;
}
[[nodiscard]] constexpr RadiansPerSecond toRadiansPerSecond(Rpm rate) noexcept {
    return {rate.rpm * 2.0 * kPi / 60.0};
}
[[nodiscard]] constexpr Rpm toRpm(RadiansPerSecond rate) noexcept {
    return {rate.radiansPerSecond * 60.0 / (2.0 * kPi)};
}

/// A value with its standard uncertainty (one sigma), both in Unit (JCGM 200:2012, 2.30).
template <class Unit>
struct Measured {
    Unit value{};
    Unit sigma{};
};

/// Closed interval [low, high] of a quantity.
template <class Unit>
struct Interval {
    Unit low{};
    Unit high{};
    auto operator<=>(const Interval&) const = default;
};

}  // namespace core
