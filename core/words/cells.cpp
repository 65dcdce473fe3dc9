#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "core/base/words.h"
#include "core/words/findings.h"
#include "core/words/pieces.h"

namespace core::words {
namespace {

std::string cellName(const std::string& implement, const std::string& hitter) {
    return said("{}, hitter {}", implement, hitter);
}

std::string whyNoMean(const report::CellRow& row) {
    const std::string name = cellName(row.implementName, row.hitterName);
    if (row.readings.empty()) {
        return row.counts.open > 0
                   ? saidOf(row.counts.open,
                            "{}: no shot has been kept yet; {} shot waits in Reading.",
                            "{}: no shot has been kept yet; {} shots wait in Reading.", name,
                            row.counts.open)
                   : said("{}: no shot has been kept yet.", name);
    }
    return said(
        "{}: {} from one shot; how sure that is cannot be said before a second one "
        "is kept.",
        name, rpm(row.readings.front().rate.value.rpm, row.readings.front().rate.sigma.rpm));
}

/// "the shot at 1600 rpm", "the shot of 1440 to 1800 rpm" for a coarse one.
std::string shotWords(const findings::OddShot& shot) {
    return shot.bounds ? said("the shot of {}", between(*shot.bounds, shot.deviationRpm))
                       : said("the shot at {}", rpm(shot.rpm, shot.deviationRpm));
}

}  // namespace

std::string sentence(const findings::CellFinding& cell) {
    if (!cell.mean) {
        return whyNoMean(cell.row);
    }
    const double sigma = cell.mean->standardUncertainty;
    std::string text =
        saidOf(cell.row.readings.size(),
               "{}: {} from {} shot; the mean is between {} and {} with 95 % confidence.",
               "{}: {} from {} shots; the mean is between {} and {} with 95 % confidence.",
               cellName(cell.row.implementName, cell.row.hitterName), rpm(cell.mean->value, sigma),
               cell.row.readings.size(), bareRpm(cell.mean->interval95.low, sigma),
               rpm(cell.mean->interval95.high, sigma));
    if (cell.row.estimate->own.isScatterHidden) {
        text += said(" The readings are too coarse to show how much the shots differed.");
    }
    if (findings::isDragged(cell)) {
        text += said(
            " Single odd shots influence it: an average that resists them (Hodges and Lehmann) is "
            "{}.",
            rpm(cell.robust->hodgesLehmann, sigma));
    }
    return text;
}

std::string scatterSentence(const findings::CellFinding& cell) {
    if (!cell.split) {
        return cell.row.readings.empty() ? std::string{} : whyNot(cell.split.whyNot());
    }
    const double reading = cell.split->readingDeviation;
    const double between = cell.split->reml.betweenDeviation;
    const double sigma = std::max(reading, between);
    const std::string p = pWords(cell.split->reml.heterogeneityP);
    return cell.split->reml.heterogeneityP > 0.05
               ? said(
                     "The readings' own uncertainty of about {} explains the scatter; no "
                     "difference shown between the shots themselves ({}).",
                     rpm(reading, sigma), p)
               : said(
                     "Of the scatter, about {} comes from the readings and about {} from the "
                     "shots themselves ({}).",
                     rpm(reading, sigma), rpm(between, sigma), p);
}

std::string sentence(const findings::OddShot& shot, Advice advice) {
    const std::string cell = cellName(shot.implementName, shot.hitterName);
    const std::string found = shot.scatterP
                                  ? said(
                                        "{}: its shots scatter by {}, more than in the other cells "
                                        "(Cochran, {}, ISO 5725-2), because of {}.",
                                        cell, rpm(shot.deviationRpm, shot.deviationRpm),
                                        pWords(*shot.scatterP), shotWords(shot))
                                  : said(
                                        "{}: {} is {:.1f} standard deviations from the mean of its "
                                        "cell, {} (ISO 5725-2).",
                                        cell, shotWords(shot), shot.statistic,
                                        shot.word == stats::OutlierWord::Outlier
                                            ? said("an outlier: beyond the 1 % critical value")
                                            : said("a straggler: beyond the 5 % critical value"));
    return found + (advice == Advice::With
                        ? said(" Look at it again; it counts until you decide otherwise.")
                        : std::string{});
}

std::string sentence(const findings::OddScatter& scatter) {
    return said(
        "{}: its shots scatter by {}, more than in the other cells (Cochran, {}, ISO 5725-2), and "
        "no single shot causes it.",
        cellName(scatter.implementName, scatter.hitterName),
        rpm(scatter.deviationRpm, scatter.deviationRpm), pWords(scatter.pValue));
}

std::string note(const findings::ImplementNote& note) {
    using Kind = findings::ImplementNote::Kind;
    std::vector<std::string> hitters;
    for (const auto& hitter : note.hitters) {
        hitters.push_back(
            note.kind == Kind::FewKept
                ? said("hitter {}", hitter.name)
                : fmt::format("{} {}", hitter.name, rpm(hitter.meanRpm, hitter.sigmaRpm)));
    }
    switch (note.kind) {
        case Kind::FewKept:
            return said("fewer than two kept shots by {}", joined(hitters));
        case Kind::OddShots:
            return counted(note.count, "odd shot", "odd shots");
        case Kind::ToRead:
            return counted(note.count, "shot to read", "shots to read");
        case Kind::HittersDisagree:
            return said("hitters disagree: {}", joined(hitters));
    }
    return {};
}

}  // namespace core::words
