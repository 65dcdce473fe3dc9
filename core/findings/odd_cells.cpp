#include "core/findings/odd_cells.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/base/number.h"
#include "core/findings/advice.h"
#include "core/findings/words.h"
#include "core/stats/model/distributions.h"

namespace core::findings {
namespace {

constexpr double kAlpha = 0.05;
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
    double rpm{};
    double standardError{};
    double dof{};

    [[nodiscard]] double drop() const { return std::pow(rpm / standardError, 2.0); }
    [[nodiscard]] double p() const { return stats::StudentT{{dof}}.twoSided(rpm / standardError); }
};

/// Cell means of implements (rows) by hitters (columns), some of them removed.
class AdditiveTable {
public:
    AdditiveTable(const Crossed& crossed, const std::vector<std::size_t>& full)
        : m_columns{crossed.hitters.size()} {
        for (const std::size_t implement : full) {
            for (std::size_t h = 0; h < m_columns; ++h) {
                m_means.push_back(stats::independentMean(crossed.usable(implement, h)->moments));
            }
        }
        m_isThere.assign(m_means.size(), true);
    }

    [[nodiscard]] std::size_t rows() const { return m_means.size() / m_columns; }
    [[nodiscard]] std::size_t columns() const { return m_columns; }
    void remove(Place place) { m_isThere[at(place)] = false; }
    [[nodiscard]] bool isThere(Place place) const { return m_isThere[at(place)]; }
    [[nodiscard]] const stats::IndependentMean& mean(Place place) const {
        return m_means[at(place)];
    }

    /// The cell against the rest: its difference from another hitter with the implement, less the
    /// same difference over the other implements, averaged over the other hitters. Absent when the
    /// rest says nothing of it.
    [[nodiscard]] std::optional<Departure> departureOf(Place place) const {
        std::vector<double> weights(m_means.size(), 0.0);
        double hitters = 0.0;
        for (std::size_t other = 0; other < m_columns; ++other) {
            const std::vector<std::size_t> rowsOfBoth = sharedRows(place, other);
            if (other == place.column || !isThere({place.row, other}) || rowsOfBoth.empty()) {
                continue;
            }
            hitters += 1.0;
            weights[at({place.row, other})] -= 1.0;
            for (const std::size_t row : rowsOfBoth) {
                const double share = 1.0 / static_cast<double>(rowsOfBoth.size());
                weights[at({row, place.column})] -= share;
                weights[at({row, other})] += share;
            }
        }
        if (hitters == 0.0) {
            return std::nullopt;
        }
        for (double& weight : weights) {
            weight /= hitters;
        }
        weights[at(place)] += 1.0;
        return judged(place, weights);
    }

private:
    [[nodiscard]] std::size_t at(Place place) const { return place.row * m_columns + place.column; }
    [[nodiscard]] std::vector<std::size_t> sharedRows(Place place, std::size_t other) const {
        std::vector<std::size_t> shared;
        for (std::size_t row = 0; row < rows(); ++row) {
            if (row != place.row && isThere({row, place.column}) && isThere({row, other})) {
                shared.push_back(row);
            }
        }
        return shared;
    }
    [[nodiscard]] Departure judged(Place place, const std::vector<double>& weights) const {
        Departure departure{.place = place};
        double variance = 0.0;
        double squares = 0.0;
        for (std::size_t i = 0; i < weights.size(); ++i) {
            const double part = weights[i] * weights[i] * m_means[i].variance;
            departure.rpm += weights[i] * m_means[i].mean;
            variance += part;
            squares += part * part / m_means[i].dof.value;
        }
        departure.standardError = std::sqrt(variance);
        departure.dof = variance * variance / squares;
        return departure;
    }

    std::size_t m_columns;
    std::vector<stats::IndependentMean> m_means;
    std::vector<bool> m_isThere;
};

/// All that can be judged, the largest drop first.
std::vector<Departure> departuresOf(const AdditiveTable& table) {
    std::vector<Departure> all;
    for (std::size_t row = 0; row < table.rows(); ++row) {
        for (std::size_t column = 0; column < table.columns(); ++column) {
            const Place place{row, column};
            const auto departure = table.isThere(place) ? table.departureOf(place) : std::nullopt;
            if (departure) {
                all.push_back(*departure);
            }
        }
    }
    std::stable_sort(all.begin(), all.end(),
                     [](const Departure& a, const Departure& b) { return a.drop() > b.drop(); });
    return all;
}

/// The cells that could be the odd one: the best and those that do nearly as well.
std::vector<Departure> candidatesOf(const std::vector<Departure>& departures) {
    std::vector<Departure> candidates;
    for (const Departure& each : departures) {
        if (each.drop() > departures.front().drop() - kNearlyAsGood) {
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
    const std::string rank = above == 0           ? "the highest"
                             : above + 1 == count ? "the lowest"
                                                  : fmt::format("number {}", above + 1);
    return fmt::format("hitter {}'s {} is {} of their {} (the others are {} on average)",
                       crossed.hitters[place.column].name, words::rpm(own.mean, sigma), rank,
                       counted(count, "implement"), words::rpm(others, sigma));
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
            return fmt::format(
                "With {}, hitter {} is {} {} what their other results predict ({}).{}",
                implementOf(best.place).name, hitterOf(best.place),
                words::rpm(std::abs(best.rpm), best.standardError),
                best.rpm < 0.0 ? "below" : "above", words::p(p), advice::kFilmCell);
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
            hitters.push_back("hitter " + hitterOf(each.place));
            ranks.push_back(rankWords(m_crossed, m_table, each.place));
        }
        return fmt::format(
            "With {}, {} differ by {} more than their other results predict ({}); the readings "
            "cannot tell whose cell is odd: {}.{}",
            implementOf(best.place).name, words::joined(hitters),
            words::rpm(std::abs(best.rpm), best.standardError), words::p(p), words::joined(ranks),
            advice::kFilmBoth);
    }

    [[nodiscard]] std::string sentenceOfSeveral(const std::vector<Departure>& candidates,
                                                double p) const {
        std::vector<std::string> cells;
        for (const Departure& each : candidates) {
            cells.push_back(fmt::format("{} with hitter {}", implementOf(each.place).name,
                                        hitterOf(each.place)));
        }
        const Departure& best = candidates.front();
        return fmt::format(
            "One of these cells is {} off what the others predict, and the readings cannot tell "
            "which: {} ({}).{}",
            words::rpm(std::abs(best.rpm), best.standardError), words::joined(cells), words::p(p),
            advice::kFilmThem);
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
        const auto departures = departuresOf(table);
        if (departures.empty()) {
            break;
        }
        const double p = std::min(1.0, tests * departures.front().p());
        if (p >= kAlpha) {
            break;
        }
        const auto candidates = candidatesOf(departures);
        const std::string sentence = say.sentence(candidates, p);
        for (const Departure& each : candidates) {
            const auto& implement = say.implementOf(each.place);
            const auto& who = crossed.hitters[each.place.column];
            found.push_back({implement.row.implement, who.id, implement.name, who.name, each.rpm, p,
                             candidates.size() > 1, sentence});
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
                const auto mean = stats::independentMean(cell->moments);
                means.push_back(fmt::format("{} {}", crossed.hitters[h].name,
                                            words::rpm(mean.mean, std::sqrt(mean.variance))));
            }
        }
        implements[i].notes.push_back("hitters disagree: " + words::joined(means));
    }
}

}  // namespace core::findings
