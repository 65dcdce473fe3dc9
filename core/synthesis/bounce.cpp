#include "core/synthesis/bounce.h"

#include <algorithm>

namespace core::synthesis {

BallMotion afterBounce(const BallMotion& before, double radiusM, const Bounce& bounce) noexcept {
    constexpr double kInertia = 2.0 / 3.0;  // over m r^2
    const double onto = -dotOf(before.velocityMPerS, bounce.normal);
    if (onto <= 0.0) {
        return before;
    }
    const Vector3 toContact = scaled(bounce.normal, -radiusM);
    const Vector3 along =
        sumOf(before.velocityMPerS, scaled(bounce.normal, onto));  // of the centre
    const Vector3 slip = sumOf(along, crossOf(before.spinRadPerS, toContact));
    // Impulses over the mass. An impulse j along the surface changes the slip by
    // j (1 + 1/kInertia).
    const double off = (1.0 + bounce.restitution) * onto;
    const double toStopSlip = lengthOf(slip) / (1.0 + 1.0 / kInertia);
    const Vector3 rubbed = scaled(unitOf(slip), -std::min(bounce.friction * off, toStopSlip));
    const Vector3 turned = scaled(crossOf(toContact, rubbed), 1.0 / (kInertia * radiusM * radiusM));
    return {sumOf(before.velocityMPerS, sumOf(scaled(bounce.normal, off), rubbed)),
            sumOf(before.spinRadPerS, turned)};
}

}  // namespace core::synthesis
