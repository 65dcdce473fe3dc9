#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "core/base/units.h"
#include "core/timebase/slope_density.h"

namespace core::spin {

/// A return whose number of turns is given or sought. Times in seconds.
struct CountedReturn {
    double low{};
    double high{};
    std::optional<int> turns;
};

/// Every assignment of whole turns to the returns (ascending in time) that some period of at least
/// `shortestPeriod` satisfies, with `firstTurns` turns at the first. Turns grow strictly from one
/// return to the next, except where equal ones were given. At most `limit` assignments.
/// The start lies within [start.low, start.high].
[[nodiscard]] std::vector<std::vector<int>> consistentTurns(
    const timebase::BoundedPoint& start, const std::vector<CountedReturn>& returns, int firstTurns,
    Seconds shortestPeriod, std::size_t limit);

/// The start and the returns as points of the line time = start + turns·period.
[[nodiscard]] std::vector<timebase::BoundedPoint> pointsOf(
    const timebase::BoundedPoint& start, const std::vector<CountedReturn>& returns,
    const std::vector<int>& turns);

}  // namespace core::spin
