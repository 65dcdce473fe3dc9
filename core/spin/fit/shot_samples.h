#pragma once

#include <Eigen/Core>
#include <vector>

#include "core/spin/fit/projected_sphere.h"
#include "core/spin/fit/rotation_fit.h"

/// The pixels of a shot that lie well inside the ball. Module-internal: uses Eigen types.
namespace core::spin::fit {

/// Samples of one frame: n blocks of pixels, each the mean of a square block.
struct FrameSamples {
    double time{};  ///< capture time at the ball's row, relative to the shot's reference time, s
    SphereImage place;
    Eigen::Vector2d smearPx{0.0, 0.0};
    double centreSigmaPx{};
    /// n x 2, block centres in the whole frame, moved to where they would be if all rows were read
    /// with that of the ball's centre.
    Eigen::MatrixX2f pointPx;
    Eigen::VectorXf lateS;    ///< n, seconds after the frame's time at which the block is read
    Eigen::MatrixX3f colour;  ///< n x 3, red green blue, 0 to 255
    Eigen::VectorXf weight;   ///< n, falls with the slant
    std::size_t source{};     ///< index in FitInput::frames
};

struct ShotSamples {
    Pinhole camera;  ///< as assumed when the samples were chosen
    double referenceTime{};
    double exposure{};
    double relativeRadiusSigma{};  ///< standard uncertainty of the radii over the radii, shared
    std::vector<FrameSamples> frames;
};

/// Collects samples of frames in which most of the ball is seen; others are left out.
/// blocksPerRadius: about how many blocks a radius is divided into (never finer than pixels).
[[nodiscard]] ShotSamples collectSamples(const FitInput& input, double focalPx,
                                         double blocksPerRadius);

}  // namespace core::spin::fit
