#pragma once

#include <span>
#include <string>
#include <vector>

#include "core/accuracy/trial.h"

namespace core::accuracy {

/// Figures of a group of trials. Errors and axis are of the readings; shares of all trials, except
/// coverage, which is of the readings. NaN where there is no reading.
struct AccuracyRow {
    std::string name;
    std::size_t trials{};
    std::size_t readings{};
    double medianError{};  ///< of |relative error|
    double error90{};      ///< 90th percentile
    double error95{};
    double coverage{};  ///< share of readings whose 95 % interval contains the truth
    double noReading{};
    double
        blunders{};  ///< share with a reading off by more than kBlunder, of a false shot included
    double medianAxisDeg{};
    Seconds medianTime;  ///< processor time of tracking and fitting together, of found shots
};

/// Whether a trial belongs to the conditions for which the targets hold: a ball of 30 px or more, 8
/// frames or more, turning by 30 degrees or less during an exposure.
[[nodiscard]] bool isOfTheTarget(const Trial& trial) noexcept;

/// First all trials, then those of the target, then those of the target by condition.
[[nodiscard]] std::vector<AccuracyRow> accuracyRows(std::span<const Trial> trials);

/// The table as text, one line a row, percentages and degrees.
[[nodiscard]] std::string accuracyText(std::span<const AccuracyRow> rows);

}  // namespace core::accuracy
