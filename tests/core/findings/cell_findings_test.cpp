#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "core/words/findings.h"
#include "tests/core/findings/made_project.h"

namespace {

using core::words::sentence;
using ::testing::HasSubstr;
using tests::MadeProject;

constexpr double kTolRpm = 1e-9;  // rounding of sums of a few thousand rpm

TEST(CellFindings, MeanMedianAndDeviationOfFiveShots) {
    MadeProject project;
    const auto implement = project.implement("X");
    for (const double rpm : {1000.0, 1100.0, 1200.0, 1300.0, 1900.0}) {
        project.keep(implement, "A", rpm);
    }
    const auto found = project.findings();
    const auto& cell = found.cells.front();
    ASSERT_TRUE(cell.summary);
    EXPECT_NEAR(cell.summary->sample.mean, 1300.0, kTolRpm);
    EXPECT_NEAR(cell.summary->sample.median, 1200.0, kTolRpm);
    // Squares 90000 + 40000 + 10000 + 0 + 360000 = 500000; over 4: 125000; standard error
    // sqrt(125000 / 5) = 158.11.
    EXPECT_NEAR(cell.mean->standardUncertainty, std::sqrt(25000.0), kTolRpm);
    // t(0.975, 4) = 2.7764451 (table G.2 of JCGM 100: 2.78).
    EXPECT_NEAR(cell.mean->interval95.high, 1300.0 + 2.7764451052 * std::sqrt(25000.0), 1e-6);
}

TEST(CellFindings, ClockIsAddedAfterAveragingAndDoesNotShrink) {
    MadeProject project;
    const auto implement = project.implement("X");
    for (int i = 0; i < 100; ++i) {
        project.keep(implement, "A", 2000.0 + (i % 2 == 0 ? 10.0 : -10.0), 0.0, 0.01);
    }
    const auto found = project.findings();
    const auto& mean = found.cells.front().mean;
    // Scatter: sqrt(100 * 100 / 99 / 100) = 1.005; clock: 1 % of 2000 = 20.
    EXPECT_NEAR(mean->standardUncertainty, std::hypot(std::sqrt(100.0 / 99.0), 20.0), kTolRpm);
}

TEST(CellFindings, ClockPartIsTakenOutOfTheReadingsBeforeTheScatterIsSplit) {
    MadeProject project;
    const auto implement = project.implement("X");
    for (int i = 0; i < 10; ++i) {
        project.keep(implement, "A", 1000.0 + 10.0 * i, 50.0, 0.03);  // 30 rpm by the clock
    }
    const auto found = project.findings();
    const auto& cell = found.cells.front();
    ASSERT_TRUE(cell.split) << cell.split.whyNot().message;
    // About sqrt(50^2 - (0.03 * 1045)^2) = 39: the clock's part grows with the rate.
    double squares = 0.0;
    for (int i = 0; i < 10; ++i) {
        squares += 2500.0 - std::pow(0.03 * (1000.0 + 10.0 * i), 2.0);
    }
    EXPECT_NEAR(cell.split->readingDeviation, std::sqrt(squares / 10.0), kTolRpm);
}

TEST(CellFindings, ScatterThatTheReadingsExplainLeavesNoneToTheShots) {
    MadeProject project;
    const auto implement = project.implement("X");
    for (const double rpm : {990.0, 1000.0, 1010.0}) {
        project.keep(implement, "A", rpm, 50.0);
    }
    const auto found = project.findings();
    const auto& cell = found.cells.front();
    ASSERT_TRUE(cell.split);
    EXPECT_EQ(cell.split->reml.betweenDeviation, 0.0);
    EXPECT_THAT(core::words::scatterSentence(cell),
                HasSubstr("no difference shown between the shots themselves"));
}

TEST(CellFindings, FarShotIsProposedByItsIdAndStillCounts) {
    MadeProject project;
    const auto implement = project.implement("X");
    for (const double rpm : {1000.0, 1010.0, 990.0, 1005.0}) {
        project.keep(implement, "A", rpm);
    }
    const auto odd = project.keep(implement, "A", 500.0);
    project.keep(implement, "A", 995.0);
    const auto found = project.findings();
    ASSERT_EQ(found.oddShots().size(), 1U);
    EXPECT_EQ(found.oddShots().front().shot, odd);
    EXPECT_EQ(found.oddShots().front().word, core::stats::OutlierWord::Outlier);
    EXPECT_EQ(found.cells.front().summary->sample.count, 6U);
    EXPECT_THAT(sentence(found.oddShots().front()), HasSubstr("it counts until you decide"));
    EXPECT_EQ(core::words::note(found.implements.front().notes.front()), "1 odd shot");
}

TEST(CellFindings, OneShotSaysWhyThereIsNoInterval) {
    MadeProject project;
    project.keep(project.implement("X"), "A", 1000.0, 10.0);
    const auto found = project.findings();
    const auto& cell = found.cells.front();
    EXPECT_FALSE(cell.mean);
    EXPECT_THAT(sentence(cell), HasSubstr("before a second one is kept"));
    EXPECT_FALSE(cell.split);
    EXPECT_FALSE(cell.grubbs);
}

TEST(CellFindings, ReadingsWithoutUncertaintyLeaveTheScatterWhole) {
    MadeProject project;
    const auto implement = project.implement("X");
    project.keep(implement, "A", 1000.0, 10.0);
    project.keep(implement, "A", 1100.0, 0.0);
    const auto found = project.findings();
    const auto& cell = found.cells.front();
    EXPECT_FALSE(cell.split);
    EXPECT_THAT(core::words::scatterSentence(cell), HasSubstr("states no uncertainty of its own"));
    EXPECT_TRUE(cell.mean);
}

TEST(CellFindings, ReadingThatIsNoNumberIsAnErrorThatNamesTheCell) {
    MadeProject project;
    const auto implement = project.implement("X");
    project.keep(implement, "A", std::nan(""));
    const auto found = core::findings::findFindings(project.snapshot());
    ASSERT_FALSE(found.has_value());
    EXPECT_EQ(found.error().code, core::ErrorCode::NotFinite);
    EXPECT_THAT(found.error().message, HasSubstr("X, hitter A"));
}

}  // namespace
