#include "core/spin/fit/projected_sphere.h"

#include <algorithm>
#include <cmath>

namespace core::spin::fit {

Eigen::Vector3d rayThrough(const Pinhole& camera, const Eigen::Vector2d& pointPx) {
    const Eigen::Vector2d plane = (pointPx - camera.middlePx) / camera.focalPx;
    return Eigen::Vector3d{plane.x(), plane.y(), 1.0}.normalized();
}

double outlineRadiusPx(const Pinhole& camera, const Eigen::Vector3d& centre) {
    const double sine = 1.0 / centre.norm();
    const double cosAxis = centre.z() * sine;
    const double k = cosAxis * cosAxis - sine * sine;
    const double cosine = std::sqrt(1.0 - sine * sine);
    return camera.focalPx * sine * std::sqrt(cosine) / std::pow(k, 0.75);
}

Eigen::Vector3d ballCentre(const Pinhole& camera, const SphereImage& place) {
    const Eigen::Vector3d towards = rayThrough(camera, place.centrePx);
    const double cosAxis = towards.z();
    // sin a grows with the outline; start from the small-ball limit and correct by the ratio.
    double sine = place.radiusPx / camera.focalPx * std::pow(cosAxis, 1.5);
    for (int i = 0; i < 4; ++i) {  // each step gains a factor sin^2(a): exact after three
        sine = std::min(sine, 0.9 * cosAxis);
        sine *= place.radiusPx / outlineRadiusPx(camera, towards / sine);
    }
    return towards / std::min(sine, 0.9 * cosAxis);
}

}  // namespace core::spin::fit
