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
    double medianAxisDeg{};
    double axis90Deg{};
    double noReading{};
    /// Share with a reading off by more than kBlunder, one of a false shot included.
    double blunders{};
    double silentBlunders{};  ///< those of them that carry no warning
    double coverage{};        ///< share of readings whose 95 % interval contains the truth
    double rmsZ{};            ///< root mean square of error over standard uncertainty
    double kinks{};           ///< share of shots that were taken to end at a kink
    Seconds medianTime;       ///< processor time of tracking and fitting together, of found shots
};

/// Whether a trial belongs to the conditions for which the targets hold: a ball of 30 px or more, 8
/// frames or more, turning by 30 degrees or less during an exposure.
[[nodiscard]] bool isOfTheTarget(const Trial& trial) noexcept;

/// First all usual trials, then those of the target, then those of the target by condition, then
/// the other situations that occur, each with all its trials but those whose readout is not told,
/// which are of the target.
[[nodiscard]] std::vector<AccuracyRow> accuracyRows(std::span<const Trial> trials);

/// The table as text, one line a row: percentages, degrees, seconds.
[[nodiscard]] std::string accuracyText(std::span<const AccuracyRow> rows);

}  // namespace core::accuracy
