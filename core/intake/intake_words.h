#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/intake/take_in.h"

/// The course of an intake and what came of it, in plain words.
namespace core::intake {

/// What is done in a phase: "finding shots".
[[nodiscard]] std::string_view phaseWords(TakeInProgress::Phase phase);

/// A time that is estimated, as fine as it may be believed: "40 s", "2 min 5 s", "1 h 12 min".
[[nodiscard]] std::string durationWords(double seconds);

/// What came of an intake, a line for each step that was wanted, without what was refused: "12
/// clips added, 1 there already, 3 other files passed over".
[[nodiscard]] std::vector<std::string> reportLines(const TakeInReport& report,
                                                   const TakeInOptions& steps);

}  // namespace core::intake
