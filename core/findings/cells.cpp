#include <algorithm>
#include <cmath>
#include <map>

#include "core/base/words.h"
#include "core/findings/advice.h"
#include "core/findings/find_cells.h"
#include "core/findings/words.h"
#include "core/report/number_format.h"
#include "core/stats/comparison/cochran.h"

namespace core::findings {
namespace {

constexpr std::size_t kLeastCellsToCompare = 3;

/// Readings of a cell by value, so that the order of the film plays no part.
struct SortedCell {
    std::vector<project::ShotId> shots;
    std::vector<double> rates;
    std::vector<stats::ReadingLikelihood> likelihoods;
    std::vector<double> ownSigmas;  // without what is shared; empty when one states none
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
        const double own = reading.likelihood.spread();
        hasSigmas = hasSigmas && own > 0.0;
        cell.shots.push_back(reading.shot);
        cell.rates.push_back(rate);
        cell.likelihoods.push_back(reading.likelihood);
        cell.ownSigmas.push_back(own);
        cell.clockSigma = std::max(cell.clockSigma, reading.clockRelativeSigma);
    }
    if (!hasSigmas) {
        cell.ownSigmas.clear();
    }
    return cell;
}

std::string cellName(const report::CellRow& row) {
    return said("{}, hitter {}", row.implementName, row.hitterName);
}

std::string whyNoMean(const report::CellRow& row) {
    if (row.readings.empty()) {
        return row.counts.open > 0
                   ? saidOf(row.counts.open,
                            "{}: no shot has been kept yet; {} shot waits in Reading.",
                            "{}: no shot has been kept yet; {} shots wait in Reading.",
                            cellName(row), row.counts.open)
                   : said("{}: no shot has been kept yet.", cellName(row));
    }
    return said(
        "{}: {} from one shot; how sure that is cannot be said before a second one "
        "is kept.",
        cellName(row),
        words::rpm(row.readings.front().rate.value.rpm, row.readings.front().rate.sigma.rpm));
}

std::string scatterWords(const CellFinding& cell) {
    if (!cell.split) {
        return cell.split.whyNot().message;
    }
    const double reading = cell.split->readingDeviation;
    const double between = cell.split->reml.betweenDeviation;
    const double sigma = std::max(reading, between);
    if (cell.split->reml.heterogeneityP > 0.05) {
        return said(
            "The readings' own uncertainty of about {} explains the scatter; no "
            "difference shown between the shots themselves ({}).",
            words::rpm(reading, sigma), words::p(cell.split->reml.heterogeneityP));
    }
    return said(
        "Of the scatter, about {} comes from the readings and about {} from the "
        "shots themselves ({}).",
        words::rpm(reading, sigma), words::rpm(between, sigma),
        words::p(cell.split->reml.heterogeneityP));
}

/// "the shot at 1600 rpm", "the shot of 1440 to 1800 rpm" for a coarse one.
std::string shotWords(const stats::ReadingLikelihood& reading, double rate, double sigma) {
    return reading.bounds ? said("the shot of {}", words::between(*reading.bounds, sigma))
                          : said("the shot at {}", words::rpm(rate, sigma));
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
         cell.grubbs->word, false,
         said("{}: {} lies {:.1f} standard deviations from the mean of its cell, {} (ISO "
              "5725-2).{}",
              cellName(cell.row), shotWords(sorted.likelihoods[at], sorted.rates[at], deviation),
              cell.grubbs->statistic,
              isOutlier ? said("an outlier: beyond the 1 % critical value")
                        : said("a straggler: beyond the 5 % critical value"),
              saidText(advice::kLookAtShot))});
}

void findMean(CellFinding& cell) {
    const auto& mean = cell.row.mean;
    if (!mean || !mean->interval95) {
        cell.mean = Said<Estimate>::because(whyNoMean(cell.row));
        cell.sentence = cell.mean.whyNot().message;
        return;
    }
    const double sigma = *mean->standardUncertaintyRpm;
    cell.mean = Estimate{
        mean->meanRpm, sigma, {mean->interval95->low.rpm, mean->interval95->high.rpm}, mean->dof};
    cell.sentence =
        saidOf(cell.row.readings.size(),
               "{}: {} from {} shot; the mean lies between {} and {} with 95 % confidence.",
               "{}: {} from {} shots; the mean lies between {} and {} with 95 % confidence.",
               cellName(cell.row), words::rpm(cell.mean->value, sigma), cell.row.readings.size(),
               words::bareRpm(cell.mean->interval95.low, sigma),
               words::rpm(cell.mean->interval95.high, sigma));
    if (cell.row.estimate->own.isScatterHidden) {
        cell.sentence += said(" The readings are too coarse to show how much the shots differed.");
    }
}

void findRobustTwins(CellFinding& cell, const SortedCell& sorted) {
    cell.robust = Said<stats::RobustTwins>{stats::robustTwins(sorted.rates)};
    if (!cell.mean || !cell.robust || isCoarse(cell)) {
        return;
    }
    const double shift = cell.summary->sample.mean - cell.robust->hodgesLehmann;
    if (std::abs(shift) > cell.mean->standardUncertainty) {
        cell.sentence += said(
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
                ? said("The scatter cannot be split before two shots are kept.")
                : said("The scatter cannot be split: a reading states no uncertainty of its own."));
    }
    cell.grubbs = sorted.rates.size() < 3
                      ? Said<stats::GrubbsResult>::because(
                            said("Odd shots cannot be told before three shots are kept."))
                      : Said<stats::GrubbsResult>{stats::grubbsTest(sorted.likelihoods)};
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
                                 x.rate.sigma == y.rate.sigma && x.likelihood == y.likelihood &&
                                 x.method == y.method &&
                                 x.viewRelativeSigma == y.viewRelativeSigma &&
                                 x.habitRpm == y.habitRpm &&
                                 x.clockRelativeSigma == y.clockRelativeSigma;
                      });
}

/// Of the values as read, rounding included: what Cochran's test compares.
stats::ScatterOfCell scatterOf(std::span<const stats::ReadingLikelihood> readings) {
    std::vector<double> values;
    double least = 0.0;
    for (const auto& reading : readings) {
        values.push_back(reading.value);
        if (reading.bounds) {
            // Equal shots halfway between two counts fall to both of them: a variance of three
            // times the rectangle's; with both ends rounded at random of the triangle's.
            const double spread = reading.spread();
            least = std::max(least, (1.0 + 2.0 * reading.top) * spread * spread);
        }
    }
    return {stats::momentsOf(values).variance(), {static_cast<double>(values.size()) - 1.0}, least};
}

/// The reading without which the scatter is in line; absent when no single one makes it.
std::optional<std::size_t> makerOf(const CellFinding& cell, const SortedCell& sorted,
                                   std::vector<stats::ScatterOfCell> scatters, std::size_t at) {
    if (!cell.grubbs || sorted.likelihoods.size() < 3) {
        return std::nullopt;
    }
    auto rest = sorted.likelihoods;
    rest.erase(rest.begin() + static_cast<std::ptrdiff_t>(cell.grubbs->index));
    scatters[at] = scatterOf(rest);
    const auto again = stats::cochranTest(scatters);
    const bool isInLine =
        again && (again.value().index != at || again.value().word == stats::OutlierWord::Ordinary);
    return isInLine ? std::optional{cell.grubbs->index} : std::nullopt;
}

void sayOddScatter(CellFinding& cell, const stats::CochranResult& found,
                   const std::vector<stats::ScatterOfCell>& scatters, std::size_t at) {
    const SortedCell sorted = sortedCell(cell.row);
    const double deviation = std::sqrt(scatters[at].variance);
    const std::string what = said(
        "{}: its shots scatter by {}, out of line with the other cells (Cochran, {}, ISO 5725-2)",
        cellName(cell.row), words::rpm(deviation, deviation), words::p(found.pValue));
    const auto maker = makerOf(cell, sorted, scatters, at);
    cell.oddScatterP = found.pValue;
    if (!maker) {
        cell.oddScatterSentence = said("{}, and no single shot makes it.", what);
        return;
    }
    const project::ShotId shot = sorted.shots[*maker];
    const bool isKnown = std::any_of(cell.oddShots.begin(), cell.oddShots.end(),
                                     [shot](const OddShot& odd) { return odd.shot == shot; });
    if (!isKnown) {
        cell.oddShots.push_back(
            {shot, cell.row.cell, sorted.rates[*maker], cell.grubbs->statistic, found.word, true,
             said("{}, because of {}.{}", what,
                  shotWords(sorted.likelihoods[*maker], sorted.rates[*maker], deviation),
                  saidText(advice::kLookAtShot))});
    }
}

void addImplementNotes(ImplementFinding& implement, const std::vector<CellFinding>& cells) {
    std::size_t odd = 0;
    std::vector<std::string> missing;
    for (const std::size_t at : implement.cells) {
        odd += cells[at].oddShots.size();
        if (cells[at].row.readings.size() < 2) {
            missing.push_back(said("hitter {}", cells[at].row.hitterName));
        }
    }
    if (!missing.empty()) {
        implement.notes.push_back(said("fewer than two kept shots by {}", words::joined(missing)));
    }
    if (odd > 0) {
        implement.notes.push_back(counted(odd, "odd shot", "odd shots"));
    }
    if (implement.row.counts.open > 0) {
        implement.notes.push_back(
            counted(implement.row.counts.open, "shot to read", "shots to read"));
    }
}

std::string implementSentence(const ImplementFinding& implement) {
    const auto& mean = implement.row.mean;
    if (!mean) {
        return said("{}: no shot has been kept yet.", implement.name);
    }
    const std::size_t kept = implement.row.readings.size();
    const std::string from =
        implement.row.cellsWithReadings > 1
            ? saidOf(kept, "{} shot, the average of the cells whatever their counts",
                     "{} shots, the average of the cells whatever their counts", kept)
            : saidOf(kept, "{} shot", "{} shots", kept);
    if (!mean->interval95 || !mean->standardUncertaintyRpm) {
        return said(
            "{}: {} rpm from {}; how sure this is cannot be said before each hitter has two kept "
            "shots.",
            implement.name, report::fixed(mean->meanRpm, 0), from);
    }
    const double sigma = *mean->standardUncertaintyRpm;
    return said("{}: {} from {}; it lies between {} and {} with 95 % confidence.", implement.name,
                words::rpm(mean->meanRpm, sigma), from,
                words::bareRpm(mean->interval95->low.rpm, sigma),
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

void findOddScatters(std::vector<CellFinding>& cells) {
    std::vector<std::size_t> places;
    std::vector<stats::ScatterOfCell> scatters;
    for (std::size_t i = 0; i < cells.size(); ++i) {
        CellFinding& cell = cells[i];
        std::erase_if(cell.oddShots, [](const OddShot& odd) { return odd.isByScatter; });
        cell.oddScatterSentence.clear();
        cell.oddScatterP = 1.0;
        if (cell.row.readings.size() >= 2) {
            places.push_back(i);
            scatters.push_back(scatterOf(sortedCell(cell.row).likelihoods));
        }
    }
    // ISO 5725-2, 7.3.3.4: the test is repeated without the cell that it has found.
    while (scatters.size() > kLeastCellsToCompare) {
        const auto found = stats::cochranTest(scatters);
        if (!found || found.value().word == stats::OutlierWord::Ordinary) {
            return;
        }
        const std::size_t at = found.value().index;
        sayOddScatter(cells[places[at]], found.value(), scatters, at);
        places.erase(places.begin() + static_cast<std::ptrdiff_t>(at));
        scatters.erase(scatters.begin() + static_cast<std::ptrdiff_t>(at));
    }
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
