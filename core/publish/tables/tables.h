#pragma once

#include <vector>

#include "core/findings/findings.h"
#include "core/project/snapshot.h"
#include "core/report/tables.h"

/// What is said of a project, as tables beside those of core/report.
namespace core::publish {

/// One row an implement and comparison: with all hitters together (empty hitter), and with each.
[[nodiscard]] report::Table rankingTable(const findings::Findings& findings);
/// One row two implements and comparison.
[[nodiscard]] report::Table pairsTable(const findings::Findings& findings);

/// Shots, readings, summary, ranking and pairs.
[[nodiscard]] std::vector<report::Table> tablesOf(const project::Snapshot& snapshot,
                                                  const findings::Findings& findings);

}  // namespace core::publish
