#pragma once

#include <optional>
#include <vector>

#include "core/base/result.h"
#include "core/spin/mark_times.h"
#include "core/spin/rate_distribution.h"
#include "core/spin/reading_by_marks.h"

namespace core::spin {

/// What the marks alone say of the rate, before clock, rolling shutter and line of sight.
struct MarkedTiming {
    MarksReading::Method method{MarksReading::Method::Returns};
    RateDistribution rate;
    Rpm marked{};
    std::optional<Interval<Rpm>> bounds{};
    double framesPerTurn{};
    double turnsSpanned{};  ///< from the first to the last mark
    double secondsSpanned{};
    FrameIndex first{};
    FrameIndex last{};
    std::optional<bool> turnsCounterClockwise{};
    std::vector<ReturnTurns> returns{};
    std::vector<LookAlike> otherTurnCounts{};
    BudgetRow row{};
    std::vector<MarksWarning> warnings{};
};

/// Frames per turn of the marking below which no single answer is given, and below which it is
/// given with a warning (measured at the sampling limit of two: Shannon 1949).
inline constexpr double kFewestFramesPerTurn = 2.0;
inline constexpr double kFewFramesPerTurn = 3.0;

/// Reads the start and the returns. Errors as readMarks().
Result<MarkedTiming> timeReturns(const MarkSet& marks, const MarkTimes& times,
                                 const ReadingContext& context);

/// Reads the angles. `guide`, when present, is what returns allow and chooses among unwrappings
/// that fit equally well. Errors as readMarks().
Result<MarkedTiming> timeAngles(const MarkSet& marks, const MarkTimes& times,
                                const ReadingContext& context,
                                const std::optional<Interval<Rpm>>& guide);

/// "1440 rpm", five significant digits, for messages.
[[nodiscard]] std::string rpmText(Rpm rate);

}  // namespace core::spin
