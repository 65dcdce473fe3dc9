// How often the intervals of core/stats hold and its tests err, over simulated seasons of shots
// whose truth is known. Seeded: the same numbers on every run of one build.
//   stats_simulation [DATA_SETS]   2000 data sets for each line when no number is given
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <random>
#include <string>
#include <vector>

#include "core/stats/comparison/contrast.h"
#include "core/stats/comparison/pairwise.h"
#include "core/stats/comparison/rank_intervals.h"
#include "core/stats/comparison/two_way.h"
#include "core/stats/sample/cell_summary.h"

namespace {

using namespace core::stats;

constexpr unsigned kSeed = 20260406;

// A cell of the plan: true mean, standard deviation of single shots and count.
struct Cell {
    double mean{};
    double deviation{};
    int count{};
};

std::vector<double> shoot(const Cell& cell, std::mt19937_64& generator) {
    std::normal_distribution<double> shot{cell.mean, cell.deviation};
    std::vector<double> values;
    for (int i = 0; i < cell.count; ++i) {
        values.push_back(shot(generator));
    }
    return values;
}

std::vector<Moments> season(const std::vector<Cell>& cells, std::mt19937_64& generator) {
    std::vector<Moments> groups;
    for (const Cell& cell : cells) {
        groups.push_back(momentsOf(shoot(cell, generator)));
    }
    return groups;
}

// Prints a share with its simulation error and the range it should lie in.
class Share {
public:
    void count(bool hit) {
        m_hits += hit ? 1 : 0;
        ++m_trials;
    }
    void print(const std::string& what, const std::string& wanted) const {
        const double share = static_cast<double>(m_hits) / m_trials;
        const double error = std::sqrt(share * (1.0 - share) / m_trials);
        std::printf("%-66s %6.2f %% +- %.2f   (%s)\n", what.c_str(), 100.0 * share, 100.0 * error,
                    wanted.c_str());
    }

private:
    int m_hits{};
    int m_trials{};
};

bool holds(const core::Interval<double>& interval, double truth) {
    return interval.low <= truth && truth <= interval.high;
}

void cellCoverage(const Cell& cell, double clock, int dataSets) {
    std::mt19937_64 generator{kSeed + 1};
    std::normal_distribution<double> clockError{0.0, clock};
    Share share;
    for (int i = 0; i < dataSets; ++i) {
        auto values = shoot(cell, generator);
        const double factor = 1.0 + clockError(generator);  // the same for the whole clip
        for (double& value : values) {
            value *= factor;
        }
        const auto summary =
            summariseCell(
                {.values = values, .readingUncertainties = {}, .sharedRelativeUncertainty = clock})
                .value();
        share.count(holds(summary.mean->interval, cell.mean));
    }
    char text[120];
    std::snprintf(text, sizeof text, "Cell mean, %d shots, sd %.0f, clock %.1f %%", cell.count,
                  cell.deviation, 100.0 * clock);
    share.print(text, "wanted 94 to 96");
}

// Three implements, two hitters, unequal counts, the second hitter adds to each implement.
void marginalCoverage(const std::string& plan, bool isScatterEqual, int dataSets) {
    const std::vector<Cell> cells{{2000.0, 60.0, 6},  {1800.0, 60.0, 9}, {2100.0, 60.0, 5},
                                  {1850.0, 60.0, 12}, {2150.0, 60.0, 8}, {2000.0, 60.0, 6}};
    std::mt19937_64 generator{kSeed + 2};
    Share pooled;
    Share own;
    for (int i = 0; i < dataSets; ++i) {
        std::vector<TwoWayCell> table;
        for (std::size_t c = 0; c < cells.size(); ++c) {
            Cell cell = cells[c];
            cell.deviation *= isScatterEqual ? 1.0 : 0.5 + 0.4 * static_cast<double>(c);
            table.push_back(
                {.row = c / 2, .column = c % 2, .moments = momentsOf(shoot(cell, generator))});
        }
        const auto means = marginalMeans(table, Factor::Row, MeanModel::WithInteraction).value();
        const auto separate = equallyWeightedMeans(table, Factor::Row).value();
        for (std::size_t row = 0; row < 3; ++row) {
            std::vector<double> weights(3);
            weights[row] = 1.0;
            const double truth = 0.5 * (cells[2 * row].mean + cells[2 * row + 1].mean);
            pooled.count(holds(contrast(means, weights).value().interval, truth));
            own.count(holds(contrast(separate, weights).value().interval, truth));
        }
    }
    pooled.print("Marginal means, one variance, " + plan,
                 isScatterEqual ? "wanted 94 to 96" : "not meant for it");
    own.print("Marginal means, a variance for each cell, " + plan, "wanted 94 to 96");
}

// Share of means whose rank interval holds the true rank; tied means may take any of their ranks.
void rankCoverage(const std::string& plan, const std::vector<Cell>& cells, int dataSets) {
    std::mt19937_64 generator{kSeed + 3};
    Share share;
    for (int i = 0; i < dataSets; ++i) {
        std::vector<IndependentMean> means;
        for (const Moments& group : season(cells, generator)) {
            means.push_back(independentMean(group));
        }
        const auto ranking =
            rankMeans(means, {.seed = generator(), .confidence = {}, .draws = 1000}).value();
        for (std::size_t c = 0; c < cells.size(); ++c) {
            int best = 1;
            int worst = static_cast<int>(cells.size());
            for (const Cell& other : cells) {
                best += other.mean > cells[c].mean ? 1 : 0;
                worst -= other.mean < cells[c].mean ? 1 : 0;
            }
            share.count(ranking.means[c].lowest <= best && worst <= ranking.means[c].highest);
        }
    }
    share.print("Rank interval holds the true rank, " + plan, "wanted 95 or more");
}

}  // namespace

int main(int argc, char** argv) {
    const int dataSets = argc > 1 ? std::atoi(argv[1]) : 2000;
    if (dataSets < 1) {
        std::fputs("stats_simulation [DATA_SETS]: the number of data sets must be 1 or more\n",
                   stderr);
        return 2;
    }
    std::printf("%d data sets a line, seed %u, +- one standard error of the simulation\n", dataSets,
                kSeed);
    const std::vector<Cell> unequal{{2000.0, 40.0, 6},   {2000.0, 60.0, 12}, {2000.0, 80.0, 8},
                                    {2000.0, 100.0, 10}, {2000.0, 50.0, 15}, {2000.0, 120.0, 9}};
    cellCoverage({2000.0, 60.0, 6}, 0.0, dataSets);
    cellCoverage({2000.0, 60.0, 6}, 0.01, dataSets);
    cellCoverage({2000.0, 60.0, 20}, 0.03, dataSets);
    marginalCoverage("equal scatter", true, dataSets);
    marginalCoverage("sd 30 to 150", false, dataSets);
    rankCoverage("six equal means", unequal, dataSets);
    auto ladder = unequal;
    for (std::size_t i = 0; i < ladder.size(); ++i) {
        ladder[i].mean += 40.0 * static_cast<double>(i);
    }
    rankCoverage("six means 40 apart", ladder, dataSets);
    return 0;
}
