#pragma once

#include <vector>

#include "core/findings/findings.h"
#include "core/project/snapshot.h"
#include "core/publish/table.h"
#include "core/report/summary.h"

/// What a project holds, as tables for whoever wants to check.
namespace core::publish {

/// One row a shot, in the order of the film: whose it is, how it stands, its counting reading.
[[nodiscard]] Table shotsTable(const project::Snapshot& snapshot);
/// One row a reading, kept or not: every number that was ever read.
[[nodiscard]] Table readingsTable(const project::Snapshot& snapshot);
/// One row a cell, then one row an implement with an empty hitter.
[[nodiscard]] Table summaryTable(const report::Summary& summary);
/// One row an implement and comparison: with all hitters together (empty hitter), and with each.
[[nodiscard]] Table rankingTable(const findings::Findings& findings);
/// One row two implements and comparison.
[[nodiscard]] Table pairsTable(const findings::Findings& findings);

/// All five.
[[nodiscard]] std::vector<Table> tablesOf(const project::Snapshot& snapshot,
                                          const findings::Findings& findings);

[[nodiscard]] std::string standingCode(project::ShotStanding standing);
[[nodiscard]] std::string methodCode(project::ReadingMethod method);

}  // namespace core::publish
