#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "core/base/result.h"
#include "core/stats/comparison/one_way.h"
#include "core/stats/comparison/pairwise.h"
#include "core/stats/sample/moments.h"

namespace core::stats {

/// Values of one combination of two factors, such as implement (row) and hitter (column).
struct TwoWayCell {
    std::size_t row{};
    std::size_t column{};
    Moments moments{};
};

/// The two factors of a table of cells.
enum class Factor { Row, Column };

/// What a main effect is adjusted for in a table with unequal counts.
enum class SumsOfSquares {
    TypeTwo,    ///< the other main effect
    TypeThree,  ///< the other main effect and the interaction, under sum-to-zero contrasts
};

/// One line of an analysis of variance.
struct EffectTest {
    double sumSquares{};
    double meanSquare{};
    VarianceRatioTest test{};  ///< against the residual, unless said otherwise
};

/// Linear model row + column + row x column.
struct TwoWayAnova {
    EffectTest rows{};
    EffectTest columns{};
    std::optional<EffectTest> interaction{};  ///< absent when empty cells leave nothing of it
    double residualSumSquares{};              ///< within cells
    DegreesOfFreedom residualDof{};
    double residualVariance{};
    /// Rows against the interaction: the test when the columns (hitters) are a sample of a larger
    /// population. Exact for equal counts, a guide otherwise.
    std::optional<VarianceRatioTest> rowsAgainstInteraction{};
};

/// Two-way analysis of variance from the moments of the cells, counts unequal or zero (a cell that
/// is not listed or has no value). Searle 1987, Linear Models for Unbalanced Data; Langsrud 2003,
/// Stat. Comput. 13:163-167. Rows and columns count from zero without gaps.
/// Errors: InvalidInput for fewer than two rows or columns, a row or column without values, a cell
/// listed twice, no cell of two values, type three with an empty cell, or cells that do not link
/// all rows and columns; Untrustworthy when no cell has any scatter.
Result<TwoWayAnova> analyseTwoWay(std::span<const TwoWayCell> cells, SumsOfSquares type);

/// How the cells enter the estimated marginal means.
enum class MeanModel {
    WithInteraction,  ///< plain mean of the cell means: every cell must hold values
    Additive,         ///< row + column: empty cells are filled in by the model
};

/// Estimated marginal means of the levels of a factor, each level of the other factor weighing the
/// same however many values it has (Searle, Speed and Milliken 1980, Am. Stat. 34:216-221), with
/// one error variance: the residual of the chosen model. Errors: as analyseTwoWay(); InvalidInput
/// for an empty cell with MeanModel::WithInteraction.
Result<EstimatedMeans> marginalMeans(std::span<const TwoWayCell> cells, Factor factor,
                                     MeanModel model);

/// The same means as with MeanModel::WithInteraction, each cell with its own variance and the
/// degrees of freedom of Satterthwaite: for cells whose scatter differs. Independent of each other.
/// Errors: as analyseTwoWay(); InvalidInput for an empty cell or one of fewer than two values;
/// Untrustworthy for a level without scatter.
Result<std::vector<IndependentMean>> equallyWeightedMeans(std::span<const TwoWayCell> cells,
                                                          Factor factor);

}  // namespace core::stats
