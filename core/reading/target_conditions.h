#pragma once

#include <cstddef>

/// The conditions that the accuracy of readings from the pictures is promised for, and that a
/// filming day should reach. Common practice, no source; measured in tests/benchmarks/FIGURES.md.
namespace core::reading {

inline constexpr double kTargetBallPx = 30.0;           ///< across, at least
inline constexpr std::size_t kTargetFrames = 8;         ///< that show all of the ball, at least
inline constexpr double kTargetExposureTurnDeg = 30.0;  ///< in one exposure, at most

}  // namespace core::reading
