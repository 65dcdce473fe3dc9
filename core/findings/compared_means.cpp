#include "core/findings/compared_means.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "core/stats/model/distributions.h"

namespace core::findings {
namespace {

using BlockKey = std::pair<project::SessionId, project::HitterId>;

/// The cells of one scope, sorted into implements (rows) and hitters in sessions (columns).
struct BlockTable {
    struct Entry {
        std::size_t cell{};
        BlockKey key{};
        std::size_t block{};
        std::size_t session{};
        stats::Moments moments{};
        double clockSigma{};
    };
    std::vector<std::pair<std::size_t, std::vector<Entry>>> rows;  // implement, its entries
    std::map<BlockKey, std::size_t> blocks;
    std::map<project::SessionId, std::size_t> sessions;

    [[nodiscard]] bool isFull() const {
        return std::all_of(rows.begin(), rows.end(),
                           [this](const auto& row) { return row.second.size() == blocks.size(); });
    }
};

std::string whyLeftOut(std::size_t kept, std::optional<project::HitterId> hitter) {
    if (kept == 0) {
        return hitter ? "this hitter has no kept shot with it" : "no shot has been kept";
    }
    return kept == 1 ? "one kept shot says nothing of the scatter; keep a second"
                     : "no cell has two kept shots, so nothing is known of the scatter";
}

BlockTable::Entry entryOf(const report::CellRow& row, std::size_t at) {
    std::vector<double> values;
    double clock = 0.0;
    for (const auto& reading : row.readings) {
        values.push_back(reading.rate.value.rpm);
        clock = std::max(clock, reading.clockRelativeSigma);
    }
    std::sort(values.begin(), values.end());
    return {.cell = at,
            .key = {row.session, row.hitter},
            .moments = stats::momentsOf(values),
            .clockSigma = clock};
}

void numberBlocks(BlockTable& table) {
    for (auto& [implement, entries] : table.rows) {
        for (auto& entry : entries) {
            entry.block = table.blocks.try_emplace(entry.key, table.blocks.size()).first->second;
            entry.session =
                table.sessions.try_emplace(entry.key.first, table.sessions.size()).first->second;
        }
    }
}

void setClocks(ComparedMean& mean, const std::vector<BlockTable::Entry>& entries,
               std::size_t sessions) {
    mean.clockRpm.assign(sessions, 0.0);
    std::vector<double> largest(sessions, 0.0);
    for (const auto& entry : entries) {
        largest[entry.session] = std::max(largest[entry.session], entry.clockSigma);
    }
    for (const auto& entry : entries) {
        mean.clockRpm[entry.session] += static_cast<double>(entry.moments.mean) *
                                        largest[entry.session] /
                                        static_cast<double>(entries.size());
    }
}

ComparedMean plainMean(const std::vector<BlockTable::Entry>& entries) {
    ComparedMean mean;
    const auto count = static_cast<double>(entries.size());
    long double sum = 0.0L;
    double satterthwaite = 0.0;
    long double squares = 0.0L;
    double reciprocals = 0.0;
    for (const auto& entry : entries) {
        const auto n = static_cast<double>(entry.moments.count);
        sum += entry.moments.mean;
        const double part = entry.moments.variance() / n / (count * count);
        mean.variance += part;
        satterthwaite += part * part / (n - 1.0);
        squares += entry.moments.sumSquares;
        reciprocals += 1.0 / n;
        mean.shots += entry.moments.count;
    }
    mean.meanRpm = static_cast<double>(sum) / count;
    mean.dof = satterthwaite > 0.0 ? mean.variance * mean.variance / satterthwaite : 0.0;
    mean.shotsPerCell = count / reciprocals;
    mean.scatterRpm =
        std::sqrt(static_cast<double>(squares) / (static_cast<double>(mean.shots) - count));
    return mean;
}

/// Means filled in by implement + block where cells are missing.
void useAdditiveModel(ComparedMeans& compared) {
    compared.model = ComparisonModel::Additive;
    const auto estimated =
        stats::marginalMeans(compared.cells, stats::Factor::Row, stats::MeanModel::Additive);
    if (!estimated) {
        compared.whyNotComparable =
            "The implements cannot be compared with each other: some share neither hitter nor "
            "session with the rest, not even through others. Film one implement again in both, or "
            "look at each hitter alone.";
        return;
    }
    const std::size_t count = compared.means.size();
    compared.covariance = estimated.value().covariance;
    compared.commonDof = estimated.value().dof.value;
    for (std::size_t i = 0; i < count; ++i) {
        compared.means[i].meanRpm = estimated.value().means[i];
        compared.means[i].variance = compared.covariance[i * count + i];
        compared.means[i].dof = compared.commonDof;
    }
}

void useCellMeans(ComparedMeans& compared) {
    const std::size_t count = compared.means.size();
    compared.covariance.assign(count * count, 0.0);
    for (std::size_t i = 0; i < count; ++i) {
        compared.covariance[i * count + i] = compared.means[i].variance;
    }
}

void sortHighestFirst(ComparedMeans& compared) {
    const std::size_t count = compared.means.size();
    std::vector<std::size_t> order(count);
    for (std::size_t i = 0; i < count; ++i) {
        order[i] = i;
    }
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return compared.means[a].meanRpm > compared.means[b].meanRpm;
    });
    std::vector<ComparedMean> means;
    std::vector<double> covariance(compared.covariance.size());
    std::vector<std::size_t> place(count);
    for (std::size_t i = 0; i < count; ++i) {
        means.push_back(std::move(compared.means[order[i]]));
        place[order[i]] = i;
        for (std::size_t j = 0; j < count && !covariance.empty(); ++j) {
            covariance[i * count + j] = compared.covariance[order[i] * count + order[j]];
        }
    }
    compared.means = std::move(means);
    compared.covariance = std::move(covariance);
    for (auto& cell : compared.cells) {
        cell.row = place[cell.row];
    }
}

BlockTable sortIntoBlocks(const std::vector<ImplementFinding>& implements,
                          const std::vector<CellFinding>& cells,
                          std::optional<project::HitterId> hitter, std::vector<LeftOut>& leftOut) {
    BlockTable table;
    for (std::size_t i = 0; i < implements.size(); ++i) {
        std::vector<BlockTable::Entry> entries;
        std::size_t kept = 0;
        bool hasScatter = false;
        for (const std::size_t at : implements[i].cells) {
            const CellFinding& cell = cells[at];
            if (hitter && cell.row.hitter != *hitter) {
                continue;
            }
            kept += cell.row.readings.size();
            if (cell.row.readings.size() >= 2) {
                entries.push_back(entryOf(cell.row, at));
                hasScatter = hasScatter || entries.back().moments.sumSquares > 0.0L;
            }
        }
        if (entries.empty() || !hasScatter) {
            leftOut.push_back({implements[i].row.implement, implements[i].name,
                               entries.empty() ? whyLeftOut(kept, hitter)
                                               : "its readings do not differ at all, so nothing is "
                                                 "known of their scatter"});
        } else {
            table.rows.emplace_back(i, std::move(entries));
        }
    }
    numberBlocks(table);
    return table;
}

}  // namespace

double ComparedMean::clockVariance() const noexcept {
    double sum = 0.0;
    for (const double effect : clockRpm) {
        sum += effect * effect;
    }
    return sum;
}

ComparedMeans compareMeans(const std::vector<ImplementFinding>& implements,
                           const std::vector<CellFinding>& cells,
                           std::optional<project::HitterId> hitter) {
    ComparedMeans compared;
    const BlockTable table = sortIntoBlocks(implements, cells, hitter, compared.leftOut);
    compared.blocks = table.blocks.size();
    for (const auto& [implement, entries] : table.rows) {
        ComparedMean mean = plainMean(entries);
        mean.implement = implement;
        mean.name = implements[implement].name;
        setClocks(mean, entries, table.sessions.size());
        for (const auto& entry : entries) {
            compared.cells.push_back({compared.means.size(), entry.block, entry.moments});
            std::vector<double> values;
            for (const auto& reading : cells[entry.cell].row.readings) {
                values.push_back(reading.rate.value.rpm);
            }
            std::sort(values.begin(), values.end());
            compared.cellValues.push_back(std::move(values));
        }
        compared.means.push_back(std::move(mean));
    }
    if (compared.means.size() < 2 || table.isFull()) {
        useCellMeans(compared);
    } else {
        useAdditiveModel(compared);
    }
    sortHighestFirst(compared);
    return compared;
}

Said<stats::VarianceRatioTest> welchTest(const std::vector<ComparedMean>& means) {
    if (means.size() < 2) {
        return Said<stats::VarianceRatioTest>::because(
            "Two implements with two kept shots each are needed for a comparison.");
    }
    double weights = 0.0;
    double weightedMeans = 0.0;
    const double origin = means.front().meanRpm;
    for (const ComparedMean& mean : means) {
        weights += 1.0 / mean.variance;
        weightedMeans += (mean.meanRpm - origin) / mean.variance;
    }
    const double centre = origin + weightedMeans / weights;
    double between = 0.0;
    double imbalance = 0.0;
    for (const ComparedMean& mean : means) {
        const double step = mean.meanRpm - centre;
        between += step * step / mean.variance;
        imbalance += std::pow(1.0 - 1.0 / (mean.variance * weights), 2.0) / mean.dof;
    }
    const auto count = static_cast<double>(means.size());
    const stats::RatioDof dof{{count - 1.0}, {(count * count - 1.0) / (3.0 * imbalance)}};
    const double f =
        between / (count - 1.0) / (1.0 + 2.0 * (count - 2.0) / (count * count - 1.0) * imbalance);
    return stats::VarianceRatioTest{f, dof, stats::FDistribution{dof}.upperTail(f)};
}

}  // namespace core::findings
