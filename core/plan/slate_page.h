#pragma once

#include "core/plan/pdf_pages.h"
#include "core/plan/slate.h"

namespace core::plan {

/// A slate card over the whole page. Private to core/plan. Errors: those of qrCodeOf().
Result<void> drawCard(PdfPages& pages, const SlateCard& card);

}  // namespace core::plan
