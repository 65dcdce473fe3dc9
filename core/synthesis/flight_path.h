#pragma once

#include <memory>
#include <vector>

#include "core/synthesis/scene.h"

namespace core::synthesis {

/// Where the ball is, how it moves and how it is turned at one instant.
struct FlightState {
    Vector3 positionM;
    Vector3 velocityMPerS;
    Vector3 accelerationMPerS2;
    Quaternion attitude;
};

/// The motion of one flight. Immutable.
///
/// Without drag and lift the position is the closed form p + v t + g t^2/2; with them it is
/// integrated by the classical Runge-Kutta method of fourth order in steps of 0.5 ms. The angular
/// velocity is constant, but for a bounce.
class FlightPath {
public:
    FlightPath(const Flight& flight, const Air& air);

    /// State at a capture time. Meant for times between strike and strike + lifetime; a moving
    /// shutter may ask a little outside, where the motion is continued.
    [[nodiscard]] FlightState at(Seconds captureTime) const;
    [[nodiscard]] bool isUnderWay(Seconds captureTime) const noexcept;

private:
    struct Motion {
        Vector3 positionM;
        Vector3 velocityMPerS;
    };
    void fillGrid();
    void bounce(const Bounce& at);
    [[nodiscard]] Vector3 acceleration(const Vector3& velocityMPerS) const;
    [[nodiscard]] Motion stepped(const Motion& from, Seconds duration) const;

    Flight m_flight;
    Air m_air;
    bool m_isFreeFall{};
    double m_dragPerM{};
    double m_liftPerM{};
    std::vector<Motion> m_grid;
    std::shared_ptr<const FlightPath> m_afterBounce;
};

}  // namespace core::synthesis
