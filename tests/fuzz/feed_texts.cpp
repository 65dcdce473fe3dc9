#include <cmath>

#include "core/intake/tallies.h"
#include "core/plan/implement_table.h"
#include "core/plan/slate.h"
#include "tests/fuzz/promise.h"
#include "tests/fuzz/taken.h"

namespace tests::fuzz {
namespace {

using namespace core;

void holdTally(const intake::TallySheet& sheet, const intake::TallyLayout& layout,
               const intake::TallySource& source) {
    promise(layout.size() == sheet.headers.size(), "a layout has every column");
    const auto tally = intake::readTally(sheet, layout, source);
    if (!tally) {
        promiseWords(tally.error());
        return;
    }
    for (const intake::TallyShot& shot : tally.value().shots) {
        promise(shot.frames > 0 && shot.frames <= intake::kMostTallyFrames, "frames are believed");
        promise(shot.turns > 0 && shot.turns <= intake::kMostTallyTurns, "turns are believed");
        promise(std::isfinite(shot.spin().rpm) && shot.spin().rpm > 0.0, "a spin is a number");
        promise(!shot.implement.empty() && !shot.hitter.empty(), "a shot has its names");
        promise(isUtf8Text(shot.implement + shot.condition + shot.hitter), "names are text");
    }
    promise(isUtf8Text(intake::whatHoldsUp(tally.value(), source)), "words are text");
}

}  // namespace

void feedTally(Bytes bytes) {
    Taken taken{bytes};
    const unsigned choice = taken.byte();
    intake::TallySource source;
    source.comma = static_cast<CommaMeaning>(choice % 3);
    source.alike = static_cast<intake::AlikeNames>((choice >> 2U) % 3);
    source.leaveOutBadRows = (choice & 16U) != 0;
    source.acceptImprobable = (choice & 32U) != 0;
    source.hitter = (choice & 64U) != 0 ? "A" : "";
    if ((choice & 128U) == 0) {
        source.rate = timebase::CaptureRate{{240}};
    }
    const auto sheet = intake::tallySheetFrom(asText(taken.rest()));
    if (!sheet) {
        promiseWords(sheet.error());
        return;
    }
    for (const TextRow& row : sheet.value().rows) {
        promise(row.fields.size() == sheet.value().headers.size(), "a row has every column");
    }
    const auto layout = intake::proposeLayout(sheet.value());
    promise(isUtf8Text(intake::describeSheet(sheet.value(), layout)), "words are text");
    holdTally(sheet.value(), layout, source);
    for (const intake::TallyShape shape : intake::kTallyShapes) {
        holdTally(sheet.value(), intake::proposeLayout(sheet.value(), shape), source);
    }
}

void feedImplements(Bytes bytes) {
    const auto table = plan::implementsFromText(asText(bytes));
    if (!table) {
        promiseWords(table.error());
        return;
    }
    plan::Plan plan;
    plan::addToPlan(plan, table.value());
    promise(plan.implements.size() == table.value().implements.size(), "all are in the plan");
    for (const plan::PlannedImplement& implement : plan.implements) {
        promise(!implement.name.empty() && isUtf8Text(implement.name), "an implement has a name");
    }
    plan::addToPlan(plan, table.value());
    promise(plan.implements.size() == table.value().implements.size(), "none is in it twice");
    plan.hitters = {"A"};
    if (const auto checked = plan::checkPlan(plan); !checked) {
        promiseWords(checked.error());
    }
}

void feedSlate(Bytes bytes) {
    const auto card = plan::slateFromText(asText(bytes));
    if (!card) {
        promiseWords(card.error());
        return;
    }
    promise(!card.value().implement.empty() && !card.value().hitter.empty(),
            "a card has its names");
    const auto again = plan::slateFromText(plan::slateText(card.value()));
    promise(again.has_value() && again.value() == card.value(), "a card reads as it was written");
}

}  // namespace tests::fuzz
