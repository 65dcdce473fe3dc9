#pragma once

#include <string_view>

#include "core/base/result.h"
#include "core/stats/readers/reader_table.h"

namespace core::stats {

/// Sums of squares of a complete crossed table; a source without degrees of freedom has none.
struct CrossedSums {
    double shots{};
    double readers{};
    double interaction{};  ///< with one repeat: the error
    double repeats{};      ///< within combinations of shot and reader
};

/// The table checked for its size and finite values. `what` names the analysis in messages.
/// Errors: InvalidInput, NotFinite.
Result<void> checkTable(const ReaderTable& table, std::string_view what);

/// Sums in extended precision about the means. The table must be checked.
CrossedSums crossedSums(const ReaderTable& table);

}  // namespace core::stats
