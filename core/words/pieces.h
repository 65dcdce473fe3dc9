#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/findings/cells.h"
#include "core/stats/comparison/contrast.h"
#include "core/stats/comparison/noticeable_step.h"

/// Pieces of sentences. A number has the digits that its uncertainty leaves (JCGM 100, 7.2.6).
namespace core::words {

[[nodiscard]] std::string rpm(double value, double sigma);  ///< "1441 rpm"
[[nodiscard]] std::string bareRpm(double value, double sigma);
[[nodiscard]] std::string between(Interval<double> interval, double sigma);  ///< "1302 to 1588 rpm"
/// Of a reading: their name, or "a reader who is not named".
[[nodiscard]] std::string reader(const std::string& name);
/// "12 %"; of some thousand simulated tables no more than "below 1 %" and "above 99 %" can be said.
[[nodiscard]] std::string chance(double share);
[[nodiscard]] std::string pWords(double value);  ///< "p < 0.001", "p = 0.03"
[[nodiscard]] std::string joined(const std::vector<std::string>& items);  ///< "A, B and C"
/// "40 rpm more (95 %: 10 to 70 rpm)", "12 rpm less (95 %: -40 to 16 rpm)".
[[nodiscard]] std::string difference(const stats::JudgedEstimate& estimate);
/// "It differs by at least the noticeable step." and so on; empty without a verdict.
[[nodiscard]] std::string verdict(const std::optional<stats::StepVerdict>& verdict, Rpm step);

}  // namespace core::words
