#include "core/spin/line_fit.h"

#include <cmath>
#include <string>

#include "core/base/words.h"

namespace core::spin {
namespace {

Result<void> checkPoints(std::span<const LinePoint> points) {
    if (points.size() < 2) {
        return fail(ErrorCode::InvalidInput, said("A straight line needs at least two readings."));
    }
    for (std::size_t i = 0; i < points.size(); ++i) {
        if (!std::isfinite(points[i].x) || !std::isfinite(points[i].y)) {
            return fail(ErrorCode::NotFinite, said("Reading {} of the line is not finite.", i));
        }
        if (!std::isfinite(points[i].sigma) || points[i].sigma <= 0.0) {
            return fail(ErrorCode::OutOfRange,
                        said("Reading {} of the line needs a positive uncertainty.", i));
        }
    }
    return ok();
}

struct Sums {
    double weight{};
    double meanX{};
    double meanY{};
    double xx{};
    double xy{};
};

Sums sumsOf(std::span<const LinePoint> points) {
    Sums sums;
    for (const auto& p : points) {
        const double w = 1.0 / (p.sigma * p.sigma);
        sums.weight += w;
        sums.meanX += w * p.x;
        sums.meanY += w * p.y;
    }
    sums.meanX /= sums.weight;
    sums.meanY /= sums.weight;
    for (const auto& p : points) {
        const double w = 1.0 / (p.sigma * p.sigma);
        sums.xx += w * (p.x - sums.meanX) * (p.x - sums.meanX);
        sums.xy += w * (p.x - sums.meanX) * (p.y - sums.meanY);
    }
    return sums;
}

// The part of (x-x̄)² that a straight line does not explain, q, takes (sum w·q·r)²/sum w·q² off
// chi².
double dropOfSquare(std::span<const LinePoint> points, const Sums& sums, double slope) {
    if (points.size() < 4) {
        return 0.0;
    }
    double meanSquare = 0.0;
    double cubic = 0.0;
    for (const auto& p : points) {
        const double w = 1.0 / (p.sigma * p.sigma);
        const double dx = p.x - sums.meanX;
        meanSquare += w * dx * dx / sums.weight;
        cubic += w * dx * dx * dx;
    }
    double qr = 0.0;
    double qq = 0.0;
    for (const auto& p : points) {
        const double w = 1.0 / (p.sigma * p.sigma);
        const double dx = p.x - sums.meanX;
        const double q = dx * dx - meanSquare - cubic / sums.xx * dx;
        qr += w * q * (p.y - sums.meanY - slope * dx);
        qq += w * q * q;
    }
    const double scale = sums.xx * sums.xx / sums.weight;  // size of qq when x is well spread
    return qq > 1e-12 * scale ? qr * qr / qq : 0.0;
}

}  // namespace

Result<LineFit> fitLine(std::span<const LinePoint> points) {
    BOOST_OUTCOME_TRY(checkPoints(points));
    const Sums sums = sumsOf(points);
    if (sums.xx <= 0.0) {
        return fail(ErrorCode::InvalidInput, said("All readings of the line are at one instant."));
    }
    LineFit fit;
    fit.slope = sums.xy / sums.xx;
    fit.intercept = sums.meanY - fit.slope * sums.meanX;
    for (const auto& p : points) {
        const double r = p.y - sums.meanY - fit.slope * (p.x - sums.meanX);
        fit.chiSquare += r * r / (p.sigma * p.sigma);
    }
    fit.degreesOfFreedom = static_cast<double>(points.size()) - 2.0;
    fit.residualScale =
        fit.degreesOfFreedom > 0.0 ? std::sqrt(fit.chiSquare / fit.degreesOfFreedom) : 0.0;
    fit.slopeSigmaFromReadings = 1.0 / std::sqrt(sums.xx);
    fit.slopeSigmaFromResiduals = fit.residualScale * fit.slopeSigmaFromReadings;
    const double interceptSigma = std::sqrt(1.0 / sums.weight + sums.meanX * sums.meanX / sums.xx);
    fit.interceptSigmaFromResiduals = fit.residualScale * interceptSigma;
    fit.correlation = -sums.meanX * fit.slopeSigmaFromReadings / interceptSigma;
    fit.chiSquareDropOfSquare = dropOfSquare(points, sums, fit.slope);
    return fit;
}

}  // namespace core::spin
