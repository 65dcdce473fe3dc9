#include "ui/doubts/doubt_rates.h"

#include <algorithm>
#include <cmath>

#include "core/base/words.h"
#include "core/project/clock_refutation.h"
#include "core/words/doubts.h"
#include "ui/doubts/text.h"
#include "ui/models/number_text.h"

namespace ui::doubts {
namespace {

using core::doubts::Doubted;
using core::project::Snapshot;

constexpr double kSameRpm = 0.5;  // is written the same

QString rpmText(double rpm) {
    return models::numberText(rpm, 'f', 0);
}

std::optional<double> countingRpm(const Snapshot& snapshot, const Doubted& item) {
    const auto* shot = item.shot ? snapshot.shots.find(*item.shot) : nullptr;
    const auto* reading =
        shot != nullptr && shot->counting ? snapshot.readings.find(*shot->counting) : nullptr;
    return reading != nullptr ? std::optional{reading->rate.value.rpm} : std::nullopt;
}

QString rivalsText(double one, double other) {
    return RateScale::tr("%1 or %2 rpm")
        .arg(rpmText(std::min(one, other)), rpmText(std::max(one, other)));
}

/// Of several cells, that which is doubted.
const core::findings::InteractionCell* cellOf(
    const Snapshot& snapshot, const Doubted& item,
    const std::vector<core::findings::InteractionCell>& cells) {
    const auto* wanted = item.cell ? snapshot.cells.find(*item.cell) : nullptr;
    const auto found = std::find_if(cells.begin(), cells.end(), [wanted](const auto& cell) {
        return wanted != nullptr && cell.implement == wanted->implement &&
               cell.hitter == wanted->hitter;
    });
    return found != cells.end() ? &*found : cells.empty() ? nullptr : &cells.front();
}

QString departureText(const core::findings::InteractionCell& cell) {
    const QString hitter = text(cell.hitterName);
    const QString off = rpmText(std::abs(cell.departureRpm));
    if (cell.departureRpm > 0.0) {
        return RateScale::tr("%1 is %2 rpm above what to expect").arg(hitter, off);
    }
    return RateScale::tr("%1 is %2 rpm below what to expect").arg(hitter, off);
}

QString wideText(const core::doubts::WideInCell& facts) {
    return RateScale::tr("± %1 rpm, the others ± %2")
        .arg(rpmText(facts.sigma.rpm), rpmText(facts.usual.rpm));
}

QString scatterText(double rpm) {
    return RateScale::tr("standard deviation %1 rpm").arg(rpmText(rpm));
}

QString speedText(const core::doubts::SpeedInCell& facts) {
    return RateScale::tr("%1 m/s, the others %2")
        .arg(models::numberText(facts.metresPerSecond, 'f', 1),
             models::numberText(facts.usual, 'f', 1));
}

QString oddText(const core::findings::OddShot& odd, const std::vector<double>& others) {
    if (others.empty()) {
        return RateScale::tr("%1 rpm").arg(rpmText(odd.rpm));
    }
    const QString least = rpmText(others.front());
    const QString most = rpmText(others.back());
    return least == most
               ? RateScale::tr("%1, the others %2").arg(rpmText(odd.rpm), least)
               : RateScale::tr("%1, the others %2 to %3").arg(rpmText(odd.rpm), least, most);
}

/// Where facts have no rate of their own: the one that counts, or how many the cell has.
QString usualText(const Snapshot& snapshot, const CellRates& rates, const Doubted& item) {
    if (const auto rpm = countingRpm(snapshot, item)) {
        return RateScale::tr("%1 rpm").arg(rpmText(*rpm));
    }
    return item.cell && !item.shot
               ? text(core::counted(rates.of(*item.cell, {}).size(), "kept shot", "kept shots"))
               : QString{};
}

/// What each kind of facts comes to in numbers. Its words stand above.
struct NumbersOf {
    const Snapshot& snapshot;
    const CellRates& rates;
    const Doubted& item;

    template <class Facts>
    QString operator()(const Facts& /*others*/) const {
        return usualText(snapshot, rates, item);
    }
    QString operator()(const core::doubts::MarksAgainstPictures& facts) const {
        return rivalsText(facts.marks.rpm, facts.pictures.rpm);
    }
    QString operator()(const core::doubts::TurnsOff& facts) const { return (*this)(facts.rates); }
    QString operator()(const core::doubts::RepeatedReading& facts) const {
        return rivalsText(facts.other.rpm, facts.counting.rpm);
    }
    QString operator()(const core::doubts::NearRate& facts) const {
        const auto rpm = countingRpm(snapshot, item);
        return facts.rate && rpm ? rivalsText(*rpm, facts.rate->rpm)
                                 : usualText(snapshot, rates, item);
    }
    QString operator()(const core::doubts::MissingFrames& facts) const {
        return text(core::counted(facts.count, "frame", "frames"));
    }
    QString operator()(const core::doubts::WideInCell& facts) const { return wideText(facts); }
    QString operator()(const core::doubts::SpeedInCell& facts) const { return speedText(facts); }
    QString operator()(const core::findings::OddShot& odd) const {
        return oddText(odd, rates.of(odd.cell, odd.shot));
    }
    QString operator()(const core::findings::OddScatter& odd) const {
        return scatterText(odd.deviationRpm);
    }
    QString operator()(const std::vector<core::findings::InteractionCell>& cells) const {
        const auto* cell = cellOf(snapshot, item, cells);
        return cell != nullptr ? departureText(*cell) : QString{};
    }
};

/// Nothing, where a reading says the same.
void addRival(RateScale::Content& content, double rpm, const QString& words) {
    const bool isKnown =
        std::any_of(content.claims.begin(), content.claims.end(),
                    [rpm](const auto& claim) { return std::abs(claim.rpm - rpm) < kSameRpm; });
    if (!isKnown) {
        content.claims.push_back({rpm, words.arg(rpmText(rpm)), false});
    }
}

/// What speaks for another rate than the readings that were made.
struct RivalOf {
    const Snapshot& snapshot;
    const Doubted& item;
    RateScale::Content& content;

    template <class Facts>
    void operator()(const Facts& /*no rate*/) const {}
    void operator()(const core::doubts::MarksAgainstPictures& facts) const {
        addRival(content, facts.pictures.rpm, RateScale::tr("%1 by the pictures"));
    }
    void operator()(const core::doubts::TurnsOff& facts) const { (*this)(facts.rates); }
    void operator()(const core::doubts::NearRate& facts) const {
        if (facts.rate) {
            addRival(content, facts.rate->rpm, RateScale::tr("%1 fits nearly as well"));
        }
    }
    void operator()(const std::vector<core::findings::InteractionCell>& cells) const {
        const auto* cell = cellOf(snapshot, item, cells);
        if (cell != nullptr && !item.shot) {
            content.claims.push_back(
                {cell->meanRpm, RateScale::tr("%1 mean of the cell").arg(rpmText(cell->meanRpm)),
                 true});
            addRival(content, cell->meanRpm - cell->departureRpm, RateScale::tr("%1 expected"));
        }
    }
};

void addReadings(const Snapshot& snapshot, core::project::ShotId id, RateScale::Content& content) {
    const auto* shot = snapshot.shots.find(id);
    const auto readings = readingsOfShot(snapshot, id);
    for (const auto* reading : readings) {
        if (shot != nullptr && shot->counting == reading->id) {
            const double rpm = reading->rate.value.rpm;
            content.claims.push_back({rpm, RateScale::tr("%1 in use").arg(rpmText(rpm)), true});
        }
    }
    for (const auto* reading : readings) {
        addRival(content, reading->rate.value.rpm, QStringLiteral("%1"));
    }
}

}  // namespace

CellRates::CellRates(const Snapshot& snapshot, std::optional<core::project::CellId> only) {
    for (const auto& shot : snapshot.shots) {
        const bool isAskedFor = shot.cell && (!only || shot.cell == only);
        if (isAskedFor && core::project::isCounted(snapshot, shot)) {
            const auto* reading = snapshot.readings.find(*shot.counting);
            m_kept[*shot.cell].push_back({shot.id, reading->rate.value.rpm});
        }
    }
}

std::vector<double> CellRates::of(core::project::CellId cell,
                                  std::optional<core::project::ShotId> but) const {
    std::vector<double> rates;
    if (const auto found = m_kept.find(cell); found != m_kept.end()) {
        for (const Kept& kept : found->second) {
            if (kept.shot != but) {
                rates.push_back(kept.rpm);
            }
        }
    }
    std::sort(rates.begin(), rates.end());
    return rates;
}

QString reasonText(const Doubted& item) {
    QString reason = text(core::words::reasonWords(item.doubts.front().reason));
    if (!reason.isEmpty()) {
        reason[0] = reason[0].toUpper();
    }
    return reason;
}

QString numbersText(const Snapshot& snapshot, const CellRates& rates, const Doubted& item) {
    return std::visit(NumbersOf{snapshot, rates, item}, item.doubts.front().facts);
}

RateScale::Content scaleOf(const Snapshot& snapshot, const CellRates& rates, const Doubted& item) {
    RateScale::Content content;
    content.othersWords =
        item.shot ? RateScale::tr("other shots of the cell") : RateScale::tr("shots of the cell");
    if (item.shot) {
        addReadings(snapshot, *item.shot, content);
    }
    for (const auto& doubt : item.doubts) {
        std::visit(RivalOf{snapshot, item, content}, doubt.facts);
    }
    if (item.cell) {
        content.others = rates.of(*item.cell, item.shot);
    }
    return content;
}

}  // namespace ui::doubts
