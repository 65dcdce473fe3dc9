#include "core/findings/odd_cells.h"

#include <algorithm>
#include <cmath>

#include "core/stats/comparison/deleted_residuals.h"
#include "core/stats/sample/moderated_variance.h"

namespace core::findings {
namespace {

// Chance that a sound cell of a season without an odd one is named.
constexpr double kAlpha = 0.02;
// A runner-up whose removal lowers the weighted sum of squares by less than the best one's minus
// this (5 % of chi-square with one degree of freedom) is told from it.
constexpr double kNearlyAsGood = 3.84;

struct Place {
    std::size_t row{};
    std::size_t column{};
    bool operator==(const Place&) const = default;
};

/// Distance of a cell from what the rest predicts.
struct Departure {
    Place place;
    stats::DeletedResidual residual;
};

/// Cell means of implements (rows) by hitters (columns), some of them removed.
class AdditiveTable {
public:
    AdditiveTable(const Crossed& crossed, const std::vector<std::size_t>& full)
        : m_rows{full.size()}, m_columns{crossed.hitters.size()} {
        std::vector<const CrossedCell*> cells;
        for (std::size_t row = 0; row < m_rows; ++row) {
            for (std::size_t column = 0; column < m_columns; ++column) {
                cells.push_back(crossed.usable(full[row], column));
                m_all.push_back({row, column, cells.back()->mean()});
            }
        }
        moderate(cells);
        for (std::size_t i = 0; i < cells.size(); ++i) {
            m_all[i].mean.variance *= cells[i]->farFactor * cells[i]->farFactor;
        }
        m_there = m_all;
    }

    [[nodiscard]] std::size_t rows() const { return m_rows; }
    [[nodiscard]] std::size_t columns() const { return m_columns; }
    void remove(Place place) {
        std::erase_if(m_there, [place](const stats::CrossedMean& cell) {
            return cell.row == place.row && cell.column == place.column;
        });
    }
    /// Of a removed cell too.
    [[nodiscard]] const stats::IndependentMean& mean(Place place) const {
        return m_all[place.row * m_columns + place.column].mean;
    }
    /// All that can be judged, the largest drop first.
    [[nodiscard]] std::vector<Departure> departures() const {
        std::vector<Departure> found;
        const auto residuals = stats::deletedResiduals(m_there);
        for (std::size_t i = 0; residuals && i < m_there.size(); ++i) {
            if (const auto& residual = residuals.value()[i]) {
                found.push_back({{m_there[i].row, m_there[i].column}, *residual});
            }
        }
        std::stable_sort(found.begin(), found.end(), [](const Departure& a, const Departure& b) {
            return a.residual.drop() > b.residual.drop();
        });
        return found;
    }

private:
    /// A cell of few shots can look surer than it is: its scatter is drawn towards that of all.
    /// What coarse readings do not average out is no scatter and is left as it is.
    void moderate(const std::vector<const CrossedCell*>& cells) {
        std::vector<std::size_t> which;
        std::vector<stats::SampleVariance> scatters;
        for (std::size_t i = 0; i < cells.size(); ++i) {
            const auto count = static_cast<double>(cells[i]->moments.count);
            const double scatter = (m_all[i].mean.variance - cells[i]->coarseVariance) * count;
            if (!cells[i]->isScatterHidden && scatter > 0.0) {
                which.push_back(i);
                scatters.push_back({scatter, {count - 1.0}});
            }
        }
        const auto moderated = stats::moderatedVariances(scatters);
        for (std::size_t k = 0; moderated && k < which.size(); ++k) {
            const CrossedCell& cell = *cells[which[k]];
            auto& mean = m_all[which[k]].mean;
            const double shots =
                moderated.value()[k].variance / static_cast<double>(cell.moments.count);
            mean.variance = shots + cell.coarseVariance;
            mean.dof = {moderated.value()[k].dof.value * std::pow(mean.variance / shots, 2.0)};
        }
    }

    std::size_t m_rows;
    std::size_t m_columns;
    std::vector<stats::CrossedMean> m_all;    // row by row
    std::vector<stats::CrossedMean> m_there;  // not removed
};

/// The cells that could be the odd one: the best and those that do nearly as well.
std::vector<Departure> candidatesOf(const std::vector<Departure>& departures) {
    std::vector<Departure> candidates;
    for (const Departure& each : departures) {
        if (each.residual.drop() > departures.front().residual.drop() - kNearlyAsGood) {
            candidates.push_back(each);
        }
    }
    return candidates;
}

/// How the hitter's mean with the implement stands among their others.
void compareWithOthers(InteractionCell& cell, const AdditiveTable& table, Place place) {
    const auto& own = table.mean(place);
    double sum = 0.0;
    for (std::size_t row = 0; row < table.rows(); ++row) {
        const double mean = table.mean({row, place.column}).mean;
        cell.above += mean > own.mean ? 1U : 0U;
        sum += row == place.row ? 0.0 : mean;
    }
    cell.meanRpm = own.mean;
    cell.meanSigmaRpm = std::sqrt(own.variance);
    cell.othersRpm = sum / static_cast<double>(table.rows() - 1);
    cell.implements = table.rows();
}

}  // namespace

std::vector<InteractionCell> findOddCells(const std::vector<ImplementFinding>& implements,
                                          const Crossed& crossed,
                                          const std::vector<std::size_t>& full) {
    std::vector<InteractionCell> found;
    AdditiveTable table{crossed, full};
    // With two hitters an implement's two cells are one question.
    const auto tests = static_cast<double>(
        crossed.hitters.size() == 2 ? table.rows() : table.rows() * table.columns());
    for (std::size_t step = 0; step < full.size(); ++step) {
        const auto departures = table.departures();
        if (departures.empty()) {
            break;
        }
        const double p = std::min(1.0, tests * departures.front().residual.pValue());
        if (p >= kAlpha) {
            break;
        }
        const auto candidates = candidatesOf(departures);
        for (const Departure& each : candidates) {
            const auto& implement = implements[full[each.place.row]];
            const auto& who = crossed.hitters[each.place.column];
            found.push_back({.implement = implement.row.implement,
                             .hitter = who.id,
                             .implementName = implement.name,
                             .hitterName = who.name,
                             .departureRpm = each.residual.value,
                             .standardErrorRpm = each.residual.standardError,
                             .adjustedP = p,
                             .isOneOfSeveral = candidates.size() > 1,
                             .group = step});
            compareWithOthers(found.back(), table, each.place);
            table.remove(each.place);
        }
    }
    return found;
}

void noteOddCells(std::vector<ImplementFinding>& implements, const Crossed& crossed,
                  const HitterFindings& hitters) {
    for (std::size_t i = 0; i < implements.size(); ++i) {
        const bool isOdd = std::any_of(hitters.interaction.begin(), hitters.interaction.end(),
                                       [&](const InteractionCell& cell) {
                                           return cell.implement == implements[i].row.implement;
                                       });
        if (!isOdd) {
            continue;
        }
        ImplementNote note{.kind = ImplementNote::Kind::HittersDisagree};
        for (std::size_t h = 0; h < crossed.hitters.size(); ++h) {
            if (const CrossedCell* cell = crossed.usable(i, h)) {
                const auto mean = cell->mean();
                note.hitters.push_back(
                    {crossed.hitters[h].name, mean.mean, std::sqrt(mean.variance)});
            }
        }
        implements[i].notes.push_back(std::move(note));
    }
}

}  // namespace core::findings
