#include "core/findings/odd_cells.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/base/words.h"
#include "core/findings/advice.h"
#include "core/findings/words.h"
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

/// "hitter B's 2150 rpm with it is the highest of 9" and so on.
std::string rankWords(const Crossed& crossed, const AdditiveTable& table, Place place) {
    const auto& own = table.mean(place);
    std::size_t above = 0;
    double sum = 0.0;
    for (std::size_t row = 0; row < table.rows(); ++row) {
        above += table.mean({row, place.column}).mean > own.mean ? 1U : 0U;
        sum += row == place.row ? 0.0 : table.mean({row, place.column}).mean;
    }
    const std::size_t count = table.rows();
    const double others = sum / static_cast<double>(count - 1);
    const double sigma = std::sqrt(own.variance);
    const std::string& hitter = crossed.hitters[place.column].name;
    const std::string mean = words::rpm(own.mean, sigma);
    const std::string average = words::rpm(others, sigma);
    if (above == 0) {
        return saidOf(
            count,
            "hitter {}'s {} is the highest of their {} implement (the others are {} on average)",
            "hitter {}'s {} is the highest of their {} implements (the others are {} on average)",
            hitter, mean, count, average);
    }
    if (above + 1 == count) {
        return saidOf(
            count,
            "hitter {}'s {} is the lowest of their {} implement (the others are {} on average)",
            "hitter {}'s {} is the lowest of their {} implements (the others are {} on average)",
            hitter, mean, count, average);
    }
    return saidOf(
        count, "hitter {}'s {} is number {} of their {} implement (the others are {} on average)",
        "hitter {}'s {} is number {} of their {} implements (the others are {} on average)", hitter,
        mean, above + 1, count, average);
}

class OddCellWords {
public:
    OddCellWords(const std::vector<ImplementFinding>& implements, const Crossed& crossed,
                 const std::vector<std::size_t>& full, const AdditiveTable& table)
        : m_implements{implements}, m_crossed{crossed}, m_full{full}, m_table{table} {}

    [[nodiscard]] const ImplementFinding& implementOf(Place place) const {
        return m_implements[m_full[place.row]];
    }

    [[nodiscard]] std::string sentence(const std::vector<Departure>& candidates, double p) const {
        const Departure& best = candidates.front();
        if (candidates.size() == 1) {
            const std::string size =
                words::rpm(std::abs(best.residual.value), best.residual.standardError);
            const std::string found =
                best.residual.value < 0.0
                    ? said("With {}, hitter {} is {} below what their other results predict ({}).",
                           implementOf(best.place).name, hitterOf(best.place), size, words::p(p))
                    : said("With {}, hitter {} is {} above what their other results predict ({}).",
                           implementOf(best.place).name, hitterOf(best.place), size, words::p(p));
            return found + saidText(advice::kFilmCell);
        }
        const bool isOneImplement = std::all_of(
            candidates.begin(), candidates.end(),
            [&best](const Departure& each) { return each.place.row == best.place.row; });
        return isOneImplement ? sentenceOfOneImplement(candidates, p)
                              : sentenceOfSeveral(candidates, p);
    }

private:
    [[nodiscard]] const std::string& hitterOf(Place place) const {
        return m_crossed.hitters[place.column].name;
    }

    [[nodiscard]] std::string sentenceOfOneImplement(const std::vector<Departure>& candidates,
                                                     double p) const {
        const Departure& best = candidates.front();
        std::vector<std::string> hitters;
        std::vector<std::string> ranks;
        for (const Departure& each : candidates) {
            hitters.push_back(said("hitter {}", hitterOf(each.place)));
            ranks.push_back(rankWords(m_crossed, m_table, each.place));
        }
        return said(
                   "With {}, {} differ by {} more than their other results predict ({}); the "
                   "readings "
                   "cannot tell whose cell is odd: {}.",
                   implementOf(best.place).name, words::joined(hitters),
                   words::rpm(std::abs(best.residual.value), best.residual.standardError),
                   words::p(p), words::joined(ranks)) +
               saidText(advice::kFilmBoth);
    }

    [[nodiscard]] std::string sentenceOfSeveral(const std::vector<Departure>& candidates,
                                                double p) const {
        std::vector<std::string> cells;
        for (const Departure& each : candidates) {
            cells.push_back(
                said("{} with hitter {}", implementOf(each.place).name, hitterOf(each.place)));
        }
        const Departure& best = candidates.front();
        return said(
                   "One of these cells is {} off what the others predict, and the readings cannot "
                   "tell "
                   "which: {} ({}).",
                   words::rpm(std::abs(best.residual.value), best.residual.standardError),
                   words::joined(cells), words::p(p)) +
               saidText(advice::kFilmThem);
    }

    const std::vector<ImplementFinding>& m_implements;
    const Crossed& m_crossed;
    const std::vector<std::size_t>& m_full;
    const AdditiveTable& m_table;
};

}  // namespace

std::vector<InteractionCell> findOddCells(const std::vector<ImplementFinding>& implements,
                                          const Crossed& crossed,
                                          const std::vector<std::size_t>& full) {
    std::vector<InteractionCell> found;
    AdditiveTable table{crossed, full};
    const OddCellWords say{implements, crossed, full, table};
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
        const std::string sentence = say.sentence(candidates, p);
        for (const Departure& each : candidates) {
            const auto& implement = say.implementOf(each.place);
            const auto& who = crossed.hitters[each.place.column];
            found.push_back({implement.row.implement, who.id, implement.name, who.name,
                             each.residual.value, p, candidates.size() > 1, sentence});
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
        std::vector<std::string> means;
        for (std::size_t h = 0; h < crossed.hitters.size(); ++h) {
            if (const CrossedCell* cell = crossed.usable(i, h)) {
                const auto mean = cell->mean();
                means.push_back(fmt::format("{} {}", crossed.hitters[h].name,
                                            words::rpm(mean.mean, std::sqrt(mean.variance))));
            }
        }
        implements[i].notes.push_back(said("hitters disagree: {}", words::joined(means)));
    }
}

}  // namespace core::findings
