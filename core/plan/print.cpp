#include "core/plan/print.h"

#include <fmt/format.h>

#include "core/base/words.h"
#include "core/plan/cautions.h"
#include "core/plan/pdf_pages.h"
#include "core/plan/schedule.h"
#include "core/plan/slate.h"
#include "core/plan/slate_page.h"

namespace core::plan {
namespace {

constexpr double kRowTextPt = 10.0;
constexpr double kRowPadPt = 4.0;
constexpr double kBoxPt = 11.0;
constexpr double kBoxStepPt = 15.0;
constexpr int kBoxesPerLine = 10;
constexpr double kFootPt = 16.0;

// Columns of the shot list, from the left margin.
constexpr double kNumberWidthPt = 58.0;
constexpr double kHitterWidthPt = 96.0;
constexpr double kImplementWidthPt = 188.0;
constexpr double kColumnGapPt = 6.0;
constexpr double kBoxesLeftPt = kNumberWidthPt + kHitterWidthPt + kImplementWidthPt;

std::string titleOf(const Plan& plan, const std::string& what) {
    return plan.session.empty() ? what : fmt::format("{}: {}", what, plan.session);
}

std::string summaryOf(const Plan& plan, const Schedule& schedule) {
    std::string text =
        said("{}, {}, {} per cell: {}. Order: {}; seed {}.",
             counted(plan.implements.size(), "implement", "implements"),
             counted(plan.hitters.size(), "hitter", "hitters"),
             counted(plan.shotsPerCell, "shot", "shots"), counted(schedule.shots, "shot", "shots"),
             orderWords(plan.order), plan.seed);
    if (plan.control) {
        text += " " + said("Control: {}, {} by every hitter at start, middle and end.",
                           implementLabel(plan, *plan.control),
                           counted(plan.controlShots, "shot", "shots"));
    }
    for (std::size_t i = 0; i < plan.hitters.size(); ++i) {
        text += " " + said("{} has {}.", plan.hitters[i],
                           counted(schedule.swingsPerHitter[i], "swing", "swings"));
    }
    return text;
}

/// The shot list, row under row.
class ShotList {
public:
    ShotList(const Plan& plan, const Schedule& schedule)
        : m_plan{plan}, m_schedule{schedule}, m_pages{titleOf(plan, said("Shot list"))} {}

    Result<std::string> write() {
        heading();
        columnHeads();
        for (const Visit& visit : m_schedule.visits) {
            visit.kind == Visit::Kind::Rest ? rest(visit) : shots(visit);
        }
        foot();
        return m_pages.finish();
    }

private:
    void say(const std::string& text, TextLook look, double after) {
        look.widthPt = PdfPages::kTextWidthPt;
        ensureRoom(m_pages.heightOf(text, look));
        m_y += m_pages.text(PdfPages::kMarginPt, m_y, text, look) + after;
    }

    void heading() {
        say(titleOf(m_plan, said("Shot list")), {18.0, true}, 6.0);
        say(summaryOf(m_plan, m_schedule), {9.5}, 3.0);
        say(said("Ball: {}{}marked {}.", m_plan.ball, m_plan.ball.empty() ? "" : "; ",
                 markingWords(m_plan.marking)),
            {9.5}, 6.0);
        for (const auto& remark : m_schedule.remarks) {
            say(remark, {8.5, false, 0.0, false, 0.3}, 3.0);
        }
        say(cautionsHeading(), {10.0, true}, 2.0);
        for (const auto& caution : filmingCautions()) {
            say("• " + caution, {9.5}, 2.0);
        }
        m_y += 6.0;
    }

    void columnHeads() {
        const double left = PdfPages::kMarginPt;
        const TextLook look{8.5, true};
        m_pages.text(left, m_y, said("Shots"), look);
        m_pages.text(left + kNumberWidthPt, m_y, said("Hitter"), look);
        m_pages.text(left + kNumberWidthPt + kHitterWidthPt, m_y, said("Implement"), look);
        m_pages.text(left + kBoxesLeftPt, m_y, said("Tick each shot"), look);
        m_y += 13.0;
        m_pages.rule(left, m_y, PdfPages::kTextWidthPt);
    }

    void foot() {
        m_pages.text(PdfPages::kMarginPt, PdfPages::kHeightPt - PdfPages::kMarginPt + 8.0,
                     said("{}, page {}", titleOf(m_plan, said("Shot list")), m_page),
                     {7.5, false, 0.0, false, 0.4});
    }

    void ensureRoom(double heightPt) {
        if (m_y + heightPt <= PdfPages::kHeightPt - PdfPages::kMarginPt - kFootPt) {
            return;
        }
        foot();
        m_pages.turn();
        ++m_page;
        m_y = PdfPages::kMarginPt;
        columnHeads();
    }

    void rest(const Visit& visit) {
        const double height = kRowTextPt + 2.0 * kRowPadPt + 2.0;
        ensureRoom(height);
        m_pages.shade(PdfPages::kMarginPt, m_y, PdfPages::kTextWidthPt, height);
        m_pages.fittedLine(PdfPages::kMarginPt + kNumberWidthPt, m_y + kRowPadPt,
                           said("{} rests for {} before going on.", m_plan.hitters[visit.hitter],
                                counted(m_plan.restMinutes, "minute", "minutes")),
                           {kRowTextPt, true, PdfPages::kTextWidthPt - kNumberWidthPt});
        m_y += height;
    }

    void shots(const Visit& visit) {
        const auto& implement = m_plan.implements[visit.implement];
        std::string name = implementLabel(m_plan, visit.implement);
        if (name == implement.name && !implement.condition.empty()) {
            name += fmt::format(" ({})", implement.condition);
        }
        if (visit.isControl) {
            name = said("{}, control", name);
        }
        const TextLook hitterLook{kRowTextPt, false, kHitterWidthPt - kColumnGapPt};
        const TextLook nameLook{kRowTextPt, false, kImplementWidthPt - kColumnGapPt};
        const std::string& hitter = m_plan.hitters[visit.hitter];
        const int boxLines = (visit.shots + kBoxesPerLine - 1) / kBoxesPerLine;
        const double height =
            2.0 * kRowPadPt + std::max({m_pages.heightOf(hitter, hitterLook),
                                        m_pages.heightOf(name, nameLook), boxLines * kBoxStepPt});
        ensureRoom(height);
        const double left = PdfPages::kMarginPt;
        const double y = m_y + kRowPadPt;
        const int last = visit.firstShot + visit.shots - 1;
        m_pages.text(
            left, y,
            visit.shots == 1 ? std::to_string(last) : fmt::format("{}–{}", visit.firstShot, last),
            {kRowTextPt});
        m_pages.text(left + kNumberWidthPt, y, hitter, hitterLook);
        m_pages.text(left + kNumberWidthPt + kHitterWidthPt, y, name, nameLook);
        for (int i = 0; i < visit.shots; ++i) {
            m_pages.box(left + kBoxesLeftPt + (i % kBoxesPerLine) * kBoxStepPt,
                        y + 1.0 + (i / kBoxesPerLine) * kBoxStepPt, kBoxPt);
        }
        m_y += height;
        m_pages.rule(left, m_y, PdfPages::kTextWidthPt);
    }

    const Plan& m_plan;
    const Schedule& m_schedule;
    PdfPages m_pages;
    double m_y{PdfPages::kMarginPt};
    int m_page{1};
};

}  // namespace

std::string orderWords(OrderKind kind) {
    switch (kind) {
        case OrderKind::Random:
            return said("random");
        case OrderKind::Blocked:
            return said("implement by implement, in random order");
        case OrderKind::LatinSquare:
            return said("passes balanced for places (Latin square)");
        case OrderKind::Williams:
            break;
    }
    return said("passes balanced for places and neighbours (Williams design)");
}

std::string markingWords(BallMarking marking) {
    switch (marking) {
        case BallMarking::ThreeQuarterDark:
            return said("three quarters dark");
        case BallMarking::HalfDark:
            return said("half dark");
        case BallMarking::Band:
            return said("with a band");
        case BallMarking::BandWithDot:
            return said("with a band and one dot");
        case BallMarking::Other:
            break;
    }
    return said("in a way of its own");
}

Result<std::string> shotListPdf(const Plan& plan) {
    BOOST_OUTCOME_TRY(schedule, scheduleOf(plan));
    return ShotList{plan, schedule}.write();
}

Result<std::string> slateCardsPdf(const Plan& plan) {
    BOOST_OUTCOME_TRY(scheduleOf(plan));  // says what is missing
    PdfPages pages{titleOf(plan, said("Slate cards"))};
    bool isFirst = true;
    for (const SlateCard& card : slateCards(plan)) {
        if (!isFirst) {
            pages.turn();
        }
        isFirst = false;
        BOOST_OUTCOME_TRY(drawCard(pages, card));
    }
    return pages.finish();
}

}  // namespace core::plan
