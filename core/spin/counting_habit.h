#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "core/base/units.h"
#include "core/spin/mark.h"

namespace core::spin {

/// How a whole-frame count of a turn was made. With T the time of the turns counted, in frame
/// intervals, and k the count:
///
///     start |----|----|----|----|-x--|        x: back in the start's orientation
///           0    1    2    3    4    5
enum class CountingHabit {
    Nearest,  ///< the start is a frame, the return the nearest frame (4): T in k ± 1/2
    Both,     ///< start and return are each the nearest frame: T in k ± 1, most likely k
    After,    ///< the start is a frame, the return the first frame at or past the turn (5): T in
              ///< k - 1 to k
    Unknown,  ///< one of these
};

/// Stable name for storage, files and the command line: "nearest", "both", "after", "unknown".
[[nodiscard]] std::string_view habitName(CountingHabit habit) noexcept;
/// Absent for any other text.
[[nodiscard]] std::optional<CountingHabit> habitNamed(std::string_view name) noexcept;
/// For people: "start exact, nearest return" and so on.
[[nodiscard]] std::string habitWords(CountingHabit habit);

/// The marks that say what such a count says. An unknown habit allows all that the others allow: T
/// in k ± 1 with equal probability.
[[nodiscard]] MarkSet marksOfCount(CountingHabit habit, FrameIndex start, FrameIndex end,
                                   int turns);

/// What a count says of the true rate beside others of its cell, from the hard limits of the
/// reading by marksOfCount(): the interval or triangle of periods that the count left possible.
struct CountedRate {
    Interval<Rpm> bounds;
    double top{1.0};  ///< share of the base where the period is likeliest, see
                      ///< stats::ReadingLikelihood
    /// Effect of the habit itself, which all counts of one person share: for an unknown habit the
    /// true period is by a quarter of a frame longer or shorter, one or the other, than the bounds
    /// say. Rpm, zero for a known habit.
    double habitRpm{};
};
[[nodiscard]] CountedRate countedRate(CountingHabit habit, Interval<Rpm> limits);

}  // namespace core::spin
