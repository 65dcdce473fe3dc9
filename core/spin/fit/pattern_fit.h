#pragma once

#include <Eigen/Core>
#include <array>
#include <optional>
#include <span>
#include <vector>

#include "core/spin/fit/light.h"
#include "core/spin/fit/shot_samples.h"
#include "core/spin/fit/spherical_harmonics.h"

/// Separable least squares of rotation and pattern. Module-internal: uses Eigen types.
namespace core::spin::fit {

/// The nonlinear unknowns.
struct RotationState {
    Eigen::Vector3d angularVelocity;       ///< rad/s
    double logFocal{};                     ///< ln(focal length in pixels)
    std::vector<Eigen::Vector2d> shiftPx;  ///< corrections of the centres, one a frame
};

/// Gaussian knowledge of the focal length beside the centres' own sigmas. A sigma of zero holds it.
///
/// The radius is always held at what the track says: left free it shrinks by 6 to 11 %, because a
/// pattern stretched over more of the sphere is smoother and suits the cut-off series better, and
/// the axis goes wrong by up to 8 degrees. It stays among the unknowns for its effect on the
/// others.
struct RotationPriors {
    double logFocal{};
    double logFocalSigma{};
};

/// Least value by which the squared residuals of a pixel are taken down against the priors. Edges
/// that the pattern cannot follow, the light and compression make residuals alike over many blocks
/// and from frame to frame; on rendered shots 20 still let them drag the field of view by up to 30
/// degrees and doubled the errors of the rate.
inline constexpr double kLeastInflation = 100.0;
inline constexpr double kLeastCentrePx = 1e-3;  // a smaller centre sigma is taken as this
inline constexpr int kGlobalUnknowns = 5;       // angular velocity, ln focal, ln radius (held)
inline constexpr int kFrameUnknowns = 7;        // the global ones and the frame's centre

/// One frame's share of the normal equations, linearised at the current state. Sums over samples
/// with their weights; `info`, `gradient` also over the channels with the channels' weights.
struct FrameEquations {
    Eigen::MatrixXd gram;                ///< Y'Y, coefficients x coefficients
    Eigen::MatrixXd right;               ///< Y'z, coefficients x channels (Y: shading in it)
    std::vector<Eigen::MatrixXd> cross;  ///< per channel Y'J, coefficients x kFrameUnknowns
    Eigen::Matrix<double, kFrameUnknowns, kFrameUnknowns> info;  ///< J'J
    Eigen::Matrix<double, kFrameUnknowns, 1> gradient;           ///< J'r
};

/// How finely the ball's pattern and the surroundings that it mirrors are drawn: degrees of their
/// spherical harmonics.
struct FitDegrees {
    int pattern{};
    int mirrored{};
};

/// One shot's fit from a start value: z_ik = mean of s(p) A_k(R(omega t)' p) + E_k(mirror of p)
/// with A_k and E_k in spherical harmonics (linear, eliminated) and the nonlinear unknowns by
/// Gauss-Newton on the projected problem (variable projection; Golub and Pereyra, Inverse Problems
/// 19 (2003) R1). The mean is over the time in which the sample is covered: p and t both change in
/// it (instantsOf()).
///
/// E is what the ball mirrors: lamps, windows and sky stand still in the direction in which they
/// are mirrored (mirrorDirections()) while the pattern turns; a matt ball has next to nothing of
/// it. Without it a faint marking under two windows was read as what stands still.
class PatternFit {
public:
    PatternFit(const ShotSamples& shot, ShotLight light, FitDegrees degrees,
               const RotationPriors& priors, RotationState start);

    /// One Gauss-Newton step; returns the size of the change of omega times the half duration, rad.
    double step();
    /// Re-estimates light, outlier weights and channel weights at the current state.
    void refreshNuisance();
    /// Solves the pattern at the current state and linearises there.
    void linearise();

    [[nodiscard]] const RotationState& state() const { return m_state; }
    [[nodiscard]] const ShotLight& light() const { return m_light; }
    [[nodiscard]] FitDegrees degrees() const { return {m_basis.degree(), m_mirror.degree()}; }
    /// Of the pattern, followed by those of what is mirrored: rows; a column for each channel.
    [[nodiscard]] const Eigen::MatrixXd& coefficients() const { return m_coefficients; }
    [[nodiscard]] Eigen::MatrixXd patternCoefficients() const {
        return m_coefficients.topRows(m_basis.size());
    }
    [[nodiscard]] const std::vector<FrameEquations>& equations() const { return m_equations; }
    [[nodiscard]] const Eigen::VectorXd& ridge() const { return m_ridge; }
    [[nodiscard]] const Eigen::VectorXd& channelWeights() const { return m_channelWeights; }
    [[nodiscard]] const ShotSamples& shot() const { return *m_shot; }
    [[nodiscard]] const RotationPriors& priors() const { return m_priors; }
    /// Squared error of a frame's light (0 to 255, shading left in, channels summed, outliers
    /// counted in full) when its pattern has these coefficients.
    [[nodiscard]] double squaredError(std::size_t frame, const Eigen::MatrixXd& coefficients) const;
    /// Scatter of the single frames' attitudes about the fit over what independent pixels would
    /// give (mean square, 1 for independent noise). Edges that the pattern cannot follow,
    /// compression and light make neighbouring residuals alike: 10 to 50 is common.
    [[nodiscard]] double attitudeInflation() const;
    /// Takes the data for that much less against the priors.
    [[nodiscard]] double inflation() const { return m_inflation; }
    void setInflation(double inflation) { m_inflation = inflation; }

private:
    struct FrameGeometry;
    FrameGeometry geometryOf(std::size_t frame) const;
    /// Seconds after the frame's time at which the samples show their instant.
    [[nodiscard]] Eigen::VectorXf delays(std::size_t frame, std::size_t instant) const;
    enum class Turn { Back, Forward };
    /// Rows turned with the ball over the frame's time and delays of their own, or back to the
    /// ball's own surface.
    [[nodiscard]] Eigen::MatrixX3f turned(std::size_t frame, const Eigen::VectorXf& delay,
                                          Turn turn, const Eigen::MatrixX3f& rows) const;
    void evaluateBasis(std::size_t frame);
    void solvePattern();
    [[nodiscard]] Eigen::MatrixXf valuesAndSlopes() const;
    void lineariseFrame(std::size_t frame, const Eigen::MatrixXf& slopes);
    /// What a frame should show, and how it changes with the nonlinear unknowns.
    struct Model {
        Eigen::MatrixXf light;     ///< n x channels
        Eigen::MatrixXf jacobian;  ///< filledUp(n) x kFrameUnknowns for each channel
    };
    [[nodiscard]] Model modelOf(std::size_t frame, const Eigen::MatrixXf& slopes) const;
    /// p x dp/dparameter for ln focal, ln radius and the two coordinates of the centre.
    [[nodiscard]] std::vector<Levers> leversOf(std::size_t frame) const;
    [[nodiscard]] Eigen::VectorXf fitWeights(std::size_t frame) const;
    /// A of a frame's instants, n x channels each.
    [[nodiscard]] std::vector<Eigen::MatrixXf> patternOf(std::size_t frame) const;
    /// E, mean over the instants, n x channels.
    [[nodiscard]] Eigen::MatrixXf mirrored(std::size_t frame) const;

    const ShotSamples* m_shot;
    ShotLight m_light;
    HarmonicBasis m_basis;
    HarmonicBasis m_mirror;
    std::array<Eigen::MatrixXd, 3> m_generators;
    RotationPriors m_priors;
    RotationState m_state;
    Eigen::MatrixXd m_coefficients;  // coefficients x channels
    Eigen::VectorXd m_ridge;
    Eigen::VectorXd m_channelWeights;
    double m_inflation{kLeastInflation};
    std::vector<Eigen::VectorXf> m_outlierWeights;
    std::vector<SeenFrame> m_seen;
    std::vector<std::vector<Eigen::MatrixX3f>> m_turned;  ///< q, per frame and instant
    std::vector<Eigen::MatrixXf>
        m_basisValues;  ///< per frame: mean of s Y(q), then of Y(mirror of p)
    std::vector<FrameEquations> m_equations;
};

/// Step and inverse information of the nonlinear unknowns (kGlobalUnknowns + 2 per frame) with the
/// pattern eliminated. without: indices of frames that are left out.
struct ReducedStep {
    Eigen::VectorXd change;
    Eigen::MatrixXd covariance;
};
[[nodiscard]] ReducedStep solveReduced(const PatternFit& fit, std::span<const int> without = {});

}  // namespace core::spin::fit
