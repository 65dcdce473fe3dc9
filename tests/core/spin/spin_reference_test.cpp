#include <gtest/gtest.h>

#include <cmath>

#include "core/spin/reading_by_marks.h"
#include "tests/core/spin/clocks.h"
#include "tests/support/reference_csv.h"

namespace core::spin {
namespace {

using timebase::Rational;

constexpr double kTableDigits = 1e-9;  // relative; the tables have ten digits and more

void checkRounding(const tests::ReferenceTable& table, std::size_t i) {
    const auto frames = static_cast<std::int64_t>(table.number(i, "K"));
    MarkSet marks;
    marks.start = StartMark{{100}, {}};
    if (table.text(i, "model") == "both_ends") {
        marks.start->spreadIntervals = 0.5;
    }
    marks.returns = {ReturnMark::nearest({100 + frames})};
    const auto reading = readMarks(marks, tests::constantClock(Rational{240}));
    ASSERT_TRUE(reading.has_value()) << reading.error().message;
    const auto& r = reading.value();
    const double nominal = 60.0 * 240.0 / static_cast<double>(frames);
    EXPECT_NEAR(r.marked.rpm, nominal, kTableDigits * nominal);
    EXPECT_NEAR(r.estimate.rpm / nominal, table.number(i, "mean_over_nominal"), kTableDigits);
    const double sigma = table.number(i, "rel_sd");
    EXPECT_NEAR(r.standardUncertainty.rpm / nominal, sigma, 1e-8 * sigma) << frames;
    EXPECT_NEAR(r.interval95.low.rpm / nominal, table.number(i, "sym95_low"), kTableDigits);
    EXPECT_NEAR(r.interval95.high.rpm / nominal, table.number(i, "sym95_high"), kTableDigits);
    EXPECT_NEAR(r.bounds->low.rpm / nominal, table.number(i, "worst_low"), kTableDigits);
    EXPECT_NEAR(r.bounds->high.rpm / nominal, table.number(i, "worst_high"), kTableDigits);
}

TEST(SpinReference, FrameRoundingAtOneOrBothEndsAgreesWithTheClosedForms) {
    const auto table = tests::ReferenceTable::load("uncertainty/spin_quantisation_exact.csv");
    ASSERT_GT(table.rowCount(), 40U);
    for (std::size_t i = 0; i < table.rowCount(); ++i) {
        checkRounding(table, i);
    }
}

// One row of the table of known spins, counted as `frames` frames; both ends are nearest frames.
void checkCount(const tests::ReferenceTable& table, std::size_t i, const std::string& which) {
    const auto frames = static_cast<std::int64_t>(table.number(i, "K_" + which));
    const double counted = table.number(i, "rpm_if_" + which);
    const auto fps = static_cast<std::int64_t>(table.number(i, "fps"));
    const timebase::ClipClock clock =
        timebase::ClipClock::counted(frames + 20, {Rational{fps}}).value();
    MarkSet marks;
    marks.start = StartMark{{10}, 0.5};
    marks.returns = {
        ReturnMark::nearest({10 + frames}, static_cast<int>(table.number(i, "n_rev")))};
    const auto reading = readMarks(marks, clock);
    if (static_cast<double>(frames) < 2.0 * table.number(i, "n_rev")) {
        EXPECT_EQ(reading.error().code, ErrorCode::Untrustworthy) << "fewer than two a turn";
        return;
    }
    ASSERT_TRUE(reading.has_value()) << reading.error().message;
    EXPECT_NEAR(reading.value().marked.rpm, counted, kTableDigits * counted);
    const double truth = table.number(i, "rpm");
    EXPECT_LE(reading.value().bounds->low.rpm, truth * (1.0 + kTableDigits));
    EXPECT_GE(reading.value().bounds->high.rpm, truth * (1.0 - kTableDigits));
}

TEST(SpinReference, BallOfKnownSpinGivesOneOfTwoCountsAndLiesWithinTheBounds) {
    const auto table = tests::ReferenceTable::load("uncertainty/spin_known_truth.csv");
    ASSERT_GT(table.rowCount(), 50U);
    for (std::size_t i = 0; i < table.rowCount(); ++i) {
        checkCount(table, i, "floor");
        if (table.number(i, "p_ceil") > 0.0) {
            checkCount(table, i, "ceil");
        }
    }
}

}  // namespace
}  // namespace core::spin
