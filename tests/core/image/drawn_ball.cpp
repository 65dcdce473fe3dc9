#include "drawn_ball.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <opencv2/imgproc.hpp>

namespace tests {

namespace {

using core::image::PointPx;
using core::image::SpherePosition;

double encode(double light) {  // IEC 61966-2-1
    const double v = std::clamp(light, 0.0, 1.0);
    return 255.0 * (v <= 0.0031308 ? 12.92 * v : 1.055 * std::pow(v, 1.0 / 2.4) - 0.055);
}

SpherePosition positionAt(const DrawnFlight& f, double t) {
    const double r = f.radiusMetres;
    return {(f.start[0] + f.velocity[0] * t) / r,
            (f.start[1] + f.velocity[1] * t + 0.5 * f.gravity * t * t) / r,
            (f.start[2] + f.velocity[2] * t) / r};
}

PointPx sway(const DrawnFlight& f, int frame) {
    return {f.shakePx * std::sin(0.7 * frame), 0.6 * f.shakePx * std::cos(0.45 * frame)};
}

// Blobs of random size, as a wall or a hedge out of focus.
cv::Mat1f texture(const DrawnFlight& f) {
    cv::Mat1f picture(f.camera.height + 80, f.camera.width + 80);
    cv::RNG random(f.seed);
    random.fill(picture, cv::RNG::NORMAL, 0.0, 1.0);
    cv::Mat1f fine;
    cv::GaussianBlur(picture, fine, {}, 1.5);
    cv::GaussianBlur(picture, picture, {}, 6.0);
    cv::Mat1f light(picture.size());
    for (int y = 0; y < light.rows; ++y) {
        for (int x = 0; x < light.cols; ++x) {
            const double bumps =
                1.2 * static_cast<double>(fine(y, x)) + 6.0 * static_cast<double>(picture(y, x));
            light(y, x) = static_cast<float>(f.groundLight * (1.0 + f.groundTexture * bumps));
        }
    }
    return light;
}

// Light of the ball along a ray, negative where the ray misses it.
double ballLight(const DrawnFlight& f, const SpherePosition& c, double turn, double sx, double sy) {
    const double length2 = sx * sx + sy * sy + 1.0;
    const double along = (sx * c.x + sy * c.y + c.z) / length2;
    const double miss2 = (c.x * c.x + c.y * c.y + c.z * c.z) - along * along * length2;
    if (miss2 > 1.0) {
        return -1.0;
    }
    const double reach = along - std::sqrt((1.0 - miss2) / length2);
    const double nx = sx * reach - c.x;
    const double ny = sy * reach - c.y;
    const double nz = reach - c.z;
    const double shade = 0.65 + 0.25 * (-0.4 * nx - 0.7 * ny - 0.6 * nz);
    const bool isDark = std::cos(turn) * nx + std::sin(turn) * ny > 0.2;
    return shade * (isDark ? f.markLight : f.ballLight);
}

struct Reach {
    int x0, y0, x1, y1;
};

double rowTime(const DrawnFlight& f, int frame, double y) {
    return frame / f.captureFps + f.readoutSeconds * y / f.camera.height;
}

/// Time at which the row that holds the ball's centre is exposed.
double ballTime(const DrawnFlight& f, int frame) {
    double time = rowTime(f, frame, 0.0);
    for (int round = 0; round < 6; ++round) {
        time =
            rowTime(f, frame,
                    core::image::projectCentre(f.camera, positionAt(f, time)).y + sway(f, frame).y);
    }
    return time;
}

Reach ballBox(const DrawnFlight& f, int frame) {
    const PointPx c = trueCentre(f, frame);
    const double half = 1.4 * trueRadius(f, frame) + 4.0 +
                        f.camera.focalPx * std::hypot(f.velocity[0], f.velocity[1] + 2.0) *
                            f.exposureSeconds / f.start[2];
    return {std::max(0, static_cast<int>(c.x - half)), std::max(0, static_cast<int>(c.y - half)),
            std::min(f.camera.width, static_cast<int>(c.x + half) + 1),
            std::min(f.camera.height, static_cast<int>(c.y + half) + 1)};
}

void drawBall(const DrawnFlight& f, int frame, cv::Mat1f& light) {
    constexpr int kRays = 4;  // squared, a pixel
    constexpr int kInstants = 12;
    const Reach box = ballBox(f, frame);
    const PointPx shift = sway(f, frame);
    const PointPx middle = f.camera.principalPoint();
    std::array<SpherePosition, kInstants> places;
    std::array<double, kInstants> turns{};
    for (int y = box.y0; y < box.y1; ++y) {
        for (std::size_t k = 0; k < kInstants; ++k) {
            const double phase = (static_cast<double>(k) + 0.5) / kInstants - 0.5;
            const double t = rowTime(f, frame, y + 0.5) + phase * f.exposureSeconds;
            places[k] = positionAt(f, t);
            turns[k] = 2.0 * core::kPi * f.turnsPerSecond * t;
        }
        for (int x = box.x0; x < box.x1; ++x) {
            double sum = 0.0;
            for (int ray = 0; ray < kRays * kRays; ++ray) {
                const double px = x + (ray % kRays + 0.5) / kRays - shift.x;
                const double py = y + (ray / kRays + 0.5) / kRays - shift.y;
                for (std::size_t k = 0; k < kInstants; ++k) {
                    const double own =
                        ballLight(f, places[k], turns[k], (px - middle.x) / f.camera.focalPx,
                                  (py - middle.y) / f.camera.focalPx);
                    sum += own < 0.0 ? static_cast<double>(light(y, x)) : own;
                }
            }
            light(y, x) = static_cast<float>(sum / (kRays * kRays * kInstants));
        }
    }
}

}  // namespace

PointPx trueCentre(const DrawnFlight& flight, int frame) {
    const PointPx still =
        core::image::projectCentre(flight.camera, positionAt(flight, ballTime(flight, frame)));
    const PointPx shift = sway(flight, frame);
    return {still.x + shift.x, still.y + shift.y};
}

double trueRadius(const DrawnFlight& flight, int frame) {
    const auto outline =
        core::image::outlineOf(flight.camera, positionAt(flight, ballTime(flight, frame)));
    return std::sqrt(outline.value().semiMajorPx * outline.value().semiMinorPx);
}

MemorySource draw(const DrawnFlight& flight) {
    MemorySource clip;
    const cv::Mat1f ground = texture(flight);
    cv::RNG random(flight.seed + 1000U);
    cv::Mat3f noise(flight.camera.height, flight.camera.width);
    for (int frame = 0; frame < flight.frames; ++frame) {
        const PointPx shift = sway(flight, frame);
        const cv::Matx23d map(1.0, 0.0, shift.x - 40.0, 0.0, 1.0, shift.y - 40.0);
        cv::Mat1f light;
        cv::warpAffine(ground, light, map, {flight.camera.width, flight.camera.height},
                       cv::INTER_CUBIC);
        if (frame >= flight.ballFrom) {
            drawBall(flight, frame, light);
        }
        random.fill(noise, cv::RNG::NORMAL, 0.0, flight.noiseLevels);
        core::PixelBuffer picture(flight.camera.width, flight.camera.height,
                                  core::PixelFormat::Rgb8);
        for (int y = 0; y < picture.height(); ++y) {
            for (int x = 0; x < picture.width(); ++x) {
                const double level = encode(static_cast<double>(light(y, x)));
                for (int c = 0; c < 3; ++c) {
                    picture.row(y)[3 * x + c] = static_cast<std::uint8_t>(std::clamp(
                        std::lround(level + static_cast<double>(noise(y, x)[c])), 0L, 255L));
                }
            }
        }
        clip.add(std::move(picture));
    }
    return clip;
}

}  // namespace tests
