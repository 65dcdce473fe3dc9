#include "core/plan/slate_page.h"

#include "core/base/words.h"

namespace core::plan {

Result<void> drawCard(PdfPages& pages, const SlateCard& card) {
    constexpr double kPointsPerMillimetre = 72.0 / 25.4;
    BOOST_OUTCOME_TRY(code, qrCodeOf(slateText(card)));
    constexpr double kCodePt = 165.0 * kPointsPerMillimetre;
    double y = PdfPages::kMarginPt / 2.0;
    pages.code((PdfPages::kWidthPt - kCodePt) / 2.0, y, kCodePt, code);
    y += kCodePt + 4.0;
    const double left = PdfPages::kMarginPt;
    const double width = PdfPages::kTextWidthPt;
    y += pages.fittedLine(left, y, card.implement, {46.0, true, width, true});
    if (!card.condition.empty()) {
        y += pages.fittedLine(left, y, card.condition, {26.0, false, width, true});
    }
    y += 6.0;
    y += pages.fittedLine(left, y, said("hitter: {}", card.hitter), {36.0, true, width, true});
    if (!card.session.empty()) {
        y += 6.0;
        pages.fittedLine(left, y, card.session, {18.0, false, width, true, 0.25});
    }
    pages.text(left, PdfPages::kHeightPt - PdfPages::kMarginPt + 4.0,
               said("Hold this card flat and still in view for two seconds, then film the shots it "
                    "names. One card at a time."),
               {8.5, false, width, true, 0.3});
    return ok();
}

}  // namespace core::plan
