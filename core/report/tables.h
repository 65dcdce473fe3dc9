#pragma once

#include <string>
#include <utility>
#include <vector>

#include "core/project/snapshot.h"
#include "core/report/summary.h"
#include "core/report/table.h"

/// What a project holds, as tables for whoever wants to check.
namespace core::report {

/// Whose a shot is and where it lies, in words; empty where that is not known.
struct ShotPlace {
    std::string session;
    std::string implement;
    std::string condition;
    std::string hitter;
    std::string clip;  ///< path as the project keeps it
};
[[nodiscard]] ShotPlace placeOf(const project::Snapshot& snapshot, const project::Shot& shot);

/// A shot and its number among those of its hitter on the filming day.
using NumberedShot = std::pair<project::ShotId, int>;
/// From 1, kept or not, in the order of the film; shots without implement and hitter have none.
[[nodiscard]] std::vector<NumberedShot> numberShotsOfHitters(const project::Snapshot& snapshot);

/// The name of a shared part of the uncertainty in tables: "clock:1", "view:1:marks", "habit:1",
/// the number that of the filming day.
[[nodiscard]] std::string partName(const SharedKey& key);

/// The shared parts of a reading's uncertainty with what each does to it, in rpm: clock, view,
/// habit, those that are there.
[[nodiscard]] std::vector<std::pair<SharedKey, double>> partsOf(const project::Reading& reading,
                                                                project::SessionId session);

/// One row a shot, in the order of the film: whose it is, how it stands, its counting reading.
[[nodiscard]] Table shotsTable(const project::Snapshot& snapshot);
/// One row a reading, kept or not: every number that was ever read, and the parts of its
/// uncertainty.
[[nodiscard]] Table readingsTable(const project::Snapshot& snapshot);
/// One row a cell.
[[nodiscard]] Table summaryTable(const Summary& summary);
/// One row an implement, whoever struck it.
[[nodiscard]] Table implementsTable(const Summary& summary);

/// "open", "kept", "set aside".
[[nodiscard]] std::string standingCode(project::ShotStanding standing);
/// "marks", "rotation fit".
[[nodiscard]] std::string methodCode(project::ReadingMethod method);

}  // namespace core::report
