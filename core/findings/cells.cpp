#include <algorithm>
#include <cmath>
#include <map>

#include "core/findings/find_cells.h"
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

WhyNot::Kind whyNoMean(const report::CellRow& row) {
    return row.readings.empty() ? WhyNot::Kind::NoShotKept : WhyNot::Kind::OneShotKept;
}

/// As far as the readings tell; `deviation`: of the cell.
OddShot oddShot(const CellFinding& cell, const SortedCell& sorted, std::size_t at,
                double deviation) {
    return {.shot = sorted.shots[at],
            .cell = cell.row.cell,
            .implementName = cell.row.implementName,
            .hitterName = cell.row.hitterName,
            .rpm = sorted.rates[at],
            .bounds = sorted.likelihoods[at].bounds,
            .statistic = cell.grubbs->statistic,
            .word = cell.grubbs->word,
            .deviationRpm = deviation};
}

void findOddShots(CellFinding& cell, const SortedCell& sorted) {
    if (!cell.grubbs || cell.grubbs->word == stats::OutlierWord::Ordinary) {
        return;
    }
    cell.oddShots.push_back(
        oddShot(cell, sorted, cell.grubbs->index, cell.summary->sample.spread->standardDeviation));
}

void findMean(CellFinding& cell) {
    const auto& mean = cell.row.mean;
    if (!mean || !mean->interval95) {
        cell.mean = whyNoMean(cell.row);
        return;
    }
    const double sigma = *mean->standardUncertaintyRpm;
    cell.mean = Estimate{
        mean->meanRpm, sigma, {mean->interval95->low.rpm, mean->interval95->high.rpm}, mean->dof};
}

CellFinding findCell(const report::CellRow& row) {
    CellFinding cell;
    cell.row = row;
    if (row.readings.empty()) {
        cell.summary = WhyNot::Kind::NoShotKept;
        cell.robust = WhyNot::Kind::NoShotKept;
        cell.split = WhyNot::Kind::NoShotKept;
        cell.grubbs = WhyNot::Kind::NoShotKept;
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
        cell.split = sorted.rates.size() < 2 ? WhyNot::Kind::FewShotsToSplit
                                             : WhyNot::Kind::ReadingWithoutUncertainty;
    }
    cell.grubbs = sorted.rates.size() < 3
                      ? WhyNot::Kind::FewShotsForOddOnes
                      : Said<stats::GrubbsResult>{stats::grubbsTest(sorted.likelihoods)};
    findMean(cell);
    cell.robust = stats::robustTwins(sorted.rates);
    findOddShots(cell, sorted);
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

void noteOddScatter(CellFinding& cell, const stats::CochranResult& found,
                    const std::vector<stats::ScatterOfCell>& scatters, std::size_t at) {
    const SortedCell sorted = sortedCell(cell.row);
    const double deviation = std::sqrt(scatters[at].variance);
    const auto maker = makerOf(cell, sorted, scatters, at);
    if (!maker) {
        cell.oddScatter = {cell.row.implementName, cell.row.hitterName, deviation, found.pValue};
        return;
    }
    const bool isKnown =
        std::any_of(cell.oddShots.begin(), cell.oddShots.end(),
                    [&](const OddShot& odd) { return odd.shot == sorted.shots[*maker]; });
    if (!isKnown) {
        cell.oddShots.push_back(oddShot(cell, sorted, *maker, deviation));
        cell.oddShots.back().word = found.word;
        cell.oddShots.back().scatterP = found.pValue;
    }
}

void addImplementNotes(ImplementFinding& implement, const std::vector<CellFinding>& cells) {
    std::size_t odd = 0;
    ImplementNote few{.kind = ImplementNote::Kind::FewKept};
    for (const std::size_t at : implement.cells) {
        odd += cells[at].oddShots.size();
        if (cells[at].row.readings.size() < 2) {
            few.hitters.push_back({.name = cells[at].row.hitterName});
        }
    }
    if (!few.hitters.empty()) {
        implement.notes.push_back(std::move(few));
    }
    if (odd > 0) {
        implement.notes.push_back({.kind = ImplementNote::Kind::OddShots, .count = odd});
    }
    if (implement.row.counts.open > 0) {
        implement.notes.push_back({.kind = ImplementNote::Kind::ToRead,
                                   .count = static_cast<std::size_t>(implement.row.counts.open)});
    }
}

}  // namespace

bool isDragged(const CellFinding& cell) {
    return cell.mean && cell.robust && !isCoarse(cell) &&
           std::abs(cell.summary->sample.mean - cell.robust->hodgesLehmann) >
               cell.mean->standardUncertainty;
}

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
        std::erase_if(cell.oddShots, [](const OddShot& odd) { return odd.scatterP.has_value(); });
        cell.oddScatter.reset();
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
        noteOddScatter(cells[places[at]], found.value(), scatters, at);
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
        addImplementNotes(implement, cells);
        implements.push_back(std::move(implement));
    }
    return implements;
}

}  // namespace core::findings
