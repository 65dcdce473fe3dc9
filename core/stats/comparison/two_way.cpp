#include "core/stats/comparison/two_way.h"

#include <algorithm>
#include <string>

#include "core/base/words.h"
#include "core/stats/comparison/two_way_table.h"

namespace core::stats {
namespace {

/// Levels of one factor: each with a mean and its weight.
struct WeightedMean {
    long double mean{};
    long double weight{};
};

std::size_t levelOf(const TwoWayCell& cell, Factor factor) {
    return factor == Factor::Row ? cell.row : cell.column;
}

std::size_t levelCount(const TwoWayTable& table, Factor factor) {
    return factor == Factor::Row ? table.rows : table.columns;
}

// Means of the levels, every value counting once, off the grand mean.
std::vector<WeightedMean> weightedMeans(const TwoWayTable& table, Factor factor) {
    std::vector<WeightedMean> levels(levelCount(table, factor));
    for (const TwoWayCell& cell : table.cells) {
        WeightedMean& level = levels[levelOf(cell, factor)];
        const auto count = static_cast<long double>(cell.moments.count);
        level.weight += count;
        level.mean += count * (cell.moments.mean - table.grandMean);
    }
    for (WeightedMean& level : levels) {
        level.mean /= level.weight;
    }
    return levels;
}

// Between the cells, when the model has one factor alone: weighted squares about its levels.
long double residualAbout(const TwoWayTable& table, Factor factor) {
    const auto levels = weightedMeans(table, factor);
    long double sum = 0.0L;
    for (const TwoWayCell& cell : table.cells) {
        const long double step =
            cell.moments.mean - table.grandMean - levels[levelOf(cell, factor)].mean;
        sum += static_cast<long double>(cell.moments.count) * step * step;
    }
    return sum;
}

// Weighted squares of means (Yates 1934, J. Amer. Statist. Assoc. 29:51-66): what the full model
// loses with the main effect of a factor, every cell being filled. A level's weight is the
// reciprocal variance of its plain average of cell means.
long double weightedSquares(const TwoWayTable& table, Factor factor) {
    std::vector<WeightedMean> levels(levelCount(table, factor));
    const auto others =
        static_cast<long double>(table.cells.size()) / static_cast<long double>(levels.size());
    for (const TwoWayCell& cell : table.cells) {
        WeightedMean& level = levels[levelOf(cell, factor)];
        level.mean += (cell.moments.mean - table.grandMean) / others;
        level.weight += 1.0L / static_cast<long double>(cell.moments.count) / (others * others);
    }
    WeightedMean centre;
    for (WeightedMean& level : levels) {
        level.weight = 1.0L / level.weight;
        centre.weight += level.weight;
        centre.mean += level.weight * level.mean;
    }
    centre.mean /= centre.weight;
    long double sum = 0.0L;
    for (const WeightedMean& level : levels) {
        sum += level.weight * (level.mean - centre.mean) * (level.mean - centre.mean);
    }
    return sum;
}

// Sums of squares of the three terms between the cells.
struct Explained {
    long double rows{};
    long double columns{};
    long double interaction{};
};

// The full model leaves nothing between the cells, so its residual there is zero.
Result<Explained> explainedBy(const TwoWayTable& table, SumsOfSquares type) {
    BOOST_OUTCOME_TRY(additive, additiveResidual(table));
    if (type == SumsOfSquares::TypeTwo) {
        return Explained{residualAbout(table, Factor::Column) - additive,
                         residualAbout(table, Factor::Row) - additive, additive};
    }
    return Explained{weightedSquares(table, Factor::Row), weightedSquares(table, Factor::Column),
                     additive};
}

EffectTest effect(long double sumSquares, DegreesOfFreedom dof, const TwoWayAnova& anova) {
    EffectTest line{.sumSquares = static_cast<double>(std::max(sumSquares, 0.0L))};
    line.meanSquare = line.sumSquares / dof.value;
    line.test.f = line.meanSquare / anova.residualVariance;
    line.test.dof = {dof, anova.residualDof};
    line.test.pValue = FDistribution{line.test.dof}.upperTail(line.test.f);
    return line;
}

Result<void> checkFull(const TwoWayTable& table, std::string_view wanted) {
    if (table.isFull()) {
        return ok();
    }
    return fail(ErrorCode::InvalidInput,
                said("Two-way model: {} cells are empty, and {} need values in every cell. Film "
                     "the missing cells or use the additive model.",
                     table.rows * table.columns - table.cells.size(), saidText(wanted)));
}

// Levels of a factor as rows of contrasts of the additive model; contrasts of the other factor sum
// to zero over its levels and vanish.
std::vector<std::vector<long double>> additiveLevels(const TwoWayTable& table, Factor factor) {
    const bool isRow = factor == Factor::Row;
    std::vector<std::vector<long double>> levels;
    for (std::size_t level = 0; level < (isRow ? table.rows : table.columns); ++level) {
        const TwoWayCell cell{.row = isRow ? level : 0, .column = isRow ? 0 : level};
        auto entries = contrastRow(table, cell);
        const auto firstColumn = entries.begin() + static_cast<std::ptrdiff_t>(table.rows);
        std::fill(isRow ? firstColumn : entries.begin() + 1, isRow ? entries.end() : firstColumn,
                  0.0L);
        levels.push_back(std::move(entries));
    }
    return levels;
}

long double bilinear(const std::vector<long double>& a, const std::vector<long double>& matrix,
                     const std::vector<long double>& b) {
    long double sum = 0.0L;
    for (std::size_t i = 0; i < a.size(); ++i) {
        for (std::size_t j = 0; j < b.size(); ++j) {
            sum += a[i] * matrix[i * b.size() + j] * b[j];
        }
    }
    return sum;
}

Result<EstimatedMeans> additiveMeans(const TwoWayTable& table, Factor factor) {
    BOOST_OUTCOME_TRY(fit, fitAdditive(table));
    const std::size_t dof = table.count - (table.rows + table.columns - 1);
    const long double variance =
        (table.withinSumSquares + fit.residualSumSquares) / static_cast<long double>(dof);
    EstimatedMeans estimates{.dof = {static_cast<double>(dof)}};
    const auto levels = additiveLevels(table, factor);
    for (const auto& level : levels) {
        long double mean = table.grandMean;
        for (std::size_t i = 0; i < level.size(); ++i) {
            mean += level[i] * fit.coefficients[i];
        }
        estimates.means.push_back(static_cast<double>(mean));
        for (const auto& other : levels) {
            estimates.covariance.push_back(
                static_cast<double>(variance * bilinear(level, fit.inverse, other)));
        }
    }
    return estimates;
}

// Mean of the cell means of each level and the sum of a quantity of its cells over the square of
// their number.
template <class OfCell>
std::vector<IndependentMean> levelMeans(const TwoWayTable& table, Factor factor,
                                        const OfCell& varianceOfMean) {
    const bool isRow = factor == Factor::Row;
    const auto others = static_cast<double>(isRow ? table.columns : table.rows);
    std::vector<IndependentMean> means(isRow ? table.rows : table.columns);
    std::vector<long double> sums(means.size());
    for (const TwoWayCell& cell : table.cells) {
        const std::size_t level = isRow ? cell.row : cell.column;
        sums[level] += cell.moments.mean;
        means[level].variance += varianceOfMean(cell) / (others * others);
    }
    for (std::size_t level = 0; level < means.size(); ++level) {
        means[level].mean = static_cast<double>(sums[level] / static_cast<long double>(others));
    }
    return means;
}

}  // namespace

Result<TwoWayAnova> analyseTwoWay(std::span<const TwoWayCell> cells, SumsOfSquares type) {
    BOOST_OUTCOME_TRY(table, TwoWayTable::from(cells));
    if (type == SumsOfSquares::TypeThree) {
        BOOST_OUTCOME_TRY(checkFull(table, toSay("sums of squares of type three")));
    }
    BOOST_OUTCOME_TRY(explained, explainedBy(table, type));
    TwoWayAnova anova{.residualSumSquares = static_cast<double>(table.withinSumSquares),
                      .residualDof = {static_cast<double>(table.withinDof())}};
    anova.residualVariance = anova.residualSumSquares / anova.residualDof.value;
    anova.rows = effect(explained.rows, {static_cast<double>(table.rows - 1)}, anova);
    anova.columns = effect(explained.columns, {static_cast<double>(table.columns - 1)}, anova);
    const std::size_t mainTerms = table.rows + table.columns - 1;
    if (table.cells.size() > mainTerms) {
        const DegreesOfFreedom dof{static_cast<double>(table.cells.size() - mainTerms)};
        anova.interaction = effect(explained.interaction, dof, anova);
        if (anova.interaction->meanSquare > 0.0) {
            const RatioDof ratio{anova.rows.test.dof.numerator, dof};
            const double f = anova.rows.meanSquare / anova.interaction->meanSquare;
            anova.rowsAgainstInteraction =
                VarianceRatioTest{f, ratio, FDistribution{ratio}.upperTail(f)};
        }
    }
    return anova;
}

Result<EstimatedMeans> marginalMeans(std::span<const TwoWayCell> cells, Factor factor,
                                     MeanModel model) {
    BOOST_OUTCOME_TRY(table, TwoWayTable::from(cells));
    if (model == MeanModel::Additive) {
        return additiveMeans(table, factor);
    }
    BOOST_OUTCOME_TRY(checkFull(table, toSay("marginal means with interaction")));
    const auto dof = static_cast<double>(table.withinDof());
    const double variance = static_cast<double>(table.withinSumSquares) / dof;
    const auto means = levelMeans(table, factor, [&](const TwoWayCell& cell) {
        return variance / static_cast<double>(cell.moments.count);
    });
    EstimatedMeans estimates{.dof = {dof}};
    estimates.covariance.assign(means.size() * means.size(), 0.0);
    for (std::size_t i = 0; i < means.size(); ++i) {
        estimates.means.push_back(means[i].mean);
        estimates.covariance[i * means.size() + i] = means[i].variance;
    }
    return estimates;
}

Result<std::vector<IndependentMean>> equallyWeightedMeans(std::span<const TwoWayCell> cells,
                                                          Factor factor) {
    BOOST_OUTCOME_TRY(table, TwoWayTable::from(cells));
    BOOST_OUTCOME_TRY(checkFull(table, toSay("equally weighted means")));
    for (const TwoWayCell& cell : table.cells) {
        if (cell.moments.count < 2) {
            return fail(ErrorCode::InvalidInput, said("Cell ({}, {}) has a single value, so its "
                                                      "scatter is not known. Film more shots.",
                                                      cell.row, cell.column));
        }
    }
    auto means = levelMeans(table, factor, [](const TwoWayCell& cell) {
        return independentMean(cell.moments).variance;
    });
    // Satterthwaite: v^2 / sum of v_c^2 / (n_c - 1), the parts taken by the same sums.
    const bool isRow = factor == Factor::Row;
    const auto others = static_cast<double>(isRow ? table.columns : table.rows);
    std::vector<double> denominators(means.size());
    for (const TwoWayCell& cell : table.cells) {
        const IndependentMean ofCell = independentMean(cell.moments);
        const double part = ofCell.variance / (others * others);
        denominators[isRow ? cell.row : cell.column] += part * part / ofCell.dof.value;
    }
    for (std::size_t level = 0; level < means.size(); ++level) {
        if (!(means[level].variance > 0.0)) {
            return fail(
                ErrorCode::Untrustworthy,
                said("Level {} has no scatter in any cell. Use readings with finer resolution.",
                     level + 1));
        }
        means[level].dof = {means[level].variance * means[level].variance / denominators[level]};
    }
    return means;
}

}  // namespace core::stats
