#include "core/plan/sheet.h"

#include <algorithm>

#include "core/base/words.h"
#include "core/plan/cautions.h"
#include "core/plan/pdf_pages.h"

namespace core::plan {
namespace {

constexpr double kWordColumnPt = 56.0;
constexpr double kNameColumnPt = 124.0;
constexpr double kGapPt = 6.0;
constexpr double kValueLeftPt = kWordColumnPt + kNameColumnPt;

/// A page that is turned when it is full.
class SheetPages {
public:
    explicit SheetPages(const Sheet& sheet) : m_sheet{sheet}, m_pages{sheet.title} {}

    Result<std::string> write() {
        say(m_sheet.title, {18.0, true}, 6.0);
        say(m_sheet.sentence, {12.0, true}, 6.0);
        say(m_sheet.below, {9.5, false, 0.0, false, 0.3}, 8.0);
        for (const Sheet::Row& row : m_sheet.rows) {
            add(row);
        }
        m_y += 10.0;
        say(cautionsHeading(), {10.0, true}, 2.0);
        for (const auto& caution : filmingCautions()) {
            say("• " + caution, {9.5}, 2.0);
        }
        return m_pages.finish();
    }

private:
    void say(const std::string& text, TextLook look, double after) {
        if (text.empty()) {
            return;
        }
        look.widthPt = PdfPages::kTextWidthPt;
        ensureRoom(m_pages.heightOf(text, look));
        m_y += m_pages.text(PdfPages::kMarginPt, m_y, text, look) + after;
    }

    void add(const Sheet::Row& row) {
        const double left = PdfPages::kMarginPt;
        const double width = PdfPages::kTextWidthPt - kValueLeftPt;
        const TextLook valueLook{10.0, false, width};
        const TextLook adviceLook{9.5, false, width, false, 0.3};
        const TextLook nameLook{10.0, true, kNameColumnPt - kGapPt};
        const double advice =
            row.advice.empty() ? 0.0 : 2.0 + m_pages.heightOf(row.advice, adviceLook);
        const double height = std::max(m_pages.heightOf(row.name, nameLook),
                                       m_pages.heightOf(row.value, valueLook) + advice) +
                              2.0 * kGapPt;
        ensureRoom(height);
        m_pages.rule(left, m_y, PdfPages::kTextWidthPt);
        const double top = m_y + kGapPt;
        m_pages.text(left, top, row.word, {10.0});
        m_pages.text(left + kWordColumnPt, top, row.name, nameLook);
        const double below =
            top + m_pages.text(left + kValueLeftPt, top, row.value, valueLook) + 2.0;
        if (!row.advice.empty()) {
            m_pages.text(left + kValueLeftPt, below, row.advice, adviceLook);
        }
        m_y += height;
    }

    void ensureRoom(double heightPt) {
        if (m_y + heightPt > PdfPages::kHeightPt - PdfPages::kMarginPt) {
            m_pages.turn();
            m_y = PdfPages::kMarginPt;
        }
    }

    const Sheet& m_sheet;
    PdfPages m_pages;
    double m_y{PdfPages::kMarginPt};
};

}  // namespace

Result<std::string> sheetPdf(const Sheet& sheet) {
    return SheetPages{sheet}.write();
}

}  // namespace core::plan
