#include "core/findings/compared_means.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "core/stats/comparison/one_way.h"
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
        const report::CellEstimate* estimate{};
    };
    std::vector<std::pair<std::size_t, std::vector<Entry>>> rows;  // implement, its entries
    std::map<BlockKey, std::size_t> blocks;
    std::set<report::SharedKey> shared;

    [[nodiscard]] bool isFull() const {
        return std::all_of(rows.begin(), rows.end(),
                           [this](const auto& row) { return row.second.size() == blocks.size(); });
    }
};

WhyNot::Kind whyLeftOut(std::size_t kept, std::optional<project::HitterId> hitter) {
    if (kept == 0) {
        return hitter ? WhyNot::Kind::NoShotByHitter : WhyNot::Kind::NoShotKept;
    }
    return kept == 1 ? WhyNot::Kind::OneShotKept : WhyNot::Kind::NoCellWithTwoShots;
}

void numberBlocks(BlockTable& table) {
    for (auto& [implement, entries] : table.rows) {
        for (auto& entry : entries) {
            entry.block = table.blocks.try_emplace(entry.key, table.blocks.size()).first->second;
            for (const auto& [key, effect] : entry.estimate->shared) {
                table.shared.insert(key);
            }
        }
    }
}

double partOf(const report::SharedParts& parts, const report::SharedKey& key) {
    const auto at = parts.find(key);
    return at == parts.end() ? 0.0 : at->second;
}

ComparedMean plainMean(const std::vector<BlockTable::Entry>& entries,
                       const std::vector<report::SharedKey>& sharedKeys) {
    ComparedMean mean;
    std::vector<const report::CellEstimate*> cells;
    double reciprocals = 0.0;
    for (const auto& entry : entries) {
        cells.push_back(entry.estimate);
        reciprocals += 1.0 / static_cast<double>(entry.estimate->count);
        mean.shots += entry.estimate->count;
    }
    const auto average = report::averageOf(cells);
    mean.meanRpm = average.meanRpm;
    mean.variance = average.variance;
    mean.shotsVariance = average.shotsVariance;
    mean.dof = average.dof;
    mean.scatterRpm = average.scatterRpm;
    mean.shotsPerCell = static_cast<double>(entries.size()) / reciprocals;
    if (cells.size() == 1) {
        mean.interval95 = cells.front()->total().interval;
    }
    for (const report::SharedKey& key : sharedKeys) {
        mean.sharedRpm.push_back(partOf(average.shared, key));
    }
    return mean;
}

/// What each shared part does to the means of the additive model, which are linear in those of the
/// cells: the model of the parts themselves. A day's blocks take up what all its cells share.
void shareByModel(ComparedMeans& compared, const std::vector<const report::CellEstimate*>& cells) {
    for (std::size_t part = 0; part < compared.sharedKeys.size(); ++part) {
        auto effects = compared.cells;
        for (std::size_t i = 0; i < effects.size(); ++i) {
            effects[i].moments.mean = partOf(cells[i]->shared, compared.sharedKeys[part]);
        }
        const auto moved =
            stats::marginalMeans(effects, stats::Factor::Row, stats::MeanModel::Additive);
        for (std::size_t i = 0; moved && i < compared.means.size(); ++i) {
            compared.means[i].sharedRpm[part] = moved.value().means[i];
        }
    }
}

/// Means filled in by implement + block where cells are missing.
void useAdditiveModel(ComparedMeans& compared,
                      const std::vector<const report::CellEstimate*>& cells) {
    compared.model = ComparisonModel::Additive;
    const auto estimated =
        stats::marginalMeans(compared.cells, stats::Factor::Row, stats::MeanModel::Additive);
    if (!estimated) {
        compared.areLinked = false;
        return;
    }
    const std::size_t count = compared.means.size();
    compared.covariance = estimated.value().covariance;
    compared.commonDof = estimated.value().dof.value;
    for (std::size_t i = 0; i < count; ++i) {
        compared.means[i].meanRpm = estimated.value().means[i];
        const double share = compared.means[i].shotsVariance / compared.means[i].variance;
        compared.means[i].variance = compared.covariance[i * count + i];
        compared.means[i].shotsVariance = share * compared.means[i].variance;
        compared.means[i].dof = compared.commonDof;
        compared.means[i].interval95.reset();
    }
    shareByModel(compared, cells);
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
            if (cell.row.estimate) {
                entries.push_back({.cell = at,
                                   .key = {cell.row.session, cell.row.hitter},
                                   .block = 0,
                                   .estimate = &*cell.row.estimate});
                hasScatter = hasScatter || cell.row.estimate->variance() > 0.0;
            }
        }
        if (entries.empty() || !hasScatter) {
            leftOut.push_back({implements[i].row.implement,
                               implements[i].name,
                               {.kind = entries.empty() ? whyLeftOut(kept, hitter)
                                                        : WhyNot::Kind::ReadingsAllAlike}});
        } else {
            table.rows.emplace_back(i, std::move(entries));
        }
    }
    numberBlocks(table);
    return table;
}

}  // namespace

double ComparedMean::sharedVariance() const noexcept {
    double sum = 0.0;
    for (const double effect : sharedRpm) {
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
    compared.sharedKeys = {table.shared.begin(), table.shared.end()};
    std::vector<const report::CellEstimate*> estimates;
    for (const auto& [implement, entries] : table.rows) {
        ComparedMean mean = plainMean(entries, compared.sharedKeys);
        mean.implement = implement;
        mean.name = implements[implement].name;
        for (const auto& entry : entries) {
            compared.cells.push_back(
                {compared.means.size(), entry.block, entry.estimate->moments()});
            estimates.push_back(entry.estimate);
            compared.isCoarse = compared.isCoarse || isCoarse(cells[entry.cell]);
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
        useAdditiveModel(compared, estimates);
    }
    sortHighestFirst(compared);
    return compared;
}

/// A difference takes out what both means share.
DifferenceError differenceError(const ComparedMeans& compared, std::size_t i, std::size_t j) {
    const std::size_t count = compared.means.size();
    const ComparedMean& a = compared.means[i];
    const ComparedMean& b = compared.means[j];
    const double variance = a.variance + b.variance - 2.0 * compared.covariance[i * count + j];
    double dof = compared.commonDof;
    if (compared.model == ComparisonModel::CellMeans) {
        dof = variance * variance /
              (a.variance * a.variance / a.dof + b.variance * b.variance / b.dof);
    }
    double shared = 0.0;
    for (std::size_t part = 0; part < a.sharedRpm.size(); ++part) {
        shared += std::pow(a.sharedRpm[part] - b.sharedRpm[part], 2.0);
    }
    const double total = variance + shared;
    const double share = (a.shotsVariance + b.shotsVariance) / (a.variance + b.variance);
    return {total, share * variance, dof * total * total / (variance * variance)};
}

Said<stats::VarianceRatioTest> welchTest(const std::vector<ComparedMean>& means) {
    if (means.size() < 2) {
        return WhyNot::Kind::OneImplementWithScatter;
    }
    std::vector<stats::IndependentMean> independent;
    independent.reserve(means.size());
    for (const ComparedMean& mean : means) {
        independent.push_back({.mean = mean.meanRpm, .variance = mean.variance, .dof = {mean.dof}});
    }
    return stats::welchAnova(independent);
}

}  // namespace core::findings
