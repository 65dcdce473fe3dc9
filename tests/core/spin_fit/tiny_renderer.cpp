#include "tests/core/spin_fit/tiny_renderer.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

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

/// Linear light of the wall at a place of the picture.
Eigen::Vector3d wallAt(const TinyScene& scene, const Eigen::Vector2d& place) {
    const double stripe = scene.isWallKnown ? 0.2 * std::sin(0.25 * place.x()) : 0.0;
    return Eigen::Vector3d{0.3, 0.35, 0.4} + Eigen::Vector3d::Constant(stripe);
}

/// The scene with the ball in flight, at an instant.
class Moment {
public:
    Moment(const TinyScene& scene, double frame) : m_scene{scene} {
        const double tangent = std::tan(scene.fieldOfViewDegrees * std::numbers::pi / 360.0);
        m_focal = 0.5 * kWidth / tangent;
        const double depth = m_focal / scene.radiusPx;
        const double along = frame / (scene.frames - 1) - 0.5;
        m_centre = {2.0 * tangent * depth * scene.shareCrossed * along,
                    depth * (0.3 * along * along - 0.03 - scene.raisedPx / m_focal),
                    depth * (1.0 + 0.05 * along)};
        const Eigen::AngleAxisd turned{scene.angularVelocity.norm() * frame / scene.framesPerSecond,
                                       scene.angularVelocity.normalized()};
        m_turnBack = (turned.toRotationMatrix() * kStart.toRotationMatrix()).transpose();
    }

    [[nodiscard]] Eigen::Vector2d centrePx() const {
        return {0.5 * kWidth + m_focal * m_centre.x() / m_centre.z(),
                0.5 * kHeight + m_focal * m_centre.y() / m_centre.z()};
    }

    /// Geometric mean of the outline's semi-axes: f sin a sqrt(cos a) / (cos^2 t - sin^2 a)^(3/4).
    [[nodiscard]] double radiusPx() const {
        const double sine = 1.0 / m_centre.norm();
        const double cosAxis = m_centre.z() * sine;
        return m_focal * sine * std::pow(1.0 - sine * sine, 0.25) /
               std::pow(cosAxis * cosAxis - sine * sine, 0.75);
    }

    /// Linear light at a place of the picture.
    [[nodiscard]] Eigen::Vector3d lightAt(const Eigen::Vector2d& place) const {
        const Eigen::Vector3d ray = Eigen::Vector3d{(place.x() - 0.5 * kWidth) / m_focal,
                                                    (place.y() - 0.5 * kHeight) / m_focal, 1.0}
                                        .normalized();
        const double along = ray.dot(m_centre);
        const double inside = along * along - m_centre.squaredNorm() + 1.0;
        if (inside <= 0.0) {
            return wallAt(m_scene, place);
        }
        const Eigen::Vector3d p = (along - std::sqrt(inside)) * ray - m_centre;
        const Eigen::Vector3d sun = Eigen::Vector3d{-0.4, -0.8, -0.5}.normalized();
        const Eigen::Vector3d light = paintAt(Paint::Plain, p);
        const Eigen::Vector3d paint =
            light + m_scene.contrast * (paintAt(m_scene.paint, m_turnBack * p) - light);
        return (0.35 + 0.65 * std::max(0.0, p.dot(sun))) * paint + mirrored(p, ray);
    }

private:
    /// Two windows far away, with soft edges, in the mirror direction.
    [[nodiscard]] Eigen::Vector3d mirrored(const Eigen::Vector3d& p,
                                           const Eigen::Vector3d& ray) const {
        const Eigen::Vector3d out = ray - 2.0 * ray.dot(p) * p;
        double share = 0.0;
        for (const Eigen::Vector3d& window :
             {Eigen::Vector3d{-0.9, -0.6, -0.5}, Eigen::Vector3d{0.8, -0.3, -0.7}}) {
            const double angle = std::acos(std::clamp(out.dot(window.normalized()), -1.0, 1.0));
            share += 1.0 / (1.0 + std::exp((angle - 0.35) / 0.04));
        }
        return Eigen::Vector3d::Constant(m_scene.windows * share);
    }

    const TinyScene& m_scene;
    double m_focal{};
    Eigen::Vector3d m_centre;
    Eigen::Matrix3d m_turnBack;
};

/// The instants of an exposure about a frame's time.
std::vector<Moment> momentsOf(const TinyScene& scene, int frame) {
    const int count = scene.exposureShare > 0.0 ? 24 : 4;
    std::vector<Moment> moments;
    for (int i = 0; i < count; ++i) {
        moments.emplace_back(scene, frame + scene.exposureShare * ((i + 0.5) / count - 0.5));
    }
    return moments;
}

std::uint8_t encoded(double light) {
    return static_cast<std::uint8_t>(std::clamp(light, 0.0, 255.0));
}

}  // namespace

TinyFootage::TinyFootage(const TinyScene& scene) : m_generator{scene.seed} {
    input.camera.widthPx = kWidth;
    input.camera.heightPx = kHeight;
    if (scene.exposureShare > 0.0) {
        input.camera.exposure = core::Seconds{scene.exposureShare / scene.framesPerSecond};
    }
    for (int i = 0; i < scene.frames; ++i) {
        addFrame(scene, i);
    }
}

void TinyFootage::addFrame(const TinyScene& scene, int number) {
    std::normal_distribution<double> normal;
    const Moment middle{scene, static_cast<double>(number)};
    const Eigen::Vector2d smear = Moment{scene, number + 0.5 * scene.exposureShare}.centrePx() -
                                  Moment{scene, number - 0.5 * scene.exposureShare}.centrePx();
    const Eigen::Vector2d centre = middle.centrePx();
    const int reach = static_cast<int>(1.5 * scene.radiusPx + 0.5 * smear.norm()) + 4;
    const int left = std::max(0, static_cast<int>(centre.x()) - reach);
    const int top = std::max(0, static_cast<int>(centre.y()) - reach);
    const int right = std::min(kWidth, static_cast<int>(centre.x()) + reach);
    const int bottom = std::min(kHeight, static_cast<int>(centre.y()) + reach);
    if (right <= left || bottom <= top) {
        return;  // nothing of the ball is inside the picture
    }
    core::PixelBuffer& picture =
        m_pictures.emplace_back(right - left, bottom - top, core::PixelFormat::Rgb8);
    core::PixelBuffer& wall =
        m_pictures.emplace_back(right - left, bottom - top, core::PixelFormat::Rgb8);
    const auto moments = momentsOf(scene, number);
    const auto count = static_cast<int>(moments.size());
    for (int v = top; v < bottom; ++v) {
        for (int u = left; u < right; ++u) {
            Eigen::Vector3d sum = Eigen::Vector3d::Zero();
            Eigen::Vector3d behind = Eigen::Vector3d::Zero();
            for (int s = 0; s < count; ++s) {
                const Eigen::Vector2d place{u + 0.25 + 0.5 * (s % 2), v + 0.25 + 0.5 * (s / 2 % 2)};
                sum += moments[static_cast<std::size_t>(s)].lightAt(place) / count;
                behind += wallAt(scene, place) / count;
            }
            for (int c = 0; c < 3; ++c) {
                const double value = 255.0 * std::pow(sum(c), 1.0 / 2.2);
                picture.row(v - top)[3 * (u - left) + c] =
                    encoded(value + scene.noise * normal(m_generator));
                wall.row(v - top)[3 * (u - left) + c] =
                    encoded(255.0 * std::pow(behind(c), 1.0 / 2.2));
            }
        }
    }
    core::spin::fit::BallFrame frame;
    frame.captureTime = {1.0 + number / scene.framesPerSecond};
    frame.picture = picture.view();
    if (scene.isWallKnown) {
        frame.background = wall.view();
    }
    frame.leftPx = left;
    frame.topPx = top;
    frame.centre = {centre.x() + scene.centreErrorPx * normal(m_generator),
                    centre.y() + scene.centreErrorPx * normal(m_generator)};
    frame.radiusPx = middle.radiusPx();
    frame.centreSigmaPx = std::max(0.05, scene.centreErrorPx);
    frame.smear = {smear.x(), smear.y()};
    input.frames.push_back(frame);
}

}  // namespace tests
