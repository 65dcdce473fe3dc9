#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "core/base/number.h"
#include "core/findings/find_cells.h"
#include "core/findings/words.h"
#include "core/report/number_format.h"

namespace core::findings {
namespace {

/// Readings of a cell by value, so that the order of the film plays no part.
struct SortedCell {
    std::vector<project::ShotId> shots;
    std::vector<double> rates;
    std::vector<double> ownSigmas;  // without the clock's part; empty when one states none
    double clockSigma{};
};

SortedCell sortedCell(const report::CellRow& row) {
    auto readings = row.readings;
    std::sort(readings.begin(), readings.end(), [](const auto& a, const auto& b) {
        return std::tie(a.rate.value, a.shot) < std::tie(b.rate.value, b.shot);
    });
    SortedCell cell;
    bool hasSigmas = true;
    for (const auto& reading : readings) {
        const double rate = reading.rate.value.rpm;
        const double clock = rate * reading.clockRelativeSigma;
        const double own = reading.rate.sigma.rpm * reading.rate.sigma.rpm - clock * clock;
        hasSigmas = hasSigmas && own > 0.0;
        cell.shots.push_back(reading.shot);
        cell.rates.push_back(rate);
        cell.ownSigmas.push_back(std::sqrt(std::max(0.0, own)));
        cell.clockSigma = std::max(cell.clockSigma, reading.clockRelativeSigma);
    }
    if (!hasSigmas) {
        cell.ownSigmas.clear();
    }
    return cell;
}

std::string cellName(const report::CellRow& row) {
    return fmt::format("{}, hitter {}", row.implementName, row.hitterName);
}

std::string whyNoMean(const report::CellRow& row) {
    if (row.readings.empty()) {
        return row.counts.open > 0
                   ? fmt::format("{}: no shot has been kept yet; {} wait in Reading.",
                                 cellName(row), counted(row.counts.open, "shot"))
                   : fmt::format("{}: no shot has been kept yet.", cellName(row));
    }
    return fmt::format(
        "{}: {} from one shot; how sure that is cannot be said before a second one "
        "is kept.",
        cellName(row),
        words::rpm(row.readings.front().rate.value.rpm, row.readings.front().rate.sigma.rpm));
}

std::string scatterWords(const CellFinding& cell) {
    if (!cell.split) {
        return cell.split.whyNot();
    }
    const double reading = cell.split->readingDeviation;
    const double between = cell.split->reml.betweenDeviation;
    const double sigma = std::max(reading, between);
    if (cell.split->reml.heterogeneityP > 0.05) {
        return fmt::format(
            "The readings' own uncertainty of about {} explains the scatter; that "
            "the shots differed is not shown ({}).",
            words::rpm(reading, sigma), words::p(cell.split->reml.heterogeneityP));
    }
    return fmt::format(
        "Of the scatter, about {} comes from the readings and about {} from the "
        "shots themselves ({}).",
        words::rpm(reading, sigma), words::rpm(between, sigma),
        words::p(cell.split->reml.heterogeneityP));
}

void findOddShots(CellFinding& cell, const SortedCell& sorted) {
    if (!cell.grubbs || cell.grubbs->word == stats::OutlierWord::Ordinary) {
        return;
    }
    const auto at = cell.grubbs->index;
    const bool isOutlier = cell.grubbs->word == stats::OutlierWord::Outlier;
    const double deviation = cell.summary->sample.spread->standardDeviation;
    cell.oddShots.push_back(
        {sorted.shots[at], cell.row.cell, sorted.rates[at], cell.grubbs->statistic,
         cell.grubbs->word,
         fmt::format(
             "{}: the shot at {} lies {:.1f} standard deviations from the mean of its cell, "
             "{} (ISO 5725-2). Look at it again; it counts until you decide otherwise.",
             cellName(cell.row), words::rpm(sorted.rates[at], deviation), cell.grubbs->statistic,
             isOutlier ? "an outlier: beyond the 1 % critical value"
                       : "a straggler: beyond the 5 % critical value")});
}

void findMean(CellFinding& cell) {
    if (!cell.summary || !cell.summary->mean) {
        cell.mean = Said<Estimate>::because(whyNoMean(cell.row));
        cell.sentence = cell.mean.whyNot();
        return;
    }
    const auto& mean = *cell.summary->mean;
    cell.mean = Estimate{cell.summary->sample.mean,
                         mean.standardUncertainty,
                         {mean.interval.low, mean.interval.high},
                         mean.dof.value};
    cell.sentence =
        fmt::format("{}: {} from {}; the mean lies between {} with 95 % confidence.",
                    cellName(cell.row), words::rpm(cell.mean->value, mean.standardUncertainty),
                    counted(cell.row.readings.size(), "shot"),
                    words::bareRpm(mean.interval.low, mean.standardUncertainty) + " and " +
                        words::rpm(mean.interval.high, mean.standardUncertainty));
}

void findRobustTwins(CellFinding& cell, const SortedCell& sorted) {
    cell.robust = Said<stats::RobustTwins>{stats::robustTwins(sorted.rates)};
    if (!cell.mean || !cell.robust) {
        return;
    }
    const double shift = cell.summary->sample.mean - cell.robust->hodgesLehmann;
    if (std::abs(shift) > cell.mean->standardUncertainty) {
        cell.sentence += fmt::format(
            " Single odd shots weigh in it: an average that they cannot drag away (Hodges and "
            "Lehmann) says {}.",
            words::rpm(cell.robust->hodgesLehmann, cell.mean->standardUncertainty));
    }
}

CellFinding findCell(const report::CellRow& row) {
    CellFinding cell;
    cell.row = row;
    if (row.readings.empty()) {
        const std::string why = whyNoMean(row);
        cell.summary = Said<stats::CellSummary>::because(why);
        cell.robust = Said<stats::RobustTwins>::because(why);
        cell.split = Said<stats::ScatterSplit>::because(why);
        cell.grubbs = Said<stats::GrubbsResult>::because(why);
        findMean(cell);
        return cell;
    }
    const SortedCell sorted = sortedCell(row);
    cell.summary = Said<stats::CellSummary>{stats::summariseCell(
        {.values = sorted.rates,
         .readingUncertainties = sorted.rates.size() > 1 ? std::span<const double>{sorted.ownSigmas}
                                                         : std::span<const double>{},
         .sharedRelativeUncertainty = sorted.clockSigma})};
    if (cell.summary && cell.summary->split) {
        cell.split = *cell.summary->split;
    } else {
        cell.split = Said<stats::ScatterSplit>::because(
            sorted.rates.size() < 2
                ? "The scatter cannot be split before two shots are kept."
                : "The scatter cannot be split: a reading states no uncertainty of its own.");
    }
    cell.grubbs = sorted.rates.size() < 3
                      ? Said<stats::GrubbsResult>::because(
                            "Odd shots cannot be told before three shots are kept.")
                      : Said<stats::GrubbsResult>{stats::grubbsTest(sorted.rates)};
    findMean(cell);
    findRobustTwins(cell, sorted);
    findOddShots(cell, sorted);
    cell.scatterSentence = scatterWords(cell);
    return cell;
}

bool sameReadings(const report::CellRow& a, const report::CellRow& b) {
    return a.implement == b.implement && a.hitter == b.hitter && a.counts == b.counts &&
           a.implementName == b.implementName && a.hitterName == b.hitterName &&
           a.condition == b.condition && a.sessionName == b.sessionName &&
           std::equal(a.readings.begin(), a.readings.end(), b.readings.begin(), b.readings.end(),
                      [](const auto& x, const auto& y) {
                          return x.shot == y.shot && x.rate.value == y.rate.value &&
                                 x.rate.sigma == y.rate.sigma &&
                                 x.clockRelativeSigma == y.clockRelativeSigma;
                      });
}

void addImplementNotes(ImplementFinding& implement, const std::vector<CellFinding>& cells) {
    std::size_t odd = 0;
    std::vector<std::string> missing;
    for (const std::size_t at : implement.cells) {
        odd += cells[at].oddShots.size();
        if (cells[at].row.readings.size() < 2) {
            missing.push_back("hitter " + cells[at].row.hitterName);
        }
    }
    if (!missing.empty()) {
        implement.notes.push_back(
            fmt::format("fewer than two kept shots by {}", words::joined(missing)));
    }
    if (odd > 0) {
        implement.notes.push_back(counted(odd, "odd shot"));
    }
    if (implement.row.counts.open > 0) {
        implement.notes.push_back(fmt::format("{} to read", implement.row.counts.open));
    }
}

std::string implementSentence(const ImplementFinding& implement) {
    const auto& mean = implement.row.mean;
    if (!mean) {
        return fmt::format("{}: no shot has been kept yet.", implement.name);
    }
    const std::size_t kept = implement.row.readings.size();
    const char* average = implement.row.cellsWithReadings > 1
                              ? ", the average of the cells whatever their counts"
                              : "";
    if (!mean->interval95 || !mean->standardUncertaintyRpm) {
        return fmt::format(
            "{}: {} rpm from {}{}; how sure this is cannot be said before each "
            "hitter has two kept shots.",
            implement.name, report::fixed(mean->meanRpm, 0), counted(kept, "shot"), average);
    }
    const double sigma = *mean->standardUncertaintyRpm;
    return fmt::format("{}: {} from {}{}; it lies between {} and {} with 95 % confidence.",
                       implement.name, words::rpm(mean->meanRpm, sigma), counted(kept, "shot"),
                       average, words::bareRpm(mean->interval95->low.rpm, sigma),
                       words::rpm(mean->interval95->high.rpm, sigma));
}

}  // namespace

std::vector<CellFinding> findCells(const report::Summary& summary,
                                   const std::vector<CellFinding>& earlier) {
    std::map<project::CellId, const CellFinding*> known;
    for (const CellFinding& cell : earlier) {
        known[cell.row.cell] = &cell;
    }
    std::vector<CellFinding> cells;
    cells.reserve(summary.cells.size());
    for (const auto& row : summary.cells) {
        const auto at = known.find(row.cell);
        cells.push_back(at != known.end() && sameReadings(at->second->row, row) ? *at->second
                                                                                : findCell(row));
    }
    return cells;
}

std::vector<ImplementFinding> findImplements(const project::Snapshot& snapshot,
                                             const report::Summary& summary,
                                             const std::vector<CellFinding>& cells) {
    std::vector<ImplementFinding> implements;
    for (const auto& row : summary.implements) {
        ImplementFinding implement;
        implement.row = row;
        implement.name = project::implementName(snapshot, row.implement);
        for (std::size_t i = 0; i < cells.size(); ++i) {
            if (cells[i].row.implement == row.implement) {
                implement.cells.push_back(i);
            }
        }
        implement.sentence = implementSentence(implement);
        addImplementNotes(implement, cells);
        implements.push_back(std::move(implement));
    }
    return implements;
}

}  // namespace core::findings
