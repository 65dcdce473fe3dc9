#pragma once

#include <span>
#include <string>
#include <utility>
#include <vector>

#include "core/base/result.h"

namespace core::stats {

/// Two groups, by position, that a comparison told apart.
using DifferentPair = std::pair<std::size_t, std::size_t>;

/// Compact letter display: for each group the letters it carries, "a" first. Two groups share a
/// letter if and only if they could not be told apart. Letters run from the highest mean down.
///
/// The letters of Piepho 2004, J. Comput. Graph. Stat. 13:456-466: one for each largest set of
/// groups of which no two differ. His insert and absorb gives the same sets by way of many more;
/// here they are listed at once (Tomita, Tanaka and Takahashi 2006, Theor. Comput. Sci. 363:28-42).
/// After "z" come "a1", "b1" and so on. Errors: InvalidInput for a pair that names no group or a
/// group against itself; NotFinite.
Result<std::vector<std::string>> compactLetters(std::span<const double> means,
                                                std::span<const DifferentPair> different);

}  // namespace core::stats
