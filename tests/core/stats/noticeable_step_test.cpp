#include "core/stats/comparison/noticeable_step.h"

#include <gtest/gtest.h>

#include <cmath>

#include "tests/support/reference_csv.h"

namespace {

using namespace core::stats;
using core::ErrorCode;
using tests::ReferenceTable;

// Schuirmann 1987, computed with R 4.2.2; statsmodels agrees: equivalent at 5 % if and only if the
// 90 % interval lies inside the bounds.
TEST(NoticeableStep, EquivalenceAndTheNarrowIntervalAgree) {
    const auto table = ReferenceTable::load("models/tost.csv");
    ASSERT_EQ(table.rowCount(), 4U);
    for (std::size_t row = 0; row < table.rowCount(); ++row) {
        const core::Interval<double> narrow{table.number(row, "ci90_low"),
                                            table.number(row, "ci90_high")};
        const core::Interval<double> aroundZero{-100.0, 100.0};  // not shown to differ
        const auto verdict = judgeStep({aroundZero, narrow}, {table.number(row, "bound")}).value();
        EXPECT_EQ(verdict == StepVerdict::Equivalent, table.number(row, "p_tost") < 0.05) << row;
    }
}

StepVerdict verdictOf(core::Interval<double> wide, core::Interval<double> narrow) {
    return judgeStep({wide, narrow}, {100.0}).value();
}

TEST(NoticeableStep, EachVerdictHasItsPlace) {  // a step of 100
    EXPECT_EQ(verdictOf({120.0, 300.0}, {140.0, 280.0}), StepVerdict::DiffersByAtLeast);
    EXPECT_EQ(verdictOf({-300.0, -120.0}, {-280.0, -140.0}), StepVerdict::DiffersByAtLeast);
    EXPECT_EQ(verdictOf({20.0, 90.0}, {30.0, 80.0}), StepVerdict::DiffersByLess);
    EXPECT_EQ(verdictOf({-90.0, -20.0}, {-80.0, -30.0}), StepVerdict::DiffersByLess);
    EXPECT_EQ(verdictOf({-30.0, 60.0}, {-20.0, 50.0}), StepVerdict::Equivalent);
    EXPECT_EQ(verdictOf({-30.0, 160.0}, {-10.0, 140.0}), StepVerdict::NotSettled);
    EXPECT_EQ(verdictOf({20.0, 160.0}, {40.0, 140.0}), StepVerdict::NotSettled);
}

TEST(NoticeableStep, AnEndOnTheStepCountsAsBeyondIt) {
    EXPECT_EQ(verdictOf({100.0, 300.0}, {120.0, 280.0}), StepVerdict::DiffersByAtLeast);
    EXPECT_EQ(verdictOf({-10.0, 120.0}, {0.0, 100.0}), StepVerdict::NotSettled);
}

TEST(NoticeableStep, BadInputIsNamed) {
    EXPECT_EQ(judgeStep({}, {0.0}).error().code, ErrorCode::OutOfRange);
    EXPECT_EQ(judgeStep({}, {std::nan("")}).error().code, ErrorCode::NotFinite);
}

}  // namespace
