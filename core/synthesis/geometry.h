#pragma once

#include <array>

#include "core/base/units.h"

namespace core::synthesis {

/// Camera coordinates: x right, y down, z forward (away from the camera), right-handed. The origin
/// is the centre of projection. Lengths in metres unless the name says otherwise.
using Vector3 = std::array<double, 3>;

/// Rotation from ball to camera coordinates as a unit quaternion: a point p of the ball's own
/// surface is seen in direction R(q) p. The attitude after a time dt at angular velocity w is
/// exp(w dt) q: the turn is multiplied from the left, because w is in camera coordinates.
struct Quaternion {
    double w{1.0};
    double x{};
    double y{};
    double z{};
};

/// A place in the picture in pixels. The centre of the top left pixel lies at (0.5, 0.5).
struct PicturePoint {
    double x{};
    double y{};
};

/// Perspective camera with square pixels and no distortion.
///
/// The principal point is the centre of the picture, moved by shift (camera shake).
struct PinholeCamera {
    int widthPx{1280};
    int heightPx{720};
    double horizontalFieldOfViewDeg{60.0};
    PicturePoint shift{};

    /// Distance from the centre of projection to the picture plane: w / (2 tan(fov/2)).
    [[nodiscard]] double focalPx() const noexcept;
    [[nodiscard]] PicturePoint principalPoint() const noexcept;
    /// Needs a point in front of the camera (z > 0).
    [[nodiscard]] PicturePoint project(const Vector3& pointM) const noexcept;
};

/// An ellipse in the picture.
struct Ellipse {
    PicturePoint centre;
    double semiMajorPx{};
    double semiMinorPx{};
    Radians majorAxisFromX;  ///< positive from x towards y (clockwise on the screen)
};

/// The outline of a ball in a perspective picture: the conic in which the cone of tangent rays
/// meets the picture plane. Its centre is not the projection of the ball's centre, and its long
/// axis points at the principal point. With theta the angle between the optical axis and the
/// direction of the ball and sin alpha = radius / distance:
///
///   centre at f/2 (tan(theta + alpha) + tan(theta - alpha)) from the principal point
///   a = f sin alpha cos alpha / (cos^2 theta - sin^2 alpha)
///   b = f sin alpha / sqrt(cos^2 theta - sin^2 alpha)
///
/// The ball must lie wholly in front of the plane z = 0 (theta + alpha < 90 degrees).
[[nodiscard]] Ellipse outlineOfBall(const PinholeCamera& camera, const Vector3& centreM,
                                    double radiusM) noexcept;

/// Attitude after turning from `from` for the given time at a constant angular velocity in camera
/// coordinates.
[[nodiscard]] Quaternion turned(const Quaternion& from, const Vector3& radiansPerSecond,
                                Seconds duration) noexcept;

/// Smallest angle of a rotation that carries one attitude into the other, in [0, pi].
[[nodiscard]] Radians angleBetween(const Quaternion& a, const Quaternion& b) noexcept;

/// A direction of the ball's own frame seen in camera coordinates.
[[nodiscard]] Vector3 rotated(const Quaternion& attitude, const Vector3& direction) noexcept;

[[nodiscard]] Vector3 scaled(const Vector3& v, double factor) noexcept;
[[nodiscard]] Vector3 sumOf(const Vector3& a, const Vector3& b) noexcept;
[[nodiscard]] double lengthOf(const Vector3& v) noexcept;
[[nodiscard]] double dotOf(const Vector3& a, const Vector3& b) noexcept;
[[nodiscard]] Vector3 crossOf(const Vector3& a, const Vector3& b) noexcept;
/// The zero vector stays zero.
[[nodiscard]] Vector3 unitOf(const Vector3& v) noexcept;

}  // namespace core::synthesis
