#include "core/findings/comparison.h"

#include <algorithm>
#include <cmath>

#include "core/findings/find_comparison.h"
#include "core/stats/comparison/letters.h"
#include "core/stats/comparison/pairwise.h"
#include "core/stats/comparison/two_way.h"

namespace core::findings {
namespace {

constexpr double kEqualVarianceP = 0.05;  // below it the scatters are taken to differ

Estimate estimateOf(const ComparedMean& mean) {
    const double total = mean.variance + mean.sharedVariance();
    Estimate estimate{mean.meanRpm, std::sqrt(total), {}, 0.0};
    estimate.dof = mean.dof * total * total / (mean.variance * mean.variance);
    const double reach =
        stats::StudentT{{estimate.dof}}.coverageFactor({}) * estimate.standardUncertainty;
    estimate.interval95 =
        mean.interval95.value_or(Interval<double>{mean.meanRpm - reach, mean.meanRpm + reach});
    return estimate;
}

std::vector<RankedImplement> rankedRows(const ComparedMeans& compared,
                                        const std::vector<ImplementFinding>& implements,
                                        const Bands& bands) {
    std::vector<RankedImplement> rows;
    for (const ComparedMean& mean : compared.means) {
        RankedImplement row;
        row.implement = implements[mean.implement].row.implement;
        row.name = mean.name;
        row.shots = mean.shots;
        row.mean = estimateOf(mean);
        row.scatterRpm = mean.scatterRpm;
        row.notes = implements[mean.implement].notes;
        const Band* band = bands.bandOf({mean.meanRpm});
        row.band = band != nullptr ? Said<std::string>{band->name} : WhyNot::Kind::NoBands;
        rows.push_back(std::move(row));
    }
    return rows;
}

Result<void> addRanks(Comparison& comparison, const ComparedMeans& compared,
                      const ComparisonContext& context) {
    if (compared.means.size() < 2 || !compared.areLinked) {
        for (RankedImplement& row : comparison.ranked) {
            row.rank = compared.means.size() < 2 ? WhyNot::Kind::NothingToRankAgainst
                                                 : WhyNot::Kind::ImplementsNotLinked;
        }
        return ok();
    }
    std::vector<stats::IndependentMean> means;
    for (const ComparedMean& mean : compared.means) {
        means.push_back({mean.meanRpm, mean.variance, {mean.dof}});
    }
    std::vector<double> shared;
    for (const ComparedMean& mean : compared.means) {
        shared.insert(shared.end(), mean.sharedRpm.begin(), mean.sharedRpm.end());
    }
    const std::span<const double> covariance = compared.model == ComparisonModel::Additive
                                                   ? std::span<const double>{compared.covariance}
                                                   : std::span<const double>{};
    auto ranking = stats::rankMeans(stats::LinkedMeans{means, covariance, shared},
                                    {.seed = context.seed, .draws = context.draws}, context.stop);
    if (!ranking) {
        return ranking.error();
    }
    for (std::size_t i = 0; i < comparison.ranked.size(); ++i) {
        comparison.ranked[i].rank = ranking.value().means[i];
    }
    return ok();
}

void addLetters(Comparison& comparison) {
    std::vector<double> means;
    for (const RankedImplement& row : comparison.ranked) {
        means.push_back(row.mean.value);
    }
    std::vector<stats::DifferentPair> different;
    std::size_t at = 0;
    for (std::size_t i = 0; i < means.size(); ++i) {
        for (std::size_t j = i + 1; j < means.size(); ++j, ++at) {
            if (comparison.pairs[at].differs) {
                different.emplace_back(i, j);
            }
        }
    }
    const auto letters = stats::compactLetters(means, different);
    for (std::size_t i = 0; letters && i < means.size(); ++i) {
        comparison.ranked[i].letters = letters.value()[i];
    }
}

Said<std::vector<EqualVariancePair>> equalVariancePairs(const ComparedMeans& compared,
                                                        const Comparison& comparison) {
    if (compared.model != ComparisonModel::CellMeans || comparison.pairs.empty()) {
        return WhyNot::Kind::AdditivePairsAreTukeys;
    }
    if (!comparison.equalVariances) {
        return comparison.equalVariances.whyNot();
    }
    if (comparison.equalVariances->pValue < kEqualVarianceP) {
        return WhyNot{.kind = WhyNot::Kind::ScattersDiffer,
                      .pValue = comparison.equalVariances->pValue};
    }
    const std::size_t count = compared.means.size();
    stats::EstimatedMeans estimates;
    std::vector<double> cellsOf(count, 0.0);
    std::vector<double> reciprocals(count, 0.0);
    long double squares = 0.0L;
    double dof = 0.0;
    for (const auto& cell : compared.cells) {
        cellsOf[cell.row] += 1.0;
        reciprocals[cell.row] += 1.0 / static_cast<double>(cell.moments.count);
        squares += cell.moments.sumSquares;
        dof += static_cast<double>(cell.moments.count - 1);
    }
    estimates.dof = {dof};
    estimates.covariance.assign(count * count, 0.0);
    for (std::size_t i = 0; i < count; ++i) {
        estimates.means.push_back(compared.means[i].meanRpm);
        estimates.covariance[i * count + i] =
            static_cast<double>(squares) / dof * reciprocals[i] / (cellsOf[i] * cellsOf[i]);
    }
    const auto judged = stats::tukeyPairs(estimates);
    if (!judged) {
        return WhyNot::of(judged.error());
    }
    std::vector<EqualVariancePair> pairs;
    for (const auto& pair : judged.value()) {
        pairs.push_back({comparison.ranked[pair.first].implement,
                         comparison.ranked[pair.second].implement, pair.difference, pair.interval,
                         pair.pValue});
    }
    return pairs;
}

Said<stats::VarianceRatioTest> oneWayTest(const ComparedMeans& compared) {
    if (!compared.areLinked) {
        return WhyNot::Kind::ImplementsNotLinked;
    }
    if (compared.model == ComparisonModel::CellMeans) {
        return welchTest(compared.means);
    }
    const auto anova = stats::analyseTwoWay(compared.cells, stats::SumsOfSquares::TypeTwo);
    return anova ? Said{anova.value().rows.test} : WhyNot::of(anova.error());
}

}  // namespace

Result<Comparison> compare(const ComparedMeans& compared,
                           const std::vector<ImplementFinding>& implements,
                           const ComparisonContext& context) {
    Comparison comparison;
    comparison.model = compared.model;
    comparison.leftOut = compared.leftOut;
    comparison.ranked = rankedRows(compared, implements, *context.bands);
    BOOST_OUTCOME_TRY(addRanks(comparison, compared, context));
    comparison.welch = oneWayTest(compared);
    comparison.equalVariances = compared.isCoarse ? WhyNot::Kind::TooCoarseForScatters
                                : compared.cellValues.size() < 2
                                    ? WhyNot::Kind::OneCellWithScatter
                                    : Said<stats::VarianceRatioTest>{stats::leveneTest(
                                          compared.cellValues, stats::DeviationCentre::Median)};
    if (compared.means.size() < 2) {
        comparison.whyNoPairs = WhyNot{.kind = WhyNot::Kind::FewImplementsForPairs};
    } else if (!compared.areLinked) {
        comparison.whyNoPairs = WhyNot{.kind = WhyNot::Kind::ImplementsNotLinked};
    } else {
        comparison.pairs = comparePairs(compared, implements, context);
        addLetters(comparison);
        comparison.tukeyKramer = equalVariancePairs(compared, comparison);
    }
    return comparison;
}

const RankedImplement* Comparison::find(project::ImplementId implement) const noexcept {
    const auto at = std::find_if(ranked.begin(), ranked.end(), [implement](const auto& row) {
        return row.implement == implement;
    });
    return at == ranked.end() ? nullptr : &*at;
}

const PairFinding* Comparison::pair(project::ImplementId a, project::ImplementId b) const noexcept {
    const RankedImplement* rowA = find(a);
    const RankedImplement* rowB = find(b);
    if (rowA == nullptr || rowB == nullptr || rowA == rowB || pairs.empty()) {
        return nullptr;
    }
    const auto [upper, lower] = std::minmax(rowA, rowB);
    const auto i = static_cast<std::size_t>(upper - ranked.data());
    const auto j = static_cast<std::size_t>(lower - ranked.data());
    return &pairs[i * (2 * ranked.size() - i - 1) / 2 + (j - i - 1)];
}

}  // namespace core::findings
