#include "core/synthesis/flight_path.h"

#include <algorithm>
#include <cmath>

namespace core::synthesis {
namespace {

constexpr double kStepS = 0.0005;

}  // namespace

FlightPath::FlightPath(const Flight& flight, const Air& air) : m_flight{flight}, m_air{air} {
    const double radiusM = 0.5 * flight.ball.diameterM;
    const double perM = 0.5 * air.densityKgPerM3 * kPi * radiusM * radiusM / flight.ball.massKg;
    m_dragPerM = perM * air.dragCoefficient;
    m_liftPerM = perM * air.liftCoefficient;
    m_isFreeFall = m_dragPerM == 0.0 && m_liftPerM == 0.0;
    if (!m_isFreeFall) {
        fillGrid();
    }
    if (flight.bounce) {
        bounce(*flight.bounce);
    }
}

void FlightPath::fillGrid() {
    Motion motion{m_flight.positionM, m_flight.velocityMPerS};
    const auto steps = static_cast<std::size_t>(std::ceil(m_flight.lifetime.seconds / kStepS)) + 1;
    m_grid.reserve(steps);
    for (std::size_t i = 0; i < steps; ++i) {
        m_grid.push_back(motion);
        motion = stepped(motion, Seconds{kStepS});
    }
}

void FlightPath::bounce(const Bounce& at) {
    const FlightState before = this->at(at.time);
    const BallMotion after = afterBounce({before.velocityMPerS, m_flight.spinRadPerS},
                                         0.5 * m_flight.ball.diameterM, at);
    Flight flight = m_flight;
    flight.bounce.reset();
    flight.strike = at.time;
    flight.positionM = before.positionM;
    flight.velocityMPerS = after.velocityMPerS;
    flight.spinRadPerS = after.spinRadPerS;
    flight.attitude = before.attitude;
    m_afterBounce = std::make_shared<const FlightPath>(flight, m_air);
}

bool FlightPath::isUnderWay(Seconds captureTime) const noexcept {
    const double age = captureTime.seconds - m_flight.strike.seconds;
    return age >= 0.0 && age <= m_flight.lifetime.seconds;
}

Vector3 FlightPath::acceleration(const Vector3& velocityMPerS) const {
    const double speed = lengthOf(velocityMPerS);
    const Vector3 across = crossOf(unitOf(m_flight.spinRadPerS), unitOf(velocityMPerS));
    const Vector3 drag = scaled(velocityMPerS, -m_dragPerM * speed);
    const Vector3 lift = scaled(across, m_liftPerM * speed * speed);
    return sumOf(m_air.gravityMPerS2, sumOf(drag, lift));
}

FlightPath::Motion FlightPath::stepped(const Motion& from, Seconds duration) const {
    const double h = duration.seconds;
    const Vector3 v1 = from.velocityMPerS;
    const Vector3 a1 = acceleration(v1);
    const Vector3 v2 = sumOf(v1, scaled(a1, 0.5 * h));
    const Vector3 a2 = acceleration(v2);
    const Vector3 v3 = sumOf(v1, scaled(a2, 0.5 * h));
    const Vector3 a3 = acceleration(v3);
    const Vector3 v4 = sumOf(v1, scaled(a3, h));
    const Vector3 a4 = acceleration(v4);
    Motion to;
    for (std::size_t i = 0; i < 3; ++i) {
        to.positionM[i] = from.positionM[i] + h / 6.0 * (v1[i] + 2.0 * (v2[i] + v3[i]) + v4[i]);
        to.velocityMPerS[i] = v1[i] + h / 6.0 * (a1[i] + 2.0 * (a2[i] + a3[i]) + a4[i]);
    }
    return to;
}

FlightState FlightPath::at(Seconds captureTime) const {
    if (m_afterBounce && captureTime > m_flight.bounce->time) {
        return m_afterBounce->at(captureTime);
    }
    const double age = captureTime.seconds - m_flight.strike.seconds;
    Motion motion;
    if (m_isFreeFall) {
        const Vector3& g = m_air.gravityMPerS2;
        motion.positionM = sumOf(m_flight.positionM, sumOf(scaled(m_flight.velocityMPerS, age),
                                                           scaled(g, 0.5 * age * age)));
        motion.velocityMPerS = sumOf(m_flight.velocityMPerS, scaled(g, age));
    } else {
        const double place = std::clamp(age / kStepS, 0.0, static_cast<double>(m_grid.size() - 1));
        const auto index = static_cast<std::size_t>(place);
        motion = stepped(m_grid[index], Seconds{age - static_cast<double>(index) * kStepS});
    }
    return {.positionM = motion.positionM,
            .velocityMPerS = motion.velocityMPerS,
            .accelerationMPerS2 = acceleration(motion.velocityMPerS),
            .attitude = turned(m_flight.attitude, m_flight.spinRadPerS, Seconds{age})};
}

}  // namespace core::synthesis
