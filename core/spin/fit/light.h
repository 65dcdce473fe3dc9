#pragma once

#include <Eigen/Core>
#include <vector>

#include "core/spin/fit/shot_samples.h"

/// Colour channels and light of a shot. Module-internal: uses Eigen types.
namespace core::spin::fit {

/// Light of a surface point: y_k = s(p) A_k(q) + g_k(p) for the channels k; a sample's is the mean
/// of it while the ball covers it, times its cover.
///
/// s is the shading, common to all channels, g what is added whatever lies beneath (haze, gloss,
/// black level). Both are spherical harmonics to degree 2 in the direction p in camera coordinates:
/// nine terms hold more than 98 % of the light from a matt sphere under any sky (Ramamoorthi and
/// Hanrahan, SIGGRAPH 2001). They stay with the camera while the pattern A turns with the ball.
/// Without s a third of two-tone balls fall into a wrong minimum.
///
/// What a shiny ball mirrors is sharper than that and stays with the surroundings: it is a part of
/// PatternFit.
struct ShotLight {
    Eigen::MatrixX3f
        axes;  ///< channels x 3: orthonormal directions in red green blue, strongest first
    std::vector<Eigen::MatrixXf> value;  ///< per frame n x channels: the samples' light
    Eigen::VectorXf shading;             ///< coefficients of s, whose mean over the samples is 1
    Eigen::MatrixXf added;               ///< coefficients x channels of g

    [[nodiscard]] int channels() const { return static_cast<int>(axes.rows()); }
};

/// The surface that a frame's samples show at one instant of their own.
struct SeenInstant {
    Eigen::MatrixX3f direction;  ///< p, n x 3
    Eigen::MatrixXf terms;       ///< harmonics at p, n x coefficients of the light
    Eigen::VectorXf share;       ///< n, weight of the instant times the sample's cover
};
/// All instants of one frame.
using SeenFrame = std::vector<SeenInstant>;

[[nodiscard]] SeenFrame seenBy(const Pinhole& camera, const SphereImage& place,
                               const FrameSamples& frame);
/// Where the camera looks by way of a mirror at the directions p: unit vectors, n x 3. centre: of
/// the ball, in radii, camera coordinates.
[[nodiscard]] Eigen::MatrixX3f mirrorDirections(const Eigen::MatrixX3f& directions,
                                                const Eigen::Vector3d& centre);

/// s at an instant, n; kept off 0.
[[nodiscard]] Eigen::VectorXf shadingAt(const ShotLight& light, const SeenInstant& seen);
/// Sum over the instants of s, n.
[[nodiscard]] Eigen::VectorXf meanShading(const ShotLight& light, const SeenFrame& seen);
/// y less what is added: n x channels, what shading and pattern must explain.
[[nodiscard]] Eigen::MatrixXf reflected(const ShotLight& light, std::size_t frame,
                                        const SeenFrame& seen);

/// Channels from the principal directions of the samples' colours, shading from the mean over the
/// frames.
[[nodiscard]] ShotLight lightFromMean(const ShotSamples& shot, const std::vector<SeenFrame>& seen);

/// Re-estimates s and g with the pattern known. pattern: per frame and instant n x channels, A;
/// mirrored: per frame n x channels, what the ball mirrors; weights: per frame n; channelWeights:
/// inverse residual variances.
void updateLight(const std::vector<SeenFrame>& seen,
                 const std::vector<std::vector<Eigen::MatrixXf>>& pattern,
                 const std::vector<Eigen::MatrixXf>& mirrored,
                 const std::vector<Eigen::VectorXf>& weights, const Eigen::VectorXd& channelWeights,
                 ShotLight& light);

}  // namespace core::spin::fit
