#include "core/spin/fit/spin_words.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "core/base/words.h"

namespace core::spin::fit {

namespace {

constexpr double kNamedShare = 1.0 / 3.0;
constexpr double kLeastForwardShare = 1e-3;  // of the flight's length

std::string textOf(const SpinWords& words) {
    std::array<std::pair<double, std::string>, 3> parts{
        {{words.topspin.rpm, words.topspin.rpm > 0.0 ? said("topspin") : said("backspin")},
         {words.sidespin.rpm,
          words.sidespin.rpm > 0.0 ? said("sidespin to the left") : said("sidespin to the right")},
         {words.gyrospin.rpm, said("spin about the line of flight")}}};
    std::stable_sort(parts.begin(), parts.end(), [](const auto& a, const auto& b) {
        return std::abs(a.first) > std::abs(b.first);
    });
    const double whole = std::hypot(parts[0].first, parts[1].first, parts[2].first);
    const auto isNamed = [whole](const auto& part) {
        return std::abs(part.first) >= kNamedShare * whole;
    };
    if (!isNamed(parts[1])) {
        return parts[0].second;
    }
    return isNamed(parts[2])
               ? said("{} with {} and {}", parts[0].second, parts[1].second, parts[2].second)
               : said("{} with {}", parts[0].second, parts[1].second);
}

}  // namespace

Result<SpinWords> describeSpin(const Vector3& angularVelocity, const Vector3& flight) {
    const double spin = std::hypot(angularVelocity.x, angularVelocity.y, angularVelocity.z);
    const double length = std::hypot(flight.x, flight.y, flight.z);
    const double forward = std::hypot(flight.x, flight.z);
    if (!std::isfinite(spin) || !std::isfinite(length)) {
        return fail(ErrorCode::NotFinite,
                    said("The spin or the direction of flight is not a number."));
    }
    if (spin == 0.0 || forward <= kLeastForwardShare * length) {
        return fail(ErrorCode::OutOfRange,
                    said("A ball at rest or in flight straight up or down has no topspin or "
                         "backspin; give a spin and a direction of flight across the view."));
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
