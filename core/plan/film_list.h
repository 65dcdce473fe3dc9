#pragma once

#include <span>
#include <string>

#include "core/base/result.h"
#include "core/plan/slate.h"

/// What is to be filmed once more, on paper.
namespace core::plan {

/// Shots of one cell.
struct CellToFilm {
    SlateCard card;
    int shots{};
    bool operator==(const CellToFilm&) const = default;
};

/// A list with a box to tick for every shot and the cautions, then one slate card a cell. PDF, A4
/// upright. Errors: InvalidInput for an empty list or names too long for a code; WriteFailed.
Result<std::string> filmListPdf(std::span<const CellToFilm> cells);

}  // namespace core::plan
