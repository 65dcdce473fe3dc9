#pragma once

#include "core/spin/fit/shot_analysis.h"

/// Turns ranked fits into an outcome. Module-internal: uses Eigen types.
namespace core::spin::fit {

/// Numbers, candidates and status. The analysis must hold at least one fit.
[[nodiscard]] FitOutcome judge(const FitInput& input, const FocalPrior& prior,
                               const ShotAnalysis& analysis);

/// An outcome without numbers.
[[nodiscard]] FitOutcome refusal(std::string reason);

}  // namespace core::spin::fit
