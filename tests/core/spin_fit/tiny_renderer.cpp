#include "tests/core/spin_fit/tiny_renderer.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>

namespace tests {

namespace {

constexpr int kWidth = 1280;
constexpr int kHeight = 720;
const Eigen::Quaterniond kStart = Eigen::Quaterniond{0.5, -0.3, 0.7, 0.4}.normalized();

Eigen::Vector3d paintAt(Paint paint, const Eigen::Vector3d& q) {
    const Eigen::Vector3d light{0.75, 0.7, 0.2};
    const Eigen::Vector3d dark{0.05, 0.08, 0.15};
    switch (paint) {
        case Paint::QuarterDark:
            return q.x() > 0.0 && q.y() > 0.0 ? dark : light;
        case Paint::HalfDark:
            return q.x() > 0.0 ? dark : light;
        case Paint::Band:
            return std::abs(q.x()) < 0.25 ? dark : light;
        case Paint::FarDot:
            return (kStart * q).z() > 0.85 ? dark : light;
        case Paint::Plain:
            break;
    }
    return light;
}

/// Linear light seen along a ray.
Eigen::Vector3d lightAlong(const Eigen::Vector3d& ray, const Eigen::Vector3d& centre,
                           const Eigen::Matrix3d& turnBack, Paint paint) {
    const double along = ray.dot(centre);
    const double inside = along * along - centre.squaredNorm() + 1.0;
    if (inside <= 0.0) {
        return {0.3, 0.35, 0.4};
    }
    const Eigen::Vector3d p = (along - std::sqrt(inside)) * ray - centre;
    const Eigen::Vector3d sun = Eigen::Vector3d{-0.4, -0.8, -0.5}.normalized();
    return (0.35 + 0.65 * std::max(0.0, p.dot(sun))) * paintAt(paint, turnBack * p);
}

}  // namespace

TinyFootage::TinyFootage(const TinyScene& scene) {
    std::mt19937 generator{scene.seed};
    std::normal_distribution<double> normal;
    const double tangent = std::tan(scene.fieldOfViewDegrees * std::numbers::pi / 360.0);
    const double focal = 0.5 * kWidth / tangent;
    const double depth = focal / scene.radiusPx;
    input.camera.widthPx = kWidth;
    input.camera.heightPx = kHeight;
    for (int i = 0; i < scene.frames; ++i) {
        const double along = static_cast<double>(i) / (scene.frames - 1) - 0.5;
        const double time = i / scene.framesPerSecond;
        const Eigen::Vector3d centre{2.0 * tangent * depth * scene.shareCrossed * along,
                                     depth * (0.3 * along * along - 0.03 - scene.raisedPx / focal),
                                     depth * (1.0 + 0.05 * along)};
        const Eigen::AngleAxisd turned{scene.angularVelocity.norm() * time,
                                       scene.angularVelocity.normalized()};
        const Eigen::Matrix3d turnBack =
            (turned.toRotationMatrix() * kStart.toRotationMatrix()).transpose();
        const double x = 0.5 * kWidth + focal * centre.x() / centre.z();
        const double y = 0.5 * kHeight + focal * centre.y() / centre.z();
        const int reach = static_cast<int>(1.5 * scene.radiusPx) + 4;
        const int left = std::max(0, static_cast<int>(x) - reach);
        const int top = std::max(0, static_cast<int>(y) - reach);
        const int right = std::min(kWidth, static_cast<int>(x) + reach);
        const int bottom = std::min(kHeight, static_cast<int>(y) + reach);
        if (right <= left || bottom <= top) {
            continue;  // nothing of the ball is inside the picture
        }
        core::PixelBuffer& picture =
            m_pictures.emplace_back(right - left, bottom - top, core::PixelFormat::Rgb8);
        for (int v = top; v < bottom; ++v) {
            for (int u = left; u < right; ++u) {
                Eigen::Vector3d sum = Eigen::Vector3d::Zero();
                for (int s = 0; s < 4; ++s) {
                    const double px = u + 0.25 + 0.5 * (s % 2);
                    const double py = v + 0.25 + 0.5 * (s / 2);
                    const Eigen::Vector3d ray{(px - 0.5 * kWidth) / focal,
                                              (py - 0.5 * kHeight) / focal, 1.0};
                    sum += 0.25 * lightAlong(ray.normalized(), centre, turnBack, scene.paint);
                }
                for (int c = 0; c < 3; ++c) {
                    const double value =
                        255.0 * std::pow(sum(c), 1.0 / 2.2) + scene.noise * normal(generator);
                    picture.row(v - top)[3 * (u - left) + c] =
                        static_cast<std::uint8_t>(std::clamp(value, 0.0, 255.0));
                }
            }
        }
        core::spin::fit::BallFrame frame;
        frame.captureTime = {1.0 + time};
        frame.picture = picture.view();
        frame.leftPx = left;
        frame.topPx = top;
        frame.centre = {x + scene.centreErrorPx * normal(generator),
                        y + scene.centreErrorPx * normal(generator)};
        // Geometric mean of the outline's semi-axes: f sin a sqrt(cos a) / (cos^2 t - sin^2
        // a)^(3/4).
        const double sine = 1.0 / centre.norm();
        const double cosAxis = centre.z() * sine;
        frame.radiusPx = focal * sine * std::pow(1.0 - sine * sine, 0.25) /
                         std::pow(cosAxis * cosAxis - sine * sine, 0.75);
        frame.centreSigmaPx = std::max(0.05, scene.centreErrorPx);
        input.frames.push_back(frame);
    }
}

}  // namespace tests
