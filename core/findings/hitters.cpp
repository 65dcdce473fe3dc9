#include "core/findings/hitters.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "core/findings/find_hitters.h"
#include "core/findings/odd_cells.h"
#include "core/stats/model/distributions.h"

namespace core::findings {
namespace {

constexpr double kLeastShare = 1e-6;  // of a variance: what rounding leaves of none

/// Implements that every hitter has struck, in a table without gaps.
struct FullTable {
    std::vector<std::size_t> implements;  // positions in the list of implements
    std::vector<stats::TwoWayCell> cells;
};

FullTable fullTable(const Crossed& crossed, std::size_t implementCount) {
    FullTable table;
    for (std::size_t i = 0; i < implementCount; ++i) {
        std::vector<stats::TwoWayCell> row;
        for (std::size_t h = 0; h < crossed.hitters.size(); ++h) {
            if (const CrossedCell* cell = crossed.usable(i, h)) {
                row.push_back({table.implements.size(), h, cell->moments});
            }
        }
        if (row.size() == crossed.hitters.size()) {
            table.implements.push_back(i);
            table.cells.insert(table.cells.end(), row.begin(), row.end());
        }
    }
    return table;
}

/// All cells with readings, rows and columns without gaps in their numbers.
std::vector<stats::TwoWayCell> allCells(const Crossed& crossed) {
    std::vector<stats::TwoWayCell> cells;
    std::vector<std::size_t> rows;
    std::vector<std::size_t> columns;
    const auto place = [](std::vector<std::size_t>& known, std::size_t which) {
        const auto at = std::find(known.begin(), known.end(), which);
        if (at != known.end()) {
            return static_cast<std::size_t>(at - known.begin());
        }
        known.push_back(which);
        return known.size() - 1;
    };
    for (const CrossedCell& cell : crossed.cells) {
        if (cell.moments.count > 0) {
            cells.push_back(
                {place(rows, cell.implement), place(columns, cell.hitter), cell.moments});
        }
    }
    return cells;
}

Said<std::vector<MarginalMean>> namedMeans(const FullTable& table, stats::Factor factor,
                                           const std::vector<std::string>& names) {
    const auto means = stats::equallyWeightedMeans(table.cells, factor);
    if (!means) {
        return WhyNot::of(means.error());
    }
    std::vector<MarginalMean> named;
    for (std::size_t i = 0; i < means.value().size(); ++i) {
        const auto& mean = means.value()[i];
        const double sigma = std::sqrt(mean.variance);
        const double reach = stats::StudentT{mean.dof}.coverageFactor({}) * sigma;
        named.push_back(
            {names[i], {mean.mean, sigma, {mean.mean - reach, mean.mean + reach}, mean.dof.value}});
    }
    return named;
}

HitterPair hitterPair(const ImplementFinding& implement, std::size_t at, const Crossed& crossed,
                      std::pair<std::size_t, std::size_t> who, std::optional<Rpm> step) {
    const auto& first = crossed.hitters[who.first];
    const auto& second = crossed.hitters[who.second];
    HitterPair pair{.implement = implement.row.implement,
                    .first = first.id,
                    .second = second.id,
                    .implementName = implement.name,
                    .firstName = first.name,
                    .secondName = second.name};
    const CrossedCell* a = crossed.usable(at, who.first);
    const CrossedCell* b = crossed.usable(at, who.second);
    if (a == nullptr || b == nullptr) {
        pair.difference = WhyNot{.kind = WhyNot::Kind::HittersNotComparable,
                                 .names = {implement.name, first.name, second.name}};
        return pair;
    }
    std::vector<stats::IndependentMean> means{a->mean(), b->mean()};
    std::vector<double> weights{1.0, -1.0};
    report::SharedParts apart = a->shared;
    report::addParts(apart, b->shared, -1.0);
    if (const double variance = report::varianceOf(apart); variance > 0.0) {
        means.push_back({0.0, variance, {std::numeric_limits<double>::infinity()}});
        weights.push_back(1.0);
    }
    pair.difference = Said<stats::JudgedEstimate>{stats::contrast(means, weights)};
    if (pair.difference) {
        pair.verdict = verdictOn(*pair.difference, step);
    }
    return pair;
}

void findMissing(HitterFindings& found, const std::vector<ImplementFinding>& implements,
                 const Crossed& crossed) {
    for (std::size_t i = 0; i < implements.size(); ++i) {
        for (std::size_t h = 0; h < crossed.hitters.size(); ++h) {
            if (crossed.usable(i, h) == nullptr) {
                found.missing.push_back({implements[i].row.implement, crossed.hitters[h].id});
            }
        }
    }
}

void analyse(HitterFindings& found, const std::vector<ImplementFinding>& implements,
             const Crossed& crossed) {
    const auto cells = allCells(crossed);
    found.typeTwo =
        Said<stats::TwoWayAnova>{stats::analyseTwoWay(cells, stats::SumsOfSquares::TypeTwo)};
    found.typeThree =
        Said<stats::TwoWayAnova>{stats::analyseTwoWay(cells, stats::SumsOfSquares::TypeThree)};
    const FullTable full = fullTable(crossed, implements.size());
    if (full.implements.size() < 2) {
        found.implementMeans = WhyNot::Kind::FewImplementsByAll;
        found.hitterMeans = WhyNot::Kind::FewImplementsByAll;
        return;
    }
    std::vector<std::string> rows;
    std::vector<std::string> columns;
    for (const std::size_t i : full.implements) {
        rows.push_back(implements[i].name);
    }
    for (const auto& who : crossed.hitters) {
        columns.push_back(who.name);
    }
    found.implementMeans = namedMeans(full, stats::Factor::Row, rows);
    found.hitterMeans = namedMeans(full, stats::Factor::Column, columns);
    found.interaction = findOddCells(implements, crossed, full.implements);
}

}  // namespace

namespace {

/// Half the interval of coarse readings at a level that hardly ever leaves the truth out, over what
/// it would be if the mean's errors were normal.
double farFactorOf(const report::CellRow& row) {
    constexpr stats::Confidence kFar{0.999};
    std::vector<stats::ReadingLikelihood> likelihoods;
    for (const auto& reading : row.readings) {
        likelihoods.push_back(reading.likelihood);
    }
    const auto far = stats::likelyMean(likelihoods, kFar);
    if (!far) {
        return 1.0;
    }
    const auto& own = row.estimate->own;
    const double reach =
        std::max(far.value().interval.high - own.mean, own.mean - far.value().interval.low);
    const stats::StudentT shots{{static_cast<double>(likelihoods.size()) - 1.0}};
    const stats::StudentT coarseness{{std::numeric_limits<double>::infinity()}};
    return std::max(1.0, reach / std::hypot(shots.coverageFactor(kFar) * own.shotsError,
                                            coarseness.coverageFactor(kFar) * own.coarsenessError));
}

/// One session's readings of an implement with a hitter.
void addCell(CrossedCell& crossing, const report::CellRow& row) {
    if (row.readings.empty()) {
        return;
    }
    const auto before = static_cast<double>(crossing.moments.count);
    const auto now = static_cast<double>(row.readings.size());
    const stats::Moments moments =
        row.estimate ? row.estimate->moments()
                     : stats::Moments{1, static_cast<long double>(row.mean->meanRpm), 0.0L};
    crossing.moments = stats::combine(crossing.moments, moments);
    const double share = now / (before + now);
    crossing.coarseVariance *= (1.0 - share) * (1.0 - share);
    if (row.estimate && row.estimate->own.coarsenessError > 0.0) {
        crossing.coarseVariance += std::pow(share * row.estimate->own.coarsenessError, 2.0);
        crossing.isScatterHidden = crossing.isScatterHidden || row.estimate->own.isScatterHidden;
        crossing.farFactor = std::max(crossing.farFactor, farFactorOf(row));
    }
    report::SharedParts shared;
    report::addParts(shared, crossing.shared, before / (before + now));
    if (row.estimate) {
        report::addParts(shared, row.estimate->shared, now / (before + now));
    }
    crossing.shared = std::move(shared);
    for (const auto& reading : row.readings) {
        crossing.shots.push_back(reading.shot);
    }
}

}  // namespace

stats::IndependentMean CrossedCell::mean() const {
    auto made = stats::independentMean(moments);
    const double scatter = std::max(made.variance - coarseVariance, kLeastShare * made.variance);
    made.dof.value *= std::pow(made.variance / scatter, 2.0);
    return made;
}

const CrossedCell* Crossed::find(std::size_t implement, std::size_t hitter) const {
    const auto at = std::find_if(cells.begin(), cells.end(), [&](const CrossedCell& cell) {
        return cell.implement == implement && cell.hitter == hitter;
    });
    return at == cells.end() ? nullptr : &*at;
}

const CrossedCell* Crossed::usable(std::size_t implement, std::size_t hitter) const {
    const CrossedCell* cell = find(implement, hitter);
    const bool isUsable =
        cell != nullptr && cell->moments.count >= 2 && cell->moments.sumSquares > 0.0L;
    return isUsable ? cell : nullptr;
}

Crossed crossCells(const std::vector<ImplementFinding>& implements,
                   const std::vector<CellFinding>& cells) {
    Crossed crossed;
    for (const CellFinding& cell : cells) {
        const bool isKnown =
            std::any_of(crossed.hitters.begin(), crossed.hitters.end(),
                        [&cell](const auto& who) { return who.id == cell.row.hitter; });
        if (!isKnown) {
            crossed.hitters.push_back({cell.row.hitter, cell.row.hitterName});
        }
    }
    std::sort(crossed.hitters.begin(), crossed.hitters.end(),
              [](const auto& a, const auto& b) { return a.id < b.id; });
    for (std::size_t i = 0; i < implements.size(); ++i) {
        for (std::size_t h = 0; h < crossed.hitters.size(); ++h) {
            CrossedCell crossing{.implement = i, .hitter = h};
            for (const std::size_t at : implements[i].cells) {
                if (cells[at].row.hitter != crossed.hitters[h].id) {
                    continue;
                }
                addCell(crossing, cells[at].row);
            }
            if (!crossing.shots.empty()) {
                crossed.cells.push_back(std::move(crossing));
            }
        }
    }
    return crossed;
}

std::optional<stats::StepVerdict> verdictOn(const stats::JudgedEstimate& difference,
                                            std::optional<Rpm> step) {
    if (!step) {
        return std::nullopt;
    }
    const double reach =
        stats::StudentT{difference.dof}.coverageFactor({0.90}) * difference.standardError;
    const auto verdict = stats::judgeStep(
        {difference.interval, {difference.estimate - reach, difference.estimate + reach}},
        {step->rpm});
    return verdict ? std::optional{verdict.value()} : std::nullopt;
}

std::span<const InteractionCell> HitterFindings::groupOf(const InteractionCell& cell) const {
    const auto isOfGroup = [&](const InteractionCell& each) { return each.group == cell.group; };
    const auto begin = std::find_if(interaction.begin(), interaction.end(), isOfGroup);
    return {begin, std::find_if_not(begin, interaction.end(), isOfGroup)};
}

HitterFindings findHitters(const std::vector<ImplementFinding>& implements, const Crossed& crossed,
                           std::optional<Rpm> step) {
    HitterFindings found;
    if (crossed.hitters.size() < 2) {
        const auto why = crossed.hitters.empty() ? WhyNot::Kind::NoHitter : WhyNot::Kind::OneHitter;
        found.typeTwo = why;
        found.typeThree = why;
        found.implementMeans = why;
        found.hitterMeans = why;
        return found;
    }
    analyse(found, implements, crossed);
    findMissing(found, implements, crossed);
    for (std::size_t i = 0; i < implements.size(); ++i) {
        for (std::size_t a = 0; a < crossed.hitters.size(); ++a) {
            for (std::size_t b = a + 1; b < crossed.hitters.size(); ++b) {
                found.pairs.push_back(hitterPair(implements[i], i, crossed, {a, b}, step));
            }
        }
    }
    return found;
}

}  // namespace core::findings
