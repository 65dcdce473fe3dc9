#pragma once

#include <vector>

#include "core/findings/cells.h"
#include "core/project/snapshot.h"

namespace core::findings {

/// Everything about single cells, in the order of the summary's. `earlier` may hold cells of an
/// earlier revision: one with the same readings is taken over.
std::vector<CellFinding> findCells(const report::Summary& summary,
                                   const std::vector<CellFinding>& earlier);

/// Cells whose scatter is out of line with the others, and the shots that make it so.
void findOddScatters(std::vector<CellFinding>& cells);

/// Implements in the order of the summary's; cells by position.
std::vector<ImplementFinding> findImplements(const project::Snapshot& snapshot,
                                             const report::Summary& summary,
                                             const std::vector<CellFinding>& cells);

}  // namespace core::findings
