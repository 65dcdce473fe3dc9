#pragma once

#include <cstdint>

#include "core/image/projected_sphere.h"
#include "memory_frames.h"

namespace tests {

/// A flying ball before a still background, drawn by casting rays at a sphere: many rays a pixel,
/// many instants of the exposure, summed in linear light and encoded as sRGB. Lengths in metres, in
/// the camera frame (x right, y down, z forward).
struct DrawnFlight {
    core::image::Camera camera{640, 360, 600.0};
    int frames{24};
    double captureFps{120.0};
    double exposureSeconds{1.0 / 1000.0};
    double radiusMetres{0.0335};
    double start[3]{-0.9, -0.1, 1.6};  ///< at frame 0
    double velocity[3]{9.0, -1.0, 0.5};
    double gravity{9.80665};
    double ballLight{0.75};      ///< of the lighter half, linear
    double markLight{0.35};      ///< of the darker half
    double groundLight{0.08};    ///< mean of the background
    double groundTexture{0.25};  ///< of the background, relative; 0 is a plain wall
    double turnsPerSecond{20.0};
    double noiseLevels{1.0};
    double shakePx{0.0};         ///< amplitude of a slow sway of the camera
    double readoutSeconds{0.0};  ///< from the top row to the bottom row
    int ballFrom{0};             ///< frames before it show no ball
    std::uint32_t seed{1};
};

/// True centre of the ball at mid exposure of its row, and its radius as a BallTrack gives it.
core::image::PointPx trueCentre(const DrawnFlight& flight, int frame);
double trueRadius(const DrawnFlight& flight, int frame);

MemorySource draw(const DrawnFlight& flight);

}  // namespace tests
