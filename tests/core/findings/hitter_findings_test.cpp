#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "core/words/findings.h"
#include "tests/core/findings/made_project.h"
#include "tests/support/reference_csv.h"

namespace {

using core::words::sentence;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using tests::MadeProject;
using tests::ReferenceTable;

constexpr double kTolTenDigits = 1e-8;  // the reference has ten digits

/// Wool as implement, tension as hitter.
MadeProject warpbreaks(const std::string& file) {
    const auto table = ReferenceTable::load(file);
    MadeProject project;
    std::map<std::string, core::project::ImplementId> wools;
    for (std::size_t row = 0; row < table.rowCount(); ++row) {
        const std::string wool = table.text(row, "a");
        if (!wools.contains(wool)) {
            wools[wool] = project.implement(wool);
        }
        project.keep(wools[wool], table.text(row, "b"), table.number(row, "y"));
    }
    return project;
}

// models/twoway_unbalanced.csv: R 4.2.2, confirmed with statsmodels.
TEST(HitterFindings, UnbalancedTableGivesTheSumsOfSquaresOfR) {
    const auto found = warpbreaks("models/data_warpbreaks_unbalanced.csv").findings();
    const auto table = ReferenceTable::load("models/twoway_unbalanced.csv");
    int checked = 0;
    for (std::size_t row = 0; row < table.rowCount(); ++row) {
        if (table.text(row, "dataset") != "warpbreaks_unbalanced" ||
            table.text(row, "term") == "Residuals") {
            continue;
        }
        const bool isTwo = table.text(row, "model") == "type II";
        if (!isTwo && table.text(row, "model") != "type III (sum contrasts)") {
            continue;
        }
        const auto& anova = isTwo ? *found.hitters.typeTwo : *found.hitters.typeThree;
        const std::string term = table.text(row, "term");
        const auto& effect = term == "wool"      ? anova.rows
                             : term == "tension" ? anova.columns
                                                 : *anova.interaction;
        const double expected = table.number(row, "ss");
        EXPECT_NEAR(effect.sumSquares, expected, kTolTenDigits * expected) << term;
        EXPECT_NEAR(effect.test.pValue, table.number(row, "p"), kTolTenDigits) << term;
        ++checked;
    }
    EXPECT_EQ(checked, 6);
}

// models/marginal_means_unbalanced.csv: equally weighted means, R 4.2.2.
TEST(HitterFindings, MarginalMeansWeighEveryHitterTheSame) {
    const auto found = warpbreaks("models/data_warpbreaks_unbalanced.csv").findings();
    const auto table = ReferenceTable::load("models/marginal_means_unbalanced.csv");
    int checked = 0;
    for (std::size_t row = 0; row < table.rowCount(); ++row) {
        const bool isWool = table.text(row, "factor") == "wool";
        const auto& means = isWool ? *found.hitters.implementMeans : *found.hitters.hitterMeans;
        for (const auto& mean : means) {
            if (mean.name == table.text(row, "level")) {
                EXPECT_NEAR(mean.mean.value, table.number(row, "marginal_mean"), 1e-7);
                ++checked;
            }
        }
    }
    EXPECT_EQ(checked, 5);
}

TEST(HitterFindings, HitterWhoDidNotGetWhatTheOtherGotIsAFinding) {
    MadeProject project;
    for (int i = 0; i < 5; ++i) {
        const auto implement = project.implement("implement " + std::to_string(i + 1));
        for (const double noise : {-15.0, -5.0, 5.0, 15.0}) {
            project.keep(implement, "A", 1500.0 + 100.0 * i + noise);
            // B gets as much as A, but 300 rpm less from implement 4.
            project.keep(implement, "B", 1500.0 + 100.0 * i - (i == 3 ? 300.0 : 0.0) + noise);
        }
    }
    const auto found = project.findings();
    // Two hitters: which of the two cells of implement 4 is odd cannot be told from the numbers.
    ASSERT_EQ(found.hitters.interaction.size(), 2U);
    const auto& cells = found.hitters.interaction;
    EXPECT_EQ(found.hitters.groupOf(cells.back()).size(), 2U);
    EXPECT_THAT(sentence(cells), HasSubstr("do not show which cell is odd"));
    EXPECT_THAT(sentence(cells), HasSubstr("300 rpm more than their other results predict"));
    for (const auto& cell : cells) {
        EXPECT_EQ(cell.implementName, "implement 4");
        EXPECT_TRUE(cell.isOneOfSeveral);
        // 300 rpm off what the other four implements say of the two hitters.
        EXPECT_NEAR(cell.departureRpm, cell.hitterName == "B" ? -300.0 : 300.0, 1e-9);
    }
    EXPECT_EQ(core::words::note(found.together().find(cells.front().implement)->notes.back()),
              "hitters disagree: A 1800.0 rpm and B 1500.0 rpm");
    EXPECT_THAT(sentence(found.hitters), HasSubstr("do not get the same differences"));
}

// A cell that is 700 rpm too high, which the sum over both hitters laid at the door of the other
// hitter's sound cell ("Hitter A did not get from … what hitter B got").
TEST(HitterFindings, ACellThatIsTooHighDoesNotAccuseTheOtherHitter) {
    MadeProject project;
    for (int i = 0; i < 9; ++i) {
        const auto implement = project.implement("implement " + std::to_string(i + 1));
        for (const double noise : {-60.0, -20.0, 0.0, 20.0, 60.0}) {
            project.keep(implement, "A", 1400.0 + 50.0 * i + noise);
            project.keep(implement, "B", 1450.0 + 50.0 * i + (i == 6 ? 700.0 : 0.0) + noise);
        }
    }
    const auto found = project.findings();
    ASSERT_EQ(found.hitters.interaction.size(), 2U);
    const std::string words = sentence(found.hitters.interaction);
    EXPECT_THAT(words, HasSubstr("With implement 7, hitter A and hitter B differ by 700 rpm"));
    EXPECT_THAT(words, HasSubstr("hitter B's 2450 rpm is the highest of their 9 implements"));
    EXPECT_THAT(words, HasSubstr("hitter A's 1700 rpm is number 3 of their 9 implements"));
}

// With three hitters the rest can tell: the cell whose removal makes it additive.
TEST(HitterFindings, WithThreeHittersTheOddCellIsNamedAlone) {
    MadeProject project;
    for (int i = 0; i < 4; ++i) {
        const auto implement = project.implement("implement " + std::to_string(i + 1));
        for (const double noise : {-30.0, 0.0, 10.0, 20.0}) {
            project.keep(implement, "A", 1400.0 + 50.0 * i + noise);
            project.keep(implement, "B", 1450.0 + 50.0 * i + (i == 2 ? 400.0 : 0.0) + noise);
            project.keep(implement, "C", 1300.0 + 50.0 * i + noise);
        }
    }
    const auto found = project.findings();
    ASSERT_EQ(found.hitters.interaction.size(), 1U);
    const auto& cell = found.hitters.interaction.front();
    EXPECT_EQ(cell.hitterName, "B");
    EXPECT_FALSE(cell.isOneOfSeveral);
    EXPECT_NEAR(cell.departureRpm, 400.0, 1e-9);
    EXPECT_THAT(sentence(found.hitters.groupOf(cell)),
                HasSubstr("With implement 3, hitter B is 400 rpm above"));
}

TEST(HitterFindings, HittersWhoDifferByTheSameEverywhereDoNotActTogether) {
    const auto found = tests::ladder({1000.0, 1100.0, 1200.0}, 4.0, {"A", "B"}, 6).findings();
    EXPECT_THAT(found.hitters.interaction, IsEmpty());
    EXPECT_THAT(sentence(found.hitters), HasSubstr("the implements differ alike for every hitter"));
    for (const auto& pair : found.hitters.pairs) {
        EXPECT_NEAR(pair.difference->estimate, -50.0, 1e-9);
    }
}

TEST(HitterFindings, MissingCellIsNamedAndWhatItCosts) {
    auto project = tests::ladder({1000.0, 1100.0}, 4.0, {"A", "B"}, 6);
    const auto late = project.implement("late");
    project.keep(late, "A", 1300.0);
    project.keep(late, "A", 1310.0);
    const auto found = project.findings();
    ASSERT_EQ(found.hitters.missing.size(), 1U);
    EXPECT_EQ(found.hitters.missing.front().implement, late);
    EXPECT_THAT(core::words::missingSentence(found.hitters), HasSubstr("type III"));
    EXPECT_FALSE(found.hitters.typeThree);
    EXPECT_TRUE(found.hitters.typeTwo);
    EXPECT_TRUE(found.hitters.implementMeans);
}

TEST(HitterFindings, OneHitterSaysWhatASecondWouldShow) {
    const auto found = tests::ladder({1000.0, 1100.0}, 4.0, {"A"}, 6).findings();
    EXPECT_FALSE(found.hitters.typeTwo);
    EXPECT_THAT(sentence(found.hitters), HasSubstr("one hitter only"));
    EXPECT_EQ(found.comparisons.size(), 1U);
}

TEST(ConditionContrasts, NewAgainstWornOverBothHitters) {
    MadeProject project;
    const auto fresh = project.implement("X", "new");
    const auto worn = project.implement("X", "worn");
    for (const double noise : {-10.0, 0.0, 10.0}) {
        project.keep(fresh, "A", 1200.0 + noise);
        project.keep(worn, "A", 1000.0 + noise);
        project.keep(fresh, "B", 1300.0 + noise);
        project.keep(worn, "B", 1200.0 + noise);
    }
    project.set("noticeable_step_rpm", "100");
    const auto found = project.findings();
    ASSERT_EQ(found.conditions.size(), 1U);
    const auto& contrast = found.conditions.front();
    EXPECT_NEAR(contrast.difference->estimate, 150.0, 1e-9);  // (200 + 100)/2
    EXPECT_NEAR(contrast.difference->standardError, 0.5 * std::sqrt(400.0 / 3.0), 1e-9);
    EXPECT_NEAR(contrast.difference->dof.value, 8.0, 1e-9);  // four equal variances, 2 each
    EXPECT_EQ(contrast.verdict, core::stats::StepVerdict::DiffersByAtLeast);
    EXPECT_THAT(sentence(contrast, found.noticeableStep), HasSubstr("X, new against worn: 150"));
}

TEST(ConditionContrasts, WithoutACommonHitterItCannotBeSaid) {
    MadeProject project;
    const auto fresh = project.implement("X", "new");
    const auto worn = project.implement("X", "worn");
    for (const double noise : {-10.0, 0.0, 10.0}) {
        project.keep(fresh, "A", 1200.0 + noise);
        project.keep(worn, "B", 1000.0 + noise);
    }
    const auto found = project.findings();
    ASSERT_EQ(found.conditions.size(), 1U);
    EXPECT_FALSE(found.conditions.front().difference);
    EXPECT_THAT(sentence(found.conditions.front(), found.noticeableStep),
                HasSubstr("no hitter has two kept shots"));
}

}  // namespace
