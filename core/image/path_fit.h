#pragma once

#include <Eigen/Dense>
#include <optional>
#include <stop_token>
#include <vector>

#include "core/base/result.h"
#include "core/image/ball_patch.h"
#include "core/image/outline_fit.h"
#include "core/image/readout_estimate.h"
#include "core/image/sensor_rows.h"

namespace core::image {

/// A reviewer's click as an observation of the centre.
struct HeldCentre {
    PointPx centre;
    double sigmaPx{};
};

/// One frame of a joint fit. Internal to core/image.
struct PathFrame {
    BallPatch patch;
    Seconds time;  ///< capture time of the first row
    FrameMotion motion;
    std::optional<HeldCentre> held;
    bool isUsed{true};   ///< its pixels take part
    double weight{1.0};  ///< robust weight of the frame as a whole
    PointPx deviation;   ///< of the centre from the path
    OutlineState state;
    OutlineEquations equations;
    Eigen::Matrix3d covariance = Eigen::Matrix3d::Zero();  ///< of centre.x, centre.y, log radius
    PointPx ownOffset;    ///< where this frame alone puts the centre, from the path
    double ownSigmaPx{};  ///< mean standard uncertainty of that
};

/// Quantities shared by all frames.
struct SharedState {
    Eigen::Vector4d x = Eigen::Vector4d::Zero();  ///< ball radii, powers of (t - reference) / span
    Eigen::Vector4d y = Eigen::Vector4d::Zero();
    Eigen::Vector2d inverseRadius = Eigen::Vector2d::Zero();  ///< 1/px
    double exposureSeconds{};
    double logFocal{};
    double logEdge{};
    double readoutSeconds{};
};

struct PathFitSetup {
    Camera picture;  ///< focalPx: the given one, or the middle of the prior
    bool isFocalKnown{};
    SensorRows rows;
    double intervalSeconds{};  ///< typical frame interval: upper bound of the exposure
};

/// Fits the shared path and the single balls to the pixels of all frames together: Gauss-Newton on
/// the sum of outlineEquations(), a normal prior on each centre's deviation from the path, and weak
/// priors where the pictures may say nothing.
class PathFit {
public:
    PathFit(PathFitSetup setup, std::vector<PathFrame> frames, SharedState start, Seconds reference,
            Seconds span);

    /// Iterates until the balls rest, at most maxSteps times, with the edge of a still ball held to
    /// the given half-width and every third pixel looked at, or free when absent and all pixels.
    /// Errors: Cancelled.
    Result<void> iterate(int maxSteps, std::optional<double> edgePx, const std::stop_token& stop);
    /// Holds the readout time at a value, or lets it go while the edge is free.
    void holdReadout(Seconds readout);
    void freeReadout() noexcept { m_readoutIsFree = true; }
    /// Scales the pixel noise to the scatter of the frames about the path, gives frames that
    /// contradict it less weight, and computes the uncertainties.
    void assess();

    /// Evaluates a frame at the path's prediction without letting it take part.
    [[nodiscard]] OutlineEquations probe(PathFrame& frame) const;
    [[nodiscard]] OutlineState predict(const PathFrame& frame) const;

    [[nodiscard]] std::vector<PathFrame>& frames() noexcept { return m_frames; }
    [[nodiscard]] const std::vector<PathFrame>& frames() const noexcept { return m_frames; }
    [[nodiscard]] const SharedState& shared() const noexcept { return m_shared; }
    [[nodiscard]] BallPath path() const;
    [[nodiscard]] double exposureSigma() const noexcept { return m_exposureSigma; }
    [[nodiscard]] double logFocalSigma() const noexcept { return m_logFocalSigma; }
    /// Of the outlines alone, without a prior; of the last assess() with a free readout. Absent
    /// when it was held or the outlines tell nothing.
    [[nodiscard]] std::optional<ReadoutEstimate> readoutEstimate() const;
    [[nodiscard]] double scatterPx() const noexcept { return m_scatterPx; }

private:
    using Jacobian = Eigen::MatrixXd;  ///< outline quantities by the shared unknowns

    [[nodiscard]] Jacobian jacobian(const PathFrame& frame) const;
    void evaluate(std::optional<double> edgePx);
    void addPriors(Eigen::MatrixXd& normal, Eigen::VectorXd& right) const;
    void buildSystem(Eigen::MatrixXd& normal, Eigen::VectorXd& right) const;
    /// Their own offsets from the path and the weights that follow; false when no frame says
    /// anything.
    bool weighFrames();
    /// Returns the largest move of a centre.
    double apply(const Eigen::VectorXd& step);

    PathFitSetup m_setup;
    std::vector<PathFrame> m_frames;
    SharedState m_shared;
    Seconds m_reference;
    Seconds m_span;
    double m_inflation;  ///< of the pixel noise: neighbouring pixels err together
    bool m_edgeIsFree{};
    bool m_readoutIsFree{};
    double m_readoutSigma{};
    double m_exposureSigma{};
    double m_logFocalSigma{};
    double m_scatterPx{};
};

}  // namespace core::image
