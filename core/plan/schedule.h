#pragma once

#include <string>
#include <vector>

#include "core/plan/plan.h"

namespace core::plan {

/// One line of the day: a hitter takes an implement for a few shots in a row, or rests.
struct Visit {
    enum class Kind { Shots, Rest };
    Kind kind{Kind::Shots};
    std::size_t hitter{};
    std::size_t implement{};  ///< of Shots
    int shots{};              ///< of Shots
    bool isControl{};         ///< shots of the control, beyond those of its cell
    int firstShot{};          ///< number of the first shot within the day, from 1; of Shots
    bool operator==(const Visit&) const = default;
};

/// One shot of the day.
struct PlannedShot {
    std::size_t hitter{};
    std::size_t implement{};
    bool isControl{};
    std::size_t visit{};  ///< index in the schedule
    bool operator==(const PlannedShot&) const = default;
};

/// The day in order. The same plan gives the same schedule on every machine.
struct Schedule {
    std::vector<Visit> visits;
    int shots{};                       ///< of the whole day, control included
    std::vector<int> swingsPerHitter;  ///< as many as hitters
    int passes{};                      ///< through all implements; 0 for Random and Blocked
    int designRows{};                  ///< of the square behind the passes; 0 without
    std::vector<std::string> remarks;  ///< what the order does not balance, in plain words
};

/// Puts the shots of a plan in order.
///
/// Random: every hitter's visits (shotsPerCell in portions of shotsPerVisit) are shuffled; hitters
/// take turns visit by visit. Blocked: the implements in random order; for each the hitters one
/// after the other with all shots of the cell. LatinSquare, Williams: the hitters take turns pass
/// by pass, each pass goes once through all implements by the next row of a random square
/// (designs.h); when the rows are used up they are used again.
/// A control is hit by every hitter before the first, after the middle and after the last visit.
/// A rest stands before the shots with which a hitter would exceed swingsBetweenRests since the
/// last one; a visit that is longer than that is split.
///
/// Errors: those of checkPlan(); InvalidInput without an implement or a hitter.
Result<Schedule> scheduleOf(const Plan& plan);

/// Shot by shot, rests left out.
[[nodiscard]] std::vector<PlannedShot> plannedShots(const Schedule& schedule);

}  // namespace core::plan
