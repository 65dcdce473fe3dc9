#include "core/spin/fit/rotation.h"

#include <Eigen/Geometry>
#include <cmath>

#include "core/base/units.h"

namespace core::spin::fit {

namespace {
constexpr double kSmallAngle =
    1e-8;  // below it the second-order series is exact to double precision
}

Eigen::Matrix3d crossMatrix(const Eigen::Vector3d& v) {
    Eigen::Matrix3d m;
    m << 0.0, -v.z(), v.y(), v.z(), 0.0, -v.x(), -v.y(), v.x(), 0.0;
    return m;
}

Eigen::Matrix3d rotationFromVector(const Eigen::Vector3d& rotationVector) {
    const double angle = rotationVector.norm();
    const Eigen::Matrix3d k = crossMatrix(rotationVector);
    if (angle < kSmallAngle) {
        return Eigen::Matrix3d::Identity() + k + 0.5 * k * k;
    }
    const double half = std::sin(0.5 * angle) / (0.5 * angle);
    return Eigen::Matrix3d::Identity() + (std::sin(angle) / angle) * k + 0.5 * half * half * k * k;
}

Eigen::Matrix3d rightJacobian(const Eigen::Vector3d& rotationVector) {
    const double angle = rotationVector.norm();
    const Eigen::Matrix3d k = crossMatrix(rotationVector);
    if (angle < 1e-5) {  // the closed form loses digits here; the series error is below 1e-15
        return Eigen::Matrix3d::Identity() - 0.5 * k + k * k / 6.0;
    }
    const double half = std::sin(0.5 * angle) / (0.5 * angle);
    return Eigen::Matrix3d::Identity() - 0.5 * half * half * k +
           ((angle - std::sin(angle)) / (angle * angle * angle)) * k * k;
}

}  // namespace core::spin::fit
