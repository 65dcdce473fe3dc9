#pragma once

#include <string>

#include "core/base/result.h"
#include "core/plan/plan.h"

/// What a plan looks like on paper: PDF, A4 upright.
namespace core::plan {

/// The order of the day: one row a visit with a box to tick for every shot, rests between them,
/// the cautions on the first page. Errors: those of scheduleOf(); WriteFailed.
Result<std::string> shotListPdf(const Plan& plan);

/// One page a cell: the code of the slate card (slate.h, qr_code.h) over the width of the page, and
/// the same words to read. Errors: as shotListPdf(); InvalidInput for names too long for a code.
Result<std::string> slateCardsPdf(const Plan& plan);

/// Words for an order: "passes balanced for places and neighbours (Williams design)".
[[nodiscard]] std::string orderWords(OrderKind kind);
/// Words for a marking: "three quarters dark".
[[nodiscard]] std::string markingWords(BallMarking marking);

}  // namespace core::plan
