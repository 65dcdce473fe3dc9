#pragma once

#include <optional>

#include "core/base/units.h"

namespace core::image {

/// A point or displacement in picture coordinates, pixels: x right, y down, the centre of the top
/// left pixel at (0.5, 0.5).
struct PointPx {
    double x{};
    double y{};
    bool operator==(const PointPx&) const = default;
};

/// An ideal camera: square pixels, no lens distortion, the optical axis through the centre of the
/// picture. Camera frame: x right, y down, z forward.
struct Camera {
    int width{};
    int height{};
    double focalPx{};

    [[nodiscard]] PointPx principalPoint() const noexcept { return {0.5 * width, 0.5 * height}; }
};

/// The camera of this picture size whose view across the width is the given angle, 0 < angle < pi.
[[nodiscard]] Camera cameraFromFieldOfView(int width, int height, Radians horizontal);

/// An ellipse in the picture.
struct Ellipse {
    PointPx centre;
    double semiMajorPx{};
    double semiMinorPx{};
    Radians angle;  ///< of the major axis, from x towards y, in (-pi/2, pi/2]
};

/// A sphere before a camera, lengths in radii of the sphere. z > 1.
struct SpherePosition {
    double x{};
    double y{};
    double z{};
};

/// Projection of the sphere's centre.
[[nodiscard]] PointPx projectCentre(const Camera& camera, const SpherePosition& sphere);

/// The sphere's outline in the picture: the cone of rays that touch the sphere, cut by the picture
/// plane (Hartley & Zisserman, Multiple View Geometry, 2nd ed., 8.3). Its centre is not the
/// projection of the sphere's centre. Absent when the sphere reaches into the camera's plane, where
/// the outline is no ellipse.
[[nodiscard]] std::optional<Ellipse> outlineOf(const Camera& camera, const SpherePosition& sphere);

/// The sphere whose centre projects to centre and whose outline has the area of a circle of
/// meanRadiusPx (the geometric mean of the semi-axes). Inverse of the two functions above.
/// meanRadiusPx > 0.
[[nodiscard]] SpherePosition sphereFromPicture(const Camera& camera, PointPx centre,
                                               double meanRadiusPx);

}  // namespace core::image
