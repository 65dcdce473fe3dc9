#include "core/image/projected_sphere.h"

#include <cmath>

#include "core/base/expects.h"

namespace core::image {

Camera cameraFromFieldOfView(int width, int height, Radians horizontal) {
    CORE_EXPECTS(width > 0 && height > 0 && horizontal.radians > 0.0 && horizontal.radians < kPi);
    return {width, height, 0.5 * width / std::tan(0.5 * horizontal.radians)};
}

PointPx projectCentre(const Camera& camera, const SpherePosition& sphere) {
    const PointPx middle = camera.principalPoint();
    return {middle.x + camera.focalPx * sphere.x / sphere.z,
            middle.y + camera.focalPx * sphere.y / sphere.z};
}

// In the plane through the optical axis and the sphere's centre the tangent rays lie at angles
// beta +- alpha, sin(alpha) = 1 / distance, tan(beta) = off-axis / z; the rest is trigonometry.
std::optional<Ellipse> outlineOf(const Camera& camera, const SpherePosition& sphere) {
    const double depth2 = sphere.z * sphere.z - 1.0;
    if (sphere.z <= 1.0) {
        return std::nullopt;
    }
    const double offAxis2 = sphere.x * sphere.x + sphere.y * sphere.y;
    const double f = camera.focalPx;
    const PointPx middle = camera.principalPoint();
    Ellipse ellipse;
    ellipse.centre = {middle.x + f * sphere.x * sphere.z / depth2,
                      middle.y + f * sphere.y * sphere.z / depth2};
    ellipse.semiMinorPx = f / std::sqrt(depth2);
    ellipse.semiMajorPx = f * std::sqrt(offAxis2 + depth2) / depth2;
    double angle = offAxis2 > 0.0 ? std::atan2(sphere.y, sphere.x) : 0.0;
    if (angle > 0.5 * kPi) {
        angle -= kPi;
    } else if (angle <= -0.5 * kPi) {
        angle += kPi;
    }
    ellipse.angle = {angle};
    return ellipse;
}

SpherePosition sphereFromPicture(const Camera& camera, PointPx centre, double meanRadiusPx) {
    CORE_EXPECTS(meanRadiusPx > 0.0 && camera.focalPx > 0.0);
    const PointPx middle = camera.principalPoint();
    const double slopeX = (centre.x - middle.x) / camera.focalPx;
    const double slopeY = (centre.y - middle.y) / camera.focalPx;
    const double spread = 1.0 + slopeX * slopeX + slopeY * slopeY;
    // (r/f)^4 = (spread z^2 - 1) / (z^2 - 1)^3, falling in v = z^2 - 1 > 0; Newton on logarithms.
    const double target = 4.0 * std::log(meanRadiusPx / camera.focalPx);
    double logV = 0.5 * (std::log(spread) - target);
    constexpr int kMaxSteps = 50;
    for (int step = 0; step < kMaxSteps; ++step) {
        const double v = std::exp(logV);
        const double inner = spread * (v + 1.0) - 1.0;
        const double value = std::log(inner) - 3.0 * logV - target;
        const double change = value / (spread * v / inner - 3.0);
        logV -= change;
        if (std::abs(change) < 1e-14) {
            break;
        }
    }
    const double z = std::sqrt(1.0 + std::exp(logV));
    return {slopeX * z, slopeY * z, z};
}

}  // namespace core::image
