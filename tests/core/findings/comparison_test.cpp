#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "core/stats/comparison/pairwise.h"
#include "core/words/findings.h"
#include "tests/core/findings/made_project.h"
#include "tests/support/reference_csv.h"

namespace {

using core::findings::Comparison;
using core::findings::ComparisonModel;
using core::findings::Findings;
using core::stats::StepVerdict;
using core::words::sentence;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;
using tests::MadeProject;
using tests::ReferenceTable;

// The reference has ten digits; the critical values are interpolated to seven and more.
constexpr double kTolReference = 2e-7;

double tolerance(double expected) {
    return kTolReference * std::max(1.0, std::abs(expected));
}

/// An R data set as a project: each group an implement, one hitter.
MadeProject dataSet(const std::string& name) {
    const auto table = ReferenceTable::load("comparisons/data_" + name + ".csv");
    MadeProject project;
    std::map<std::string, core::project::ImplementId> groups;
    for (std::size_t row = 0; row < table.rowCount(); ++row) {
        const std::string group = table.text(row, "group");
        if (!groups.contains(group)) {
            groups[group] = project.implement(group);
        }
        project.keep(groups[group], "A", table.number(row, "y"));
    }
    return project;
}

const core::findings::RankedImplement& named(const Comparison& comparison,
                                             const std::string& name) {
    for (const auto& row : comparison.ranked) {
        if (row.name == name) {
            return row;
        }
    }
    throw std::runtime_error{"no implement " + name};
}

class AgainstR : public ::testing::TestWithParam<const char*> {};

// comparisons/pairwise_expected.csv: Games and Howell 1976 computed with R 4.2.2.
TEST_P(AgainstR, PairsAreThoseOfGamesAndHowell) {
    const auto found = dataSet(GetParam()).findings();
    const auto table = ReferenceTable::load("comparisons/pairwise_expected.csv");
    std::size_t checked = 0;
    for (std::size_t row = 0; row < table.rowCount(); ++row) {
        if (table.text(row, "dataset") != GetParam()) {
            continue;
        }
        const auto& comparison = found.together();
        const auto& a = named(comparison, table.text(row, "a"));
        const auto& b = named(comparison, table.text(row, "b"));
        const auto* pair = comparison.pair(a.implement, b.implement);
        ASSERT_NE(pair, nullptr);
        // The reference subtracts b from a; the finding the lower from the higher.
        const bool isTurned = pair->first == b.implement;
        const double low = isTurned ? -table.number(row, "gh_high") : table.number(row, "gh_low");
        const double high = isTurned ? -table.number(row, "gh_low") : table.number(row, "gh_high");
        EXPECT_NEAR(pair->interval95.low, low, tolerance(low));
        EXPECT_NEAR(pair->interval95.high, high, tolerance(high));
        EXPECT_NEAR(pair->dof, table.number(row, "gh_df"), tolerance(table.number(row, "gh_df")));
        EXPECT_NEAR(pair->adjustedP, table.number(row, "gh_p"), kTolReference);
        ++checked;
    }
    EXPECT_EQ(checked, found.together().pairs.size());
}

// comparisons/oneway_expected.csv: Welch 1951 computed with R 4.2.2.
TEST_P(AgainstR, OneWayIsWelchs) {
    const auto found = dataSet(GetParam()).findings();
    const auto table = ReferenceTable::load("comparisons/oneway_expected.csv");
    for (std::size_t row = 0; row < table.rowCount(); ++row) {
        if (table.text(row, "dataset") == GetParam()) {
            const auto& welch = *found.together().welch;
            const double f = table.number(row, "welch_F");
            EXPECT_NEAR(welch.f, f, tolerance(f));
            EXPECT_NEAR(welch.dof.denominator.value, table.number(row, "welch_df2"),
                        tolerance(table.number(row, "welch_df2")));
            EXPECT_NEAR(welch.pValue, table.number(row, "welch_p"), kTolReference);
            return;
        }
    }
    FAIL() << "no line for " << GetParam();
}

// comparisons/letters_expected.csv: letters of the Games-Howell pairs by Piepho 2004, R 4.2.2.
TEST_P(AgainstR, LettersAreThoseOfGamesAndHowell) {
    const auto found = dataSet(GetParam()).findings();
    const auto table = ReferenceTable::load("comparisons/letters_expected.csv");
    std::size_t checked = 0;
    for (std::size_t row = 0; row < table.rowCount(); ++row) {
        if (table.text(row, "dataset") == GetParam()) {
            EXPECT_EQ(named(found.together(), table.text(row, "group")).letters,
                      table.text(row, "cld_games_howell"));
            ++checked;
        }
    }
    EXPECT_EQ(checked, found.together().ranked.size());
}

INSTANTIATE_TEST_SUITE_P(Comparison, AgainstR,
                         ::testing::Values("PlantGrowth", "InsectSprays", "chickwts",
                                           "warpbreaks_tension", "ToothGrowth_dose"));

// comparisons/pairwise_expected.csv, columns tukey_*: R's TukeyHSD. PlantGrowth passes Brown and
// Forsythe's test, InsectSprays does not.
TEST(Comparison, TukeyAndKramersPairsWhereTheScatterIsAlike) {
    const auto found = dataSet("PlantGrowth").findings();
    const auto& comparison = found.together();
    ASSERT_TRUE(comparison.tukeyKramer) << comparison.tukeyKramer.whyNot().message;
    const auto first = std::find_if(comparison.tukeyKramer->begin(), comparison.tukeyKramer->end(),
                                    [&](const auto& pair) {
                                        return pair.first == named(comparison, "trt2").implement &&
                                               pair.second == named(comparison, "trt1").implement;
                                    });
    ASSERT_NE(first, comparison.tukeyKramer->end());
    EXPECT_NEAR(first->interval95.low, 0.1737839486, 1e-9);
    EXPECT_NEAR(first->interval95.high, 1.556216051, 1e-9);
    EXPECT_NEAR(first->adjustedP, 0.01200642398, 1e-9);
}

TEST(Comparison, TukeyAndKramerIsWithheldWhereTheScatterDiffers) {
    const auto found = dataSet("InsectSprays").findings();
    EXPECT_FALSE(found.together().tukeyKramer);
    EXPECT_EQ(found.together().tukeyKramer.whyNot().kind,
              core::findings::WhyNot::Kind::ScattersDiffer);
}

// R: TukeyHSD(aov(breaks ~ wool + tension, warpbreaks), "tension") is additive; here the full table
// gives each cell its own variance, so only the differences of the means are the same (balanced).
TEST(Comparison, FullTableOfTwoHittersAveragesTheirCells) {
    const auto table = ReferenceTable::load("models/data_warpbreaks.csv");
    MadeProject project;
    std::map<std::string, core::project::ImplementId> tensions;
    for (std::size_t row = 0; row < table.rowCount(); ++row) {
        const std::string tension = table.text(row, "b");
        if (!tensions.contains(tension)) {
            tensions[tension] = project.implement(tension);
        }
        project.keep(tensions[tension], table.text(row, "a"), table.number(row, "y"));
    }
    const auto found = project.findings();
    EXPECT_EQ(found.together().model, ComparisonModel::CellMeans);
    const auto* pair = found.together().pair(tensions.at("L"), tensions.at("H"));
    EXPECT_NEAR(pair->differenceRpm, 14.72222222, 1e-8);
    EXPECT_EQ(found.comparisons.size(), 3U);
}

// With a cell missing the additive model must give what R's TukeyHSD of aov(y ~ a + b) gives for a
// table that is additive by construction: hitter B gets 100 rpm more from every implement.
TEST(Comparison, MissingCellIsFilledInByTheAdditiveModel) {
    MadeProject project;
    const auto x = project.implement("X");
    const auto y = project.implement("Y");
    for (const double noise : {-10.0, 0.0, 10.0}) {
        project.keep(x, "A", 1000.0 + noise);
        project.keep(x, "B", 1100.0 + noise);
        project.keep(y, "B", 1150.0 + noise);
    }
    const auto found = project.findings();
    EXPECT_EQ(found.together().model, ComparisonModel::Additive);
    const auto* pair = found.together().pair(x, y);
    ASSERT_NE(pair, nullptr);
    // Hitters weigh the same: X (1000 + 1100)/2 = 1050, Y (1050 + 1150)/2 = 1100.
    EXPECT_NEAR(pair->differenceRpm, 50.0, 1e-9);
    // One variance: 600/6 = 100 within three cells and nothing between, 9 - 3 = 6 degrees.
    // X - Y rests on B's cells alone: standard error sqrt(100 (1/3 + 1/3)).
    EXPECT_NEAR(pair->standardErrorRpm, std::sqrt(200.0 / 3.0), 1e-9);
    EXPECT_NEAR(pair->dof, 6.0, 1e-9);
    EXPECT_THAT(sentence(found.together(), found.noticeableStep), HasSubstr("Cells are missing"));
}

TEST(Comparison, ImplementsThatShareNoHitterAreNotCompared) {
    MadeProject project;
    const auto x = project.implement("X");
    const auto y = project.implement("Y");
    for (const double noise : {-10.0, 0.0, 10.0}) {
        project.keep(x, "A", 1000.0 + noise);
        project.keep(y, "B", 1500.0 + noise);
    }
    const auto found = project.findings();
    EXPECT_THAT(found.together().pairs, IsEmpty());
    EXPECT_THAT(core::words::whyNoPairs(found.together()),
                HasSubstr("share neither hitter nor filming day"));
    for (const auto& row : found.together().ranked) {
        EXPECT_FALSE(row.rank);
        EXPECT_EQ(row.letters, "");
    }
}

TEST(Comparison, SharedClockCancelsInDifferencesAndNotInMeans) {
    MadeProject exact;
    MadeProject rough;
    for (auto* project : {&exact, &rough}) {
        const double clock = project == &rough ? 0.05 : 0.0;
        const auto x = project->implement("X");
        const auto y = project->implement("Y");
        for (const double noise : {-10.0, 0.0, 10.0}) {
            project->keep(x, "A", 2000.0 + noise, 0.0, clock);
            project->keep(y, "A", 2040.0 + noise, 0.0, clock);
        }
    }
    const auto sharp = exact.findings();
    const auto blurred = rough.findings();
    // 5 % of the difference of 40, against a standard error of sqrt(200/3).
    EXPECT_NEAR(blurred.together().pairs.front().standardErrorRpm,
                std::hypot(sharp.together().pairs.front().standardErrorRpm, 2.0), 1e-9);
    EXPECT_GT(blurred.together().ranked.front().mean.standardUncertainty, 100.0);
}

TEST(Comparison, FourVerdictsAgainstTheStep) {
    // Cells of three with noise 10: standard error sqrt(200/3) = 8.165, 4 degrees of freedom, two
    // means, so t(0.975, 4) = 2.776 and t(0.95, 4) = 2.132: reach 22.7 and 17.4.
    const auto verdictOf = [](double difference, double step) {
        MadeProject project;
        const auto x = project.implement("X");
        const auto y = project.implement("Y");
        for (const double noise : {-10.0, 0.0, 10.0}) {
            project.keep(x, "A", 1000.0 + difference + noise);
            project.keep(y, "A", 1000.0 + noise);
        }
        project.set("noticeable_step_rpm", std::to_string(step));
        return project.findings().together().pairs.front().verdict;
    };
    EXPECT_EQ(verdictOf(100.0, 70.0), StepVerdict::DiffersByAtLeast);  // 77 to 123
    EXPECT_EQ(verdictOf(50.0, 100.0), StepVerdict::DiffersByLess);     // 27 to 73
    EXPECT_EQ(verdictOf(5.0, 30.0), StepVerdict::Equivalent);          // 90 %: -12 to 22
    EXPECT_EQ(verdictOf(20.0, 30.0), StepVerdict::NotSettled);         // -3 to 43
}

TEST(Comparison, RanksOfImplementsFarApartAreCertain) {
    const auto found = tests::ladder({1000.0, 2000.0, 3000.0}, 2.0, {"A", "B"}, 6).findings();
    const auto& ranked = found.together().ranked;
    ASSERT_EQ(ranked.size(), 3U);
    for (std::size_t i = 0; i < 3; ++i) {
        EXPECT_EQ(ranked[i].name, "implement " + std::to_string(3 - i));
        EXPECT_EQ(ranked[i].rank->lowest, static_cast<int>(i) + 1);
        EXPECT_EQ(ranked[i].rank->highest, static_cast<int>(i) + 1);
    }
    EXPECT_THAT(sentence(found.together(), found.noticeableStep),
                HasSubstr("gives more spin than each"));
}

TEST(Comparison, NothingIsCalledFirstWhenTheIntervalsDoNotSaySo) {
    const auto found = tests::ladder({1000.0, 1001.0, 1002.0}, 20.0, {"A", "B"}, 6).findings();
    EXPECT_THAT(sentence(found.together(), found.noticeableStep), HasSubstr("is not settled"));
    EXPECT_THAT(sentence(found.together(), found.noticeableStep), Not(HasSubstr("more spin than")));
    EXPECT_EQ(found.together().ranked.front().letters, "a");
    EXPECT_EQ(found.together().ranked.back().letters, "a");
    EXPECT_EQ(found.together().ranked.front().rank->highest, 3);
}

TEST(Comparison, BandFollowsTheMean) {
    auto project = tests::ladder({1000.0, 2000.0}, 5.0, {"A"}, 5);
    project.set("bands", "low 1500 high");
    const auto found = project.findings();
    EXPECT_EQ(*found.together().ranked.front().band, "high");
    EXPECT_EQ(*found.together().ranked.back().band, "low");
}

TEST(Comparison, ImplementWithOneShotIsLeftOutWithTheReason) {
    MadeProject project = tests::ladder({1000.0, 2000.0}, 5.0, {"A"}, 5);
    project.keep(project.implement("late"), "A", 1500.0);
    const auto found = project.findings();
    ASSERT_EQ(found.together().leftOut.size(), 1U);
    EXPECT_EQ(found.together().leftOut.front().name, "late");
    EXPECT_EQ(found.together().leftOut.front().whyNot.kind,
              core::findings::WhyNot::Kind::OneShotKept);
}

TEST(Comparison, EmptyProjectSaysSo) {
    const auto found = MadeProject{}.findings();
    EXPECT_THAT(sentence(found.together(), found.noticeableStep),
                HasSubstr("Nothing can be compared yet"));
    EXPECT_FALSE(found.together().welch);
}

}  // namespace
