#pragma once

#include <string>

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

/// One row a shot, in the order of the film: whose it is, how it stands, its counting reading.
[[nodiscard]] Table shotsTable(const project::Snapshot& snapshot);
/// One row a reading, kept or not: every number that was ever read.
[[nodiscard]] Table readingsTable(const project::Snapshot& snapshot);
/// One row a cell, then one row an implement with an empty hitter.
[[nodiscard]] Table summaryTable(const Summary& summary);

/// "open", "kept", "set aside".
[[nodiscard]] std::string standingCode(project::ShotStanding standing);
/// "marks", "rotation fit".
[[nodiscard]] std::string methodCode(project::ReadingMethod method);

}  // namespace core::report
