#include "core/spin/fit/spin_words.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace core::spin::fit {

namespace {

constexpr double kNamedShare = 1.0 / 3.0;
constexpr double kLeastForwardShare = 1e-3;  // of the flight's length

std::string textOf(const SpinWords& words) {
    std::array<std::pair<double, const char*>, 3> parts{
        {{words.topspin.rpm, words.topspin.rpm > 0.0 ? "topspin" : "backspin"},
         {words.sidespin.rpm,
          words.sidespin.rpm > 0.0 ? "sidespin to the left" : "sidespin to the right"},
         {words.gyrospin.rpm, "spin about the line of flight"}}};
    std::stable_sort(parts.begin(), parts.end(), [](const auto& a, const auto& b) {
        return std::abs(a.first) > std::abs(b.first);
    });
    const double whole = std::hypot(parts[0].first, parts[1].first, parts[2].first);
    std::string text = parts[0].second;
    const char* joint = " with ";
    for (std::size_t i = 1; i < parts.size(); ++i) {
        if (std::abs(parts[i].first) >= kNamedShare * whole) {
            text += joint;
            text += parts[i].second;
            joint = " and ";
        }
    }
    return text;
}

}  // namespace

Result<SpinWords> describeSpin(const Vector3& angularVelocity, const Vector3& flight) {
    const double spin = std::hypot(angularVelocity.x, angularVelocity.y, angularVelocity.z);
    const double length = std::hypot(flight.x, flight.y, flight.z);
    const double forward = std::hypot(flight.x, flight.z);
    if (!std::isfinite(spin) || !std::isfinite(length)) {
        return fail(ErrorCode::NotFinite, "The spin or the direction of flight is not a number.");
    }
    if (spin == 0.0 || forward <= kLeastForwardShare * length) {
        return fail(ErrorCode::OutOfRange,
                    "A ball at rest or in flight straight up or down has no topspin or backspin; "
                    "give a spin and a direction of flight across the view.");
    }
    const double vx = flight.x / forward;
    const double vz = flight.z / forward;
    // up = (0, -1, 0), so up x v = (-vz, 0, vx).
    SpinWords words;
    words.topspin = toRpm({angularVelocity.z * vx - angularVelocity.x * vz});
    words.sidespin = toRpm({-angularVelocity.y});
    words.gyrospin = toRpm({angularVelocity.x * vx + angularVelocity.z * vz});
    words.text = textOf(words);
    return words;
}

}  // namespace core::spin::fit
