#pragma once

#include <Eigen/Core>

/// The perspective view of a ball. Module-internal: uses Eigen types.
///
/// A pixel (u, v) looks along d ~ ((u - cx)/f, (v - cy)/f, 1). With the ball's radius as unit of
/// length and its centre at C, the ray meets the surface at t d, and p = t d - C is the unit vector
/// from the ball's centre to that point. The outline of the ball in the picture is an ellipse:
///
///      camera o------------ d -------(p)~~~
///                \____ C = e/sin(a) ___ o   e: direction to the centre, a: angular radius
namespace core::spin::fit {

/// A pinhole camera with square pixels, principal point in the middle of the picture.
struct Pinhole {
    double focalPx{};
    Eigen::Vector2d middlePx;
};

/// Where one ball stands in the picture.
struct SphereImage {
    Eigen::Vector2d centrePx;  ///< projection of the ball's centre (not the outline's centre)
    double radiusPx{};         ///< radius of the circle of the outline's area
};

/// Unit vector to a picture point.
[[nodiscard]] Eigen::Vector3d rayThrough(const Pinhole& camera, const Eigen::Vector2d& pointPx);

/// Centre of the ball in units of its radius.
/// The area of the outline fixes the angular radius: semi-axes b = f sin a / sqrt(k),
/// c = f sin a cos a / k with k = cos^2(theta) - sin^2(a), theta the angle to the camera axis.
[[nodiscard]] Eigen::Vector3d ballCentre(const Pinhole& camera, const SphereImage& place);

/// Radius of the circle of the outline's area of a ball at centre (in units of its radius).
[[nodiscard]] double outlineRadiusPx(const Pinhole& camera, const Eigen::Vector3d& centre);

}  // namespace core::spin::fit
