#pragma once

#include <string>

#include "core/spin/reading_by_marks.h"

namespace core::report {

/// A reading by marks as one JSON object, units in the keys, null where there is nothing to say:
/// {"marked_rpm", "rate_rpm", "standard_uncertainty_rpm", "interval_rpm": [lo, hi],
///  "bounds_rpm": [lo, hi] | null, "frames_per_turn", "budget": [{"name", "value", "unit",
///  "distribution", "half_width", "standard_uncertainty", "sensitivity", "contribution_rpm",
///  "share"}], "aliases_rpm": […], "symmetry_alternatives_rpm": […], "turns": [{"frame", "turns",
///  "given"}], "blur_deg_per_exposure", "warnings": [{"kind", "message"}]}
[[nodiscard]] std::string readingJson(const spin::MarksReading& reading);

/// The same for people: one fact a line, the budget as a table.
[[nodiscard]] std::string readingText(const spin::MarksReading& reading);

}  // namespace core::report
