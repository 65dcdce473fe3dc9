#include "core/synthesis/geometry.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>

namespace core::synthesis {
namespace {

Eigen::Vector3d toEigen(const Vector3& v) {
    return {v[0], v[1], v[2]};
}

Eigen::Quaterniond toEigen(const Quaternion& q) {
    return Eigen::Quaterniond{q.w, q.x, q.y, q.z}.normalized();
}

}  // namespace

double PinholeCamera::focalPx() const noexcept {
    return 0.5 * widthPx / std::tan(0.5 * fromDegrees(horizontalFieldOfViewDeg).radians);
}

PicturePoint PinholeCamera::principalPoint() const noexcept {
    return {0.5 * widthPx + shift.x, 0.5 * heightPx + shift.y};
}

PicturePoint PinholeCamera::project(const Vector3& pointM) const noexcept {
    const double f = focalPx();
    const PicturePoint middle = principalPoint();
    return {middle.x + f * pointM[0] / pointM[2], middle.y + f * pointM[1] / pointM[2]};
}

Ellipse outlineOfBall(const PinholeCamera& camera, const Vector3& centreM,
                      double radiusM) noexcept {
    const double distance = lengthOf(centreM);
    const double sinAlpha = radiusM / distance;
    const double cosAlpha = std::sqrt(1.0 - sinAlpha * sinAlpha);
    const double cosTheta = centreM[2] / distance;
    const double theta = std::acos(std::clamp(cosTheta, -1.0, 1.0));
    const double alpha = std::asin(sinAlpha);
    const double spread = cosTheta * cosTheta - sinAlpha * sinAlpha;
    const double f = camera.focalPx();
    const double fromMiddle = 0.5 * f * (std::tan(theta + alpha) + std::tan(theta - alpha));
    const double direction = std::atan2(centreM[1], centreM[0]);
    const PicturePoint middle = camera.principalPoint();
    return {.centre = {middle.x + fromMiddle * std::cos(direction),
                       middle.y + fromMiddle * std::sin(direction)},
            .semiMajorPx = f * sinAlpha * cosAlpha / spread,
            .semiMinorPx = f * sinAlpha / std::sqrt(spread),
            .majorAxisFromX = Radians{direction}};
}

Quaternion turned(const Quaternion& from, const Vector3& radiansPerSecond,
                  Seconds duration) noexcept {
    const Eigen::Vector3d turn = toEigen(radiansPerSecond) * duration.seconds;
    const double angle = turn.norm();
    if (angle == 0.0) {
        return from;
    }
    const Eigen::Quaterniond step{Eigen::AngleAxisd{angle, turn / angle}};
    const Eigen::Quaterniond q = (step * toEigen(from)).normalized();
    return {q.w(), q.x(), q.y(), q.z()};
}

Radians angleBetween(const Quaternion& a, const Quaternion& b) noexcept {
    return Radians{toEigen(a).angularDistance(toEigen(b))};
}

Vector3 rotated(const Quaternion& attitude, const Vector3& direction) noexcept {
    const Eigen::Vector3d v = toEigen(attitude) * toEigen(direction);
    return {v.x(), v.y(), v.z()};
}

Vector3 scaled(const Vector3& v, double factor) noexcept {
    return {v[0] * factor, v[1] * factor, v[2] * factor};
}

Vector3 sumOf(const Vector3& a, const Vector3& b) noexcept {
    return {a[0] + b[0], a[1] + b[1], a[2] + b[2]};
}

double lengthOf(const Vector3& v) noexcept {
    return std::sqrt(dotOf(v, v));
}

double dotOf(const Vector3& a, const Vector3& b) noexcept {
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

Vector3 crossOf(const Vector3& a, const Vector3& b) noexcept {
    return {a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]};
}

Vector3 unitOf(const Vector3& v) noexcept {
    const double length = lengthOf(v);
    return length > 0.0 ? scaled(v, 1.0 / length) : v;
}

}  // namespace core::synthesis
