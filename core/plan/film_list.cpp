#include "core/plan/film_list.h"

#include <algorithm>

#include "core/base/words.h"
#include "core/plan/cautions.h"
#include "core/plan/pdf_pages.h"
#include "core/plan/slate_page.h"

namespace core::plan {
namespace {

constexpr double kTickBoxPt = 11.0;
constexpr double kTickStepPt = 15.0;
constexpr int kTicksInARow = 20;

/// The list, row under row.
class FilmListPages {
public:
    explicit FilmListPages(PdfPages& pages) : m_pages{pages} {}

    void say(const std::string& text, TextLook look, double after) {
        look.widthPt = PdfPages::kTextWidthPt;
        makeRoom(m_pages.heightOf(text, look) + after);
        m_y += m_pages.text(PdfPages::kMarginPt, m_y, text, look) + after;
    }
    void ticks(int count) {
        for (int done = 0; done < count; done += kTicksInARow) {
            makeRoom(kTickStepPt);
            for (int i = 0; i < std::min(kTicksInARow, count - done); ++i) {
                m_pages.box(PdfPages::kMarginPt + i * kTickStepPt, m_y, kTickBoxPt);
            }
            m_y += kTickStepPt;
        }
        m_y += 6.0;
    }

private:
    void makeRoom(double heightPt) {
        if (m_y + heightPt > PdfPages::kHeightPt - PdfPages::kMarginPt) {
            m_pages.turn();
            m_y = PdfPages::kMarginPt;
        }
    }

    PdfPages& m_pages;
    double m_y{PdfPages::kMarginPt};
};

std::string cellWords(const CellToFilm& cell) {
    return said("{}{}, hitter {}: {}", cell.card.implement,
                cell.card.condition.empty() ? "" : " (" + cell.card.condition + ")",
                cell.card.hitter, counted(cell.shots, "shot", "shots"));
}

}  // namespace

Result<std::string> filmListPdf(std::span<const CellToFilm> cells) {
    if (cells.empty()) {
        return fail(ErrorCode::InvalidInput, said("Nothing is to be filmed again."));
    }
    PdfPages pages{said("To film again")};
    FilmListPages list{pages};
    list.say(said("To film again"), {18.0, true}, 6.0);
    list.say(cautionsHeading(), {10.0, true}, 2.0);
    for (const auto& caution : filmingCautions()) {
        list.say("• " + caution, {9.5}, 2.0);
    }
    list.say("", {6.0}, 4.0);
    for (const CellToFilm& cell : cells) {
        list.say(cellWords(cell), {11.0}, 3.0);
        list.ticks(cell.shots);
    }
    for (const CellToFilm& cell : cells) {
        pages.turn();
        BOOST_OUTCOME_TRY(drawCard(pages, cell.card));
    }
    return pages.finish();
}

}  // namespace core::plan
