#pragma once

#include <map>
#include <vector>

#include "core/doubts/doubt.h"
#include "core/doubts/doubt_material.h"
#include "core/findings/findings.h"

/// What speaks against shots among the others of their cell, and against cells. Private to
/// core/doubts.
namespace core::doubts {

/// Modified z score 0.6745 (x - median)/MAD, beyond 3.5 unusual: Iglewicz and Hoaglin 1993, How to
/// Detect and Handle Outliers (as given in the NIST/SEMATECH e-Handbook, 1.3.5.17). Absent for
/// fewer than five values or values without scatter.
[[nodiscard]] std::optional<double> modifiedZScore(double value, std::vector<double> all);
inline constexpr double kUnusualZScore = 3.5;

/// Outliers and stragglers, wide intervals, unusual ball speeds.
[[nodiscard]] std::map<project::ShotId, std::vector<Doubt>> doubtsOfShotsInCells(
    const DoubtMaterial& material, const findings::Findings& findings);

/// Cells that do not fit implement and hitter. A cell has no single reason to be wrong: it is
/// filmed again or explained.
[[nodiscard]] std::vector<Doubted> doubtsOfCells(const findings::Findings& findings);

}  // namespace core::doubts
