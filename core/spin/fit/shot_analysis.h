#pragma once

#include <stop_token>
#include <vector>

#include "core/spin/fit/fit_quality.h"
#include "core/spin/fit/pattern_fit.h"

/// From pictures to ranked fits of one shot. Module-internal: uses Eigen types.
namespace core::spin::fit {

/// Knowledge of ln(focal length in pixels).
struct FocalPrior {
    double logFocal{};
    double sigma{};
};

/// From the field of view given, or the prior for phones.
[[nodiscard]] FocalPrior focalPriorOf(const FitCamera& camera);

/// A fit that has converged at full resolution.
struct RankedFit {
    PatternFit fit;
    std::vector<double> predictionErrors;  ///< per frame, see predictFrames()
    double totalError{};
    PredictionContrast againstBest;  ///< ratio 1 and deficit 0 for the best itself
};

struct ShotAnalysis {
    ShotSamples samples;            ///< what the fits refer to: keep it alive and in place
    std::vector<RankedFit> ranked;  ///< best first; empty when stopped
    /// Squared error of a ball of one colour that mirrors what the best one mirrors, frames as
    /// predicted by the others; and how clearly the best one predicts better.
    double plainError{};
    PredictionContrast againstPlain;
    double frameInterval{};  ///< shortest, s
    bool isEvenlySpaced{};   ///< frame times are whole multiples of it
};

/// Cosine of the angle between the spin and the stated sense; 0 when nobody stated one.
[[nodiscard]] double senseOf(const FitInput& input, const RankedFit& ranked);
/// From here the sense of a spin is clear: within 78 degrees of the axis of that sense.
inline constexpr double kClearSense = 0.2;
/// Below as many frames a turn aliases are a danger (measurement practice).
inline constexpr double kFewFramesPerTurn = 3.0;

/// Searches, refines and ranks. samples: fine ones, at least kLeastFrames of them.
void analyseShot(const FitInput& input, const FocalPrior& prior, std::stop_token stop,
                 const FitProgress& progress, ShotAnalysis& analysis);

/// Evenly spaced frames tell no more than half a turn between them. Others, as under a rolling
/// shutter, tell a little; unless they decide, the same is taken for granted.
inline constexpr double kMostTurnsPerFrame = 0.5;

inline constexpr std::size_t kLeastFrames = 6;
inline constexpr double kFineBlocks = 12.0;   // blocks on a radius in the last stage
inline constexpr double kCoarseBlocks = 6.0;  // and in search and first refinement

}  // namespace core::spin::fit
