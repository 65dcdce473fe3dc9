#pragma once

namespace core::plan {

/// The marking of the ball: which turns look alike.
enum class BallMarking { ThreeQuarterDark, HalfDark, Band, BandWithDot, Other };

/// Turns after which a marking looks the same: 2 for a plain band, else 1.
[[nodiscard]] constexpr int symmetryOrder(BallMarking marking) noexcept {
    return marking == BallMarking::Band ? 2 : 1;
}

}  // namespace core::plan
