#pragma once

#include <Eigen/Dense>

#include "core/image/ball_patch.h"

namespace core::image {

/// What the picture of a ball in one frame depends on. Internal to core/image.
struct OutlineState {
    PointPx centre;           ///< projection of the ball's centre at mid exposure
    double logAxialRadius{};  ///< ln of f R / Z in pixels
    double exposureSeconds{};
    double logFocal{};  ///< ln of the focal length in pixels
    double readoutSeconds{};
    double logEdge{};  ///< ln of the half-width of a still edge in pixels
    PointPx velocity;  ///< pixels per second; known, not fitted
    PointPx rowPerPx;  ///< SensorRows::perPx()
};

/// Order of the fitted quantities in the normal equations.
enum OutlineParameter { kCentreX, kCentreY, kLogRadius, kExposure, kLogFocal, kLogEdge, kReadout };
inline constexpr int kOutlineParameters = 7;
using OutlineVector = Eigen::Matrix<double, kOutlineParameters, 1>;
using OutlineMatrix = Eigen::Matrix<double, kOutlineParameters, kOutlineParameters>;

/// Quadratic model of the misfit about a state: cost + gradient . d + d . information . d / 2, in
/// units in which the noise of one channel of one pixel is 1.
struct OutlineEquations {
    OutlineVector gradient = OutlineVector::Zero();
    OutlineMatrix information = OutlineMatrix::Zero();
    double cost{};
    double noiseLevels{};    ///< robust scatter of the residuals, levels of 255
    double changedInside{};  ///< share of the pixels on the ball that differ from the background
    double changedAround{};  ///< the same just outside the outline
};

/// Compares the picture with a ball of free colours before the known background:
///   seen = (1 - cover) background + cover colour,
/// cover: the share of the exposure in which the pixel lies inside the outline of the projected
/// sphere, softened by an edge of half-width h; colour: in each of many sectors about the centre a
/// plane of its own, eliminated from the equations (variable projection, Golub & Pereyra 1973).
/// Works in linear light, where a swept exposure adds up. Huber weights; updates
/// patch.pixels.robust. Looks at every stride-th pixel only and counts it so many times.
OutlineEquations outlineEquations(BallPatch& patch, const Camera& picture,
                                  const OutlineState& state, std::size_t stride = 1);

}  // namespace core::image
