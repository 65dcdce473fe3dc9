#include "core/reading/shot_flight.h"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>

#include "core/reading/read_shot.h"

namespace core::reading {
namespace {

using Eigen::Vector3d;

constexpr double kStraightUp = 1e-6;  // of the speed that is left of the flight, seen from above

/// The axes of the flight, from its velocity: v, across, above.
struct FlightAxes {
    Vector3d along;
    Vector3d across;
    Vector3d above;
};

FlightAxes axesOf(const Vector3d& velocity) {
    const Vector3d up(0.0, -1.0, 0.0);
    FlightAxes axes;
    axes.along = velocity.normalized();
    axes.across = up.cross(axes.along).normalized();
    axes.above = axes.along.cross(axes.across);
    return axes;
}

/// Topspin, sidespin and rifle spin, rad/s.
Vector3d partsOf(const Vector3d& spin, const Vector3d& velocity) {
    const FlightAxes axes = axesOf(velocity);
    return {spin.dot(axes.across), -spin.dot(axes.above), spin.dot(axes.along)};
}

double tiltOf(const Vector3d& parts) {
    return std::atan2(parts.y(), std::abs(parts.x()));
}

/// Standard uncertainty of d(ln radius)/dt, per second, from a straight line through the radii.
double radiusSlopeSigma(const image::BallTrack& track) {
    double weights = 0.0;
    double moments = 0.0;
    double squares = 0.0;
    const double first = track.frames.front().time.seconds;
    for (const auto& ball : track.frames) {
        if (ball.source == image::BallSource::Measured) {
            const double t = ball.time.seconds - first;
            const double sigma = std::max(track.scatter.px, 0.05) / ball.radiusPx;
            const double weight = 1.0 / (sigma * sigma);
            weights += weight;
            moments += weight * t;
            squares += weight * t * t;
        }
    }
    const double spread = squares - moments * moments / std::max(weights, 1e-300);
    return spread > 0.0 ? 1.0 / std::sqrt(spread) : 0.0;
}

/// Standard uncertainties of the velocity, camera coordinates, m/s, taken as independent.
Vector3d velocitySigmas(const PictureReading& reading, const image::FlightFacts& flight) {
    const auto& focal = reading.track.focal;
    const double common = flight.speed.sigma.metresPerSecond;
    const double across = flight.speed.value.metresPerSecond * flight.launchAngle.sigma.radians;
    const double forward =
        std::hypot(flight.velocity.z * focal.sigma.px / std::max(focal.value.px, 1.0),
                   flight.distance.value.metres * radiusSlopeSigma(reading.track));
    return {common, across, forward};
}

/// Variances of partsOf() and of the tilt: the covariance of the spin and the uncertainty of the
/// velocity, carried on by differences.
Eigen::Matrix<double, 4, 1> variancesOf(const Vector3d& spin, const Eigen::Matrix3d& covariance,
                                        const Vector3d& velocity, const Vector3d& sigmas) {
    const auto all = [](const Vector3d& w, const Vector3d& v) {
        const Vector3d parts = partsOf(w, v);
        Eigen::Matrix<double, 4, 1> values;
        values << parts, tiltOf(parts);
        return values;
    };
    Eigen::Matrix<double, 4, 3> bySpin;
    Eigen::Matrix<double, 4, 3> byVelocity;
    const double spinStep = 1e-5 * std::max(spin.norm(), 1e-3);
    const double velocityStep = 1e-5 * velocity.norm();
    for (int i = 0; i < 3; ++i) {
        const Vector3d step = Vector3d::Unit(i);
        bySpin.col(i) =
            (all(spin + spinStep * step, velocity) - all(spin - spinStep * step, velocity)) /
            (2.0 * spinStep);
        byVelocity.col(i) = (all(spin, velocity + velocityStep * step) -
                             all(spin, velocity - velocityStep * step)) /
                            (2.0 * velocityStep);
    }
    const Eigen::Matrix3d ofVelocity = sigmas.cwiseAbs2().asDiagonal();
    return (bySpin * covariance * bySpin.transpose()).diagonal() +
           (byVelocity * ofVelocity * byVelocity.transpose()).diagonal();
}

Rpm toRate(double radiansPerSecond) {
    return toRpm(RadiansPerSecond{radiansPerSecond});
}

}  // namespace

std::optional<spin::fit::Vector3> topspinAxisOf(const image::BallTrack& track) {
    // A diameter scales the velocity and leaves its direction.
    const auto flight = image::flightOf(track, {{1.0}, {0.0}});
    if (!flight) {
        return std::nullopt;
    }
    const Vector3d velocity(flight.value().velocity.x, flight.value().velocity.y,
                            flight.value().velocity.z);
    if (std::hypot(velocity.x(), velocity.z()) <= kStraightUp * velocity.norm()) {
        return std::nullopt;
    }
    const Vector3d across = axesOf(velocity).across;
    return spin::fit::Vector3{across.x(), across.y(), across.z()};
}

std::optional<ShotFlight> shotFlightOf(const PictureReading& reading,
                                       Measured<image::Metres> ballDiameter) {
    if (!reading.rate || !reading.flight) {
        return std::nullopt;
    }
    const image::FlightFacts& flight = *reading.flight;
    const Vector3d velocity(flight.velocity.x, flight.velocity.y, flight.velocity.z);
    if (std::hypot(velocity.x(), velocity.z()) <= kStraightUp * velocity.norm()) {
        return std::nullopt;
    }
    const auto& omega = reading.fit.angularVelocity;
    const Vector3d spin(omega.x, omega.y, omega.z);
    Eigen::Matrix3d covariance;
    for (int i = 0; i < 3; ++i) {
        for (int j = 0; j < 3; ++j) {
            covariance(i, j) =
                reading.fit.covariance[static_cast<std::size_t>(i)][static_cast<std::size_t>(j)];
        }
    }
    const Vector3d parts = partsOf(spin, velocity);
    const auto variances = variancesOf(spin, covariance, velocity, velocitySigmas(reading, flight));
    const auto sigma = [&variances](int i) { return std::sqrt(std::max(variances(i), 0.0)); };
    const double speed = flight.speed.value.metresPerSecond;
    const double parameter = 0.5 * ballDiameter.value.metres * spin.norm() / speed;
    // The diameter scales the speed too: what it leaves cancels.
    const double relative = std::hypot(flight.speed.sigma.metresPerSecond / speed,
                                       reading.rate->sigma.rpm / reading.rate->value.rpm);
    return ShotFlight{.speed = flight.speed,
                      .launchAngle = flight.launchAngle,
                      .topspin = {toRate(parts.x()), toRate(sigma(0))},
                      .sidespin = {toRate(parts.y()), toRate(sigma(1))},
                      .rifleSpin = {toRate(parts.z()), toRate(sigma(2))},
                      .axisTilt = {{tiltOf(parts)}, {sigma(3)}},
                      .spinParameter = {{parameter}, {parameter * relative}}};
}

}  // namespace core::reading
