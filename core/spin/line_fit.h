#pragma once

#include <span>

#include "core/base/result.h"

namespace core::spin {

/// A reading y at x with its standard uncertainty.
struct LinePoint {
    double x{};
    double y{};
    double sigma{1.0};  ///< positive
};

/// Weighted least-squares straight line y = intercept + slope·x, weights 1/sigma² (JCGM 100:2008,
/// H.3 with weights).
struct LineFit {
    double intercept{};
    double slope{};
    double slopeSigmaFromReadings{};   ///< from the stated sigmas: 1/sqrt(sum w·(x-x̄)²)
    double slopeSigmaFromResiduals{};  ///< the same times residualScale; 0 for two points
    double interceptSigmaFromResiduals{};
    double correlation{};       ///< of intercept and slope
    double chiSquare{};         ///< sum of (residual/sigma)²
    double residualScale{};     ///< sqrt(chiSquare/(n-2)); 0 for two points
    double degreesOfFreedom{};  ///< n - 2
    /// Drop of chiSquare when a square of x is added to the model; 0 for three points or fewer.
    double chiSquareDropOfSquare{};
};

/// Errors: InvalidInput for fewer than two points or all at one x; NotFinite; OutOfRange for a
/// sigma that is not positive.
Result<LineFit> fitLine(std::span<const LinePoint> points);

}  // namespace core::spin
