#pragma once

#include "core/synthesis/geometry.h"

namespace core::synthesis {

/// A meeting with a firm surface that lasts no time.
struct Bounce {
    Seconds time{};                  ///< in capture time
    Vector3 normal{0.0, -1.0, 0.0};  ///< unit vector, from the surface towards the ball
    double restitution{0.75};        ///< speed off the surface over speed onto it
    double friction{0.5};            ///< coefficient of sliding friction
};

/// How a ball moves and turns.
struct BallMotion {
    Vector3 velocityMPerS{};
    Vector3 spinRadPerS{};
};

/// The motion after a bounce: elementary mechanics of a hollow ball (moment of inertia 2/3 m r^2).
/// The impulse off the surface is (1 + restitution) times what stops the ball; the one along it is
/// that of sliding friction, at most what makes the place of contact stand still. A ball that moves
/// off the surface is left as it is.
[[nodiscard]] BallMotion afterBounce(const BallMotion& before, double radiusM,
                                     const Bounce& bounce) noexcept;

}  // namespace core::synthesis
