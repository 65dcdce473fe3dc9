#pragma once

#include <Eigen/Core>
#include <deque>
#include <random>

#include "core/spin/fit/rotation_fit.h"

namespace tests {

enum class Paint {
    QuarterDark,
    HalfDark,
    Band,
    Plain,
    FarDot,  ///< a dot that stays on the far side as long as the spin axis is the z axis
};

/// A ball that crosses the view from left to right in front of a plain wall. Lengths in ball radii.
struct TinyScene {
    Paint paint{Paint::QuarterDark};
    Eigen::Vector3d angularVelocity{0.0, 0.0, 100.0};  ///< rad/s, camera coordinates
    double fieldOfViewDegrees{62.0};
    double radiusPx{20.0};  ///< in the middle of the view
    int frames{16};
    double framesPerSecond{120.0};
    double shareCrossed{0.85};  ///< of the view's width by the centre; above 1 the ends are cut off
    double raisedPx{0.0};       ///< whole flight
    double noise{3.0};          ///< of 255, each pixel and channel
    double centreErrorPx{0.15};  ///< each coordinate of each frame
    double exposureShare{0.0};   ///< of a frame interval, in which the shutter is open
    double contrast{1.0};        ///< of the paint; below 1 the dark part is lighter
    double windows{0.0};         ///< linear light of two windows as the ball mirrors them
    bool isWallKnown{false};     ///< its picture is given; the wall is striped, not plain
    unsigned seed{1};
};

/// Pictures (cut-outs of a 1280 x 720 view) and the input that refers to them. Neither copied nor
/// moved. Rays, rotation and light are computed here with Eigen's own geometry, apart from the code
/// under test; four rays a pixel, or 24 in the course of the exposure; display gamma 2.2.
class TinyFootage {
public:
    explicit TinyFootage(const TinyScene& scene);
    TinyFootage(const TinyFootage&) = delete;
    TinyFootage& operator=(const TinyFootage&) = delete;

    core::spin::fit::FitInput input;

private:
    void addFrame(const TinyScene& scene, int number);
    std::mt19937 m_generator;
    std::deque<core::PixelBuffer> m_pictures;
};

}  // namespace tests
