#pragma once

#include "core/findings/find_hitters.h"

namespace core::findings {

/// Cells that implement + hitter does not explain, by what their removal does: the cell without
/// which the rest is most nearly additive is named first, and looked for again without it. Each is
/// judged by stats::deletedResiduals(), the scatter of exact readings moderated by that of all
/// cells (stats::moderatedVariances()), at a level of 2 % for all cells that could have been named.
/// With two hitters the removal of either cell of an implement does the same, so both are named;
/// with more, the runner-up is named too where it does nearly as well. `full`: positions of the
/// implements that every hitter has struck.
std::vector<InteractionCell> findOddCells(const std::vector<ImplementFinding>& implements,
                                          const Crossed& crossed,
                                          const std::vector<std::size_t>& full);

/// Puts a mark with the hitters' means on the implements of odd cells.
void noteOddCells(std::vector<ImplementFinding>& implements, const Crossed& crossed,
                  const HitterFindings& hitters);

}  // namespace core::findings
