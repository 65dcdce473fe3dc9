#pragma once

#include <Eigen/Core>
#include <vector>

#include "core/spin/fit/shot_samples.h"

/// Colour channels and light of a shot. Module-internal: uses Eigen types.
namespace core::spin::fit {

/// Brightness of a sample: y_k = s(p) A_k(q) + g_k(p) for the channels k.
///
/// s is the shading, common to all channels, g what is added whatever lies beneath (haze, gloss,
/// black level). Both are spherical harmonics to degree 2 in the direction p in camera coordinates:
/// nine terms hold more than 98 % of the light from a matt sphere under any sky (Ramamoorthi and
/// Hanrahan, SIGGRAPH 2001). They stay with the camera while the pattern A turns with the ball.
/// Without s a third of two-tone balls fall into a wrong minimum.
struct ShotLight {
    Eigen::MatrixX3f
        axes;  ///< channels x 3: orthonormal directions in red green blue, strongest first
    std::vector<Eigen::MatrixXf> value;    ///< per frame n x channels: y
    std::vector<Eigen::VectorXf> shading;  ///< per frame n: s, mean 1
    std::vector<Eigen::MatrixXf> added;    ///< per frame n x channels: g

    [[nodiscard]] int channels() const { return static_cast<int>(axes.rows()); }
    /// (y - g)/s of one frame: what the pattern must explain.
    [[nodiscard]] Eigen::MatrixXf flattened(std::size_t frame) const;
};

/// Channels from the principal directions of the samples' colours, shading from the mean over the
/// frames. directions: per frame n x 3, p in camera coordinates.
[[nodiscard]] ShotLight lightFromMean(const ShotSamples& shot,
                                      const std::vector<Eigen::MatrixX3f>& directions);

/// Re-estimates s and g with the pattern known. pattern: per frame n x channels, A; weights: per
/// frame n; channelWeights: inverse residual variances.
void updateLight(const std::vector<Eigen::MatrixX3f>& directions,
                 const std::vector<Eigen::MatrixXf>& pattern,
                 const std::vector<Eigen::VectorXf>& weights, const Eigen::VectorXd& channelWeights,
                 ShotLight& light);

}  // namespace core::spin::fit
