#pragma once

#include "core/intake/tallies.h"

/// What is looked at in a tally once its rows are read. Private to core/intake.
namespace core::intake {

/// Finds names that are alike, joins them where that was decided, and gives implements without a
/// condition the one that is known.
void decideNames(Tally& tally, const TallySource& source);

/// Takes the attributes of the implements from these columns of the sheet. A row that says another
/// value than an earlier one or the project becomes a fault and loses its shots.
void takeAttributes(Tally& tally, const TallySheet& sheet, const std::vector<std::size_t>& columns,
                    const TallySource& source);

/// Finds the counts that can hardly be right.
void holdUpImprobable(Tally& tally);

}  // namespace core::intake
