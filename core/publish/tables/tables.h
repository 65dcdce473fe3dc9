#pragma once

#include <optional>
#include <vector>

#include "core/findings/findings.h"
#include "core/project/snapshot.h"
#include "core/publish/open_doubts.h"
#include "core/publish/origin.h"
#include "core/report/tables.h"

/// What is said of a project, as tables. Each has one kind of row, and ids join them.
namespace core::publish {

/// What the tables are made from.
struct TableInput {
    const project::Snapshot& snapshot;
    const findings::Findings& findings;
    const Origin& origin;
    const std::optional<OpenDoubts>& doubts;  ///< absent: nobody has looked for doubts
};

/// report::shotsTable() with the open doubts of each shot.
[[nodiscard]] report::Table shotsTable(const TableInput& input);
/// report::readingsTable() with frames, turns and capture rate.
[[nodiscard]] report::Table readingsTable(const TableInput& input);
/// report::summaryTable() with what the scatter consists of and the open doubts of each cell.
[[nodiscard]] report::Table summaryTable(const TableInput& input);
/// One row a shared part of the uncertainty.
[[nodiscard]] report::Table sharedPartsTable(const project::Snapshot& snapshot);
/// One row a cell and a shared part of its mean.
[[nodiscard]] report::Table cellPartsTable(const findings::Findings& findings);
/// One row an attribute of an implement.
[[nodiscard]] report::Table attributesTable(const project::Snapshot& snapshot,
                                            const findings::Findings& findings);
[[nodiscard]] report::Table hittersTable(const project::Snapshot& snapshot);
/// One row a filming day.
[[nodiscard]] report::Table daysTable(const project::Snapshot& snapshot);

/// Whose comparisons a table holds.
enum class Scope { AllHitters, EachHitter };
/// One row an implement, with all hitters together, or an implement and hitter.
[[nodiscard]] report::Table rankingTable(const findings::Findings& findings, Scope scope);
/// One row two implements, or two implements and a hitter.
[[nodiscard]] report::Table pairsTable(const findings::Findings& findings, Scope scope);
/// One row a comparison: with all hitters together, and with each.
[[nodiscard]] report::Table comparisonsTable(const findings::Findings& findings);
/// One row two conditions of one implement.
[[nodiscard]] report::Table conditionsTable(const findings::Findings& findings);
/// One row a hitter on a filming day.
[[nodiscard]] report::Table driftTable(const findings::Findings& findings);
/// One row an attribute that spin was held against.
[[nodiscard]] report::Table trendsTable(const findings::Findings& findings);

/// One row a band.
[[nodiscard]] report::Table bandsTable(const findings::Bands& bands);
/// One row a fact of the project and the publication.
[[nodiscard]] report::Table aboutTable(const TableInput& input);

/// All of them that have a row, in the order in which a reader asks. Without the history.
[[nodiscard]] std::vector<report::Table> tablesOf(const TableInput& input);

}  // namespace core::publish
