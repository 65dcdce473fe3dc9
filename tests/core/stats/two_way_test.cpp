#include "core/stats/comparison/two_way.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "tests/core/stats/digits.h"
#include "tests/core/stats/two_way_cells.h"

namespace {

using namespace core::stats;
using core::ErrorCode;
using tests::agrees;
using tests::CellTable;
using tests::ReferenceTable;

constexpr double kTwoWayDigits = 9.0;  // ten were written

// Compares with the rows of one model in a table that R 4.2.2 made.
void expectLines(const TwoWayAnova& anova, const std::string& file, const std::string& dataset,
                 const std::string& model) {
    const auto table = ReferenceTable::load(file);
    int lines = 0;
    for (std::size_t row = 0; row < table.rowCount(); ++row) {
        const std::string term = table.text(row, "term");
        if (table.text(row, "dataset") != dataset || table.text(row, "model") != model ||
            term == "Residuals") {
            continue;
        }
        const bool isRow = term == "supp" || term == "wool";
        const bool isColumn = term == "dose" || term == "tension";
        const EffectTest& effect =
            isRow ? anova.rows : (isColumn ? anova.columns : *anova.interaction);
        EXPECT_TRUE(agrees(effect.sumSquares, table.number(row, "ss"), kTwoWayDigits)) << term;
        EXPECT_TRUE(agrees(effect.meanSquare, table.number(row, "ms"), kTwoWayDigits)) << term;
        EXPECT_TRUE(agrees(effect.test.f, table.number(row, "F"), kTwoWayDigits)) << term;
        EXPECT_TRUE(agrees(effect.test.pValue, table.number(row, "p"), kTwoWayDigits)) << term;
        EXPECT_EQ(effect.test.dof.numerator.value, table.number(row, "df")) << term;
        ++lines;
    }
    EXPECT_EQ(lines, 3);
}

// R 4.2.2 aov; statsmodels agrees; the F values are also printed in R's help pages (from memory).
TEST(TwoWay, BalancedTablesAreTheSameForBothTypes) {
    for (const auto type : {SumsOfSquares::TypeTwo, SumsOfSquares::TypeThree}) {
        const auto tooth = CellTable::load("models/data_ToothGrowth.csv");
        expectLines(analyseTwoWay(tooth.cells, type).value(), "models/twoway_balanced.csv",
                    "ToothGrowth", "len ~ supp*dose");
        const auto warp = CellTable::load("models/data_warpbreaks.csv");
        expectLines(analyseTwoWay(warp.cells, type).value(), "models/twoway_balanced.csv",
                    "warpbreaks", "breaks ~ wool*tension");
    }
}

// R 4.2.2 (drop1 under contr.sum for type three); statsmodels anova_lm types 2 and 3 agree.
TEST(TwoWay, UnbalancedTypesTwoAndThree) {
    const auto data = CellTable::load("models/data_warpbreaks_unbalanced.csv");
    const auto two = analyseTwoWay(data.cells, SumsOfSquares::TypeTwo).value();
    const auto three = analyseTwoWay(data.cells, SumsOfSquares::TypeThree).value();
    expectLines(two, "models/twoway_unbalanced.csv", "warpbreaks_unbalanced", "type II");
    expectLines(three, "models/twoway_unbalanced.csv", "warpbreaks_unbalanced",
                "type III (sum contrasts)");
    EXPECT_EQ(two.residualDof.value, 40.0);
    EXPECT_TRUE(agrees(two.residualSumSquares, 4856.359127, kTwoWayDigits));
}

// Searle, Speed and Milliken 1980; computed with R 4.2.2.
TEST(TwoWay, MarginalMeansOfAnUnbalancedTable) {
    const auto data = CellTable::load("models/data_warpbreaks_unbalanced.csv");
    const auto expected = ReferenceTable::load("models/marginal_means_unbalanced.csv");
    for (std::size_t row = 0; row < expected.rowCount(); ++row) {
        const bool isWool = expected.text(row, "factor") == "wool";
        const auto means = marginalMeans(data.cells, isWool ? Factor::Row : Factor::Column,
                                         MeanModel::WithInteraction)
                               .value();
        const auto& names = isWool ? data.rows : data.columns;
        const auto level = static_cast<std::size_t>(
            std::find(names.begin(), names.end(), expected.text(row, "level")) - names.begin());
        EXPECT_TRUE(
            agrees(means.means[level], expected.number(row, "marginal_mean"), kTwoWayDigits));
        const double variance = means.covariance[level * names.size() + level];
        EXPECT_TRUE(agrees(std::sqrt(variance), expected.number(row, "se"), kTwoWayDigits));
    }
}

// R 4.2.2 TukeyHSD(aov(breaks ~ wool + tension)), the additive model; printed in its help page.
TEST(TwoWay, TukeyPairsOfTheAdditiveModel) {
    constexpr double kRangeDigits = 7.0;  // R's qtukey
    const auto data = CellTable::load("models/data_warpbreaks.csv");
    const auto means = marginalMeans(data.cells, Factor::Column, MeanModel::Additive).value();
    const auto pairs = tukeyPairs(means).value();  // L-M, L-H, M-H
    const auto expected = ReferenceTable::load("comparisons/warpbreaks_two_factor_tukey.csv");
    constexpr std::size_t kRowOfPair[] = {2, 1, 0};
    ASSERT_EQ(pairs.size(), 3U);
    for (std::size_t i = 0; i < 3; ++i) {
        const std::size_t row = kRowOfPair[i];
        EXPECT_TRUE(agrees(pairs[i].difference, expected.number(row, "diff"), kTwoWayDigits));
        EXPECT_TRUE(agrees(pairs[i].interval.low, expected.number(row, "low"), kRangeDigits));
        EXPECT_TRUE(agrees(pairs[i].interval.high, expected.number(row, "high"), kRangeDigits));
        EXPECT_NEAR(pairs[i].pValue, expected.number(row, "p"), 2e-8);
    }
}

TwoWayCell cell(std::size_t row, std::size_t column, const std::vector<double>& values) {
    return {.row = row, .column = column, .moments = momentsOf(values)};
}

// By hand: rows 10 and 20 apart in column 0, nothing known of row 1 in column 1. The additive model
// fills it in: 13 + 10.
TEST(TwoWay, AdditiveMeansFillAnEmptyCell) {
    const std::vector<TwoWayCell> cells{cell(0, 0, {9.0, 11.0}), cell(1, 0, {19.0, 21.0}),
                                        cell(0, 1, {12.0, 14.0})};
    const auto rows = marginalMeans(cells, Factor::Row, MeanModel::Additive).value();
    EXPECT_NEAR(rows.means[0], 11.5, 1e-12);  // (10 + 13) / 2
    EXPECT_NEAR(rows.means[1], 21.5, 1e-12);  // (20 + 23) / 2
    const auto anova = analyseTwoWay(cells, SumsOfSquares::TypeTwo).value();
    EXPECT_FALSE(anova.interaction.has_value());  // three cells, three terms
    EXPECT_EQ(analyseTwoWay(cells, SumsOfSquares::TypeThree).error().code, ErrorCode::InvalidInput);
    EXPECT_EQ(marginalMeans(cells, Factor::Row, MeanModel::WithInteraction).error().code,
              ErrorCode::InvalidInput);
}

// By hand: cells of row 0: means 10 and 14, s^2/n = 1 each with 1 dof: mean 12, variance 2/4, dof
// (1/2)^2 / (2 (1/4)^2 / 1) = 2.
TEST(TwoWay, EqualWeightsWithAVarianceForEachCell) {
    const std::vector<TwoWayCell> cells{cell(0, 0, {9.0, 11.0}), cell(1, 0, {18.0, 22.0}),
                                        cell(0, 1, {13.0, 15.0}), cell(1, 1, {20.0, 30.0})};
    const auto means = equallyWeightedMeans(cells, Factor::Row).value();
    EXPECT_DOUBLE_EQ(means[0].mean, 12.0);
    EXPECT_DOUBLE_EQ(means[0].variance, 0.5);
    EXPECT_DOUBLE_EQ(means[0].dof.value, 2.0);
    EXPECT_DOUBLE_EQ(means[1].variance, (4.0 + 25.0) / 4.0);
}

// A random hitter: rows 2 x 2 balanced, F = MS rows / MS interaction (Searle 1987), from the same
// mean squares.
TEST(TwoWay, RowsAgainstInteractionForARandomColumn) {
    const auto data = CellTable::load("models/data_warpbreaks.csv");
    const auto anova = analyseTwoWay(data.cells, SumsOfSquares::TypeThree).value();
    ASSERT_TRUE(anova.rowsAgainstInteraction.has_value());
    EXPECT_NEAR(anova.rowsAgainstInteraction->f, 450.6666667 / 501.3888889, 1e-9);
    EXPECT_EQ(anova.rowsAgainstInteraction->dof.denominator.value, 2.0);
}

TEST(TwoWay, BadInputIsNamed) {
    const auto codeOf = [](const std::vector<TwoWayCell>& cells) {
        return analyseTwoWay(cells, SumsOfSquares::TypeTwo).error().code;
    };
    const std::vector<double> pair{1.0, 2.0};
    const std::vector<double> one{1.0};
    const std::vector<double> flat{1.0, 1.0};
    EXPECT_EQ(codeOf({cell(0, 0, pair), cell(1, 0, pair)}), ErrorCode::InvalidInput);
    EXPECT_EQ(codeOf({cell(0, 0, pair), cell(0, 0, pair), cell(1, 1, pair)}),
              ErrorCode::InvalidInput);
    EXPECT_EQ(codeOf({cell(0, 0, pair), cell(2, 0, pair), cell(0, 1, pair)}),
              ErrorCode::InvalidInput);
    EXPECT_EQ(codeOf({cell(0, 0, one), cell(1, 0, one), cell(0, 1, one)}), ErrorCode::InvalidInput);
    EXPECT_EQ(codeOf({cell(0, 0, flat), cell(1, 0, flat), cell(0, 1, flat)}),
              ErrorCode::Untrustworthy);
    // Two blocks that share no row and no column cannot be linked.
    EXPECT_EQ(codeOf({cell(0, 0, pair), cell(1, 0, pair), cell(2, 1, pair), cell(3, 1, pair)}),
              ErrorCode::InvalidInput);
}

}  // namespace
