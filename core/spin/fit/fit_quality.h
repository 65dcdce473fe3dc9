#pragma once

#include <Eigen/Core>
#include <vector>

#include "core/spin/fit/pattern_fit.h"

/// How well a fit is founded. Module-internal: uses Eigen types.
namespace core::spin::fit {

/// Per frame: squared error of its brightness as predicted by the pattern that all other frames
/// make under the fitted rotation (leave-one-out), summed over channels and samples with the
/// samples' weights. Outliers count in full: a wrong rotation must not buy a small error by
/// discarding them.
[[nodiscard]] std::vector<double> predictFrames(const PatternFit& fit);

/// Mean over frames of ln(other / best) in units of its standard error over frames: how many
/// standard errors the best fit predicts better (Vuong, Econometrica 57 (1989) 307, with frames as
/// the units and a normal error whose size is each frame's own: a frame at the end of the flight
/// that shows a side not seen before errs by ten times as much as others, whatever the rotation).
struct PredictionContrast {
    double ratio{1.0};  ///< error of the other over error of the best
    double deficit{};   ///< standard errors
};
/// Standard errors by which the next minimum must be worse.
inline constexpr double kLeastDeficit = 2.0;
/// Whether the pictures decide for the best one.
[[nodiscard]] bool isDecided(const PredictionContrast& against) noexcept;
[[nodiscard]] PredictionContrast comparePredictions(const std::vector<double>& best,
                                                    const std::vector<double>& other);

/// What a single shot's ln(focal length) is off by beyond its scatter over frames when it is
/// estimated, because edges and light pull at it in all frames alike: about 2 degrees of the field
/// of view (14 rendered shots of two renderers).
inline constexpr double kModelLogFocalSigma = 0.04;

/// Covariance of the global unknowns (kGlobalUnknowns) from leaving frames out, one at a time and
/// in runs of neighbours, whichever is larger for the rate, plus what the priors and the model
/// leave open.
///
/// Residuals of neighbouring pixels and of one frame are strongly correlated, so curvature with
/// independent pixels is far too hopeful; whole frames are nearly independent (delete-group
/// jackknife, Shao and Wu, Annals of Statistics 17 (1989) 1176).
struct JackknifeResult {
    Eigen::Matrix<double, kGlobalUnknowns, kGlobalUnknowns> covariance;
    double degreesOfFreedom{};
};
[[nodiscard]] JackknifeResult jackknife(const PatternFit& fit);

/// Per frame: the rotation (camera coordinates, rad) by which its own best attitude departs from
/// the fit.
[[nodiscard]] std::vector<Eigen::Vector3d> attitudeDeviations(const PatternFit& fit);

}  // namespace core::spin::fit
