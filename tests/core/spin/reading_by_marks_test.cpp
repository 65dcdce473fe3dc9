#include "core/spin/reading_by_marks.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

#include "tests/core/spin/clocks.h"
#include "tests/core/spin/warns.h"
#include "tests/support/monte_carlo.h"

namespace core::spin {
namespace {

using tests::kClock120;
using tests::warns;
using timebase::ClipClock;
using timebase::Rational;

constexpr double kRounding = 1e-9;

MarkSet returnsAt(std::vector<ReturnMark> returns, std::int64_t start = 0) {
    return {StartMark{{start}, {}}, std::move(returns), {}};
}

MarksReading read(const MarkSet& marks, const ClipClock& clock,
                  const ReadingContext& context = {}) {
    const auto reading = readMarks(marks, clock, context);
    EXPECT_TRUE(reading.has_value()) << reading.error().message;
    return reading.value();
}

TEST(ReadingByMarks, FiveFramesAt120Are1440AndFourAre1800) {
    // Common practice, no source: turns a minute = 60·frames a second/frames.
    const auto five = read(returnsAt({ReturnMark::nearest({5})}), kClock120);
    EXPECT_NEAR(five.marked.rpm, 1440.0, kRounding);
    EXPECT_NEAR(five.bounds->low.rpm, 7200.0 / 5.5, kRounding);   // 1309.1
    EXPECT_NEAR(five.bounds->high.rpm, 7200.0 / 4.5, kRounding);  // 1600.0
    EXPECT_DOUBLE_EQ(five.framesPerTurn, 5.0);
    const auto four = read(returnsAt({ReturnMark::nearest({4})}), kClock120);
    EXPECT_NEAR(four.marked.rpm, 1800.0, kRounding);
}

TEST(ReadingByMarks, RectangularPeriodHasItsClosedForms) {
    // T rectangular on [a, b]: E[60/T] = 60·ln(b/a)/(b-a), E[3600/T²] = 3600/(ab); by hand.
    const double a = 4.5 / 120.0;
    const double b = 5.5 / 120.0;
    const auto r = read(returnsAt({ReturnMark::nearest({5})}), kClock120);
    const double mean = 60.0 * std::log(b / a) / (b - a);
    EXPECT_NEAR(r.estimate.rpm, mean, kRounding);
    EXPECT_NEAR(r.standardUncertainty.rpm, std::sqrt(3600.0 / (a * b) - mean * mean), 1e-6);
    EXPECT_NEAR(r.interval95.low.rpm, 7200.0 / (5.5 - 0.025), kRounding);
    EXPECT_NEAR(r.interval95.high.rpm, 7200.0 / (4.5 + 0.025), kRounding);
    EXPECT_NEAR(r.period.seconds, 5.0 / 120.0, 1e-12);
}

TEST(ReadingByMarks, SeveralReturnsIntersect) {
    // 5:1 gives T in [4.5, 5.5] frames, 10:2 [4.75, 5.25], 14:3 [4.5, 4.833]: [4.75, 4.833].
    const auto r = read(returnsAt({ReturnMark::nearest({5}, 1), ReturnMark::nearest({10}, 2),
                                   ReturnMark::nearest({14}, 3)}),
                        kClock120);
    EXPECT_NEAR(r.bounds->low.rpm, 7200.0 / (14.5 / 3.0), kRounding);  // 1489.7
    EXPECT_NEAR(r.bounds->high.rpm, 7200.0 / 4.75, kRounding);         // 1515.8
    EXPECT_NEAR(r.marked.rpm, 3.0 * 7200.0 / 14.0, kRounding);
    ASSERT_EQ(r.returns.size(), 3U);
    EXPECT_NEAR(r.returns[1].bounds.low.rpm, 7200.0 / 5.25, kRounding);
    EXPECT_TRUE(r.returns[1].wasGiven);
}

TEST(ReadingByMarks, TurnsAreInferredWhenOnlyOneCountFits) {
    const auto plain = read(
        returnsAt({ReturnMark::nearest({10}), ReturnMark::nearest({5}), ReturnMark::nearest({14})}),
        kClock120);
    EXPECT_EQ(plain.returns[2].turns, 3);
    EXPECT_FALSE(plain.returns[2].wasGiven);
    EXPECT_FALSE(warns(plain, MarksWarning::Kind::TurnsInferred));
    // Frame 14 after 5: two turns would need 7 ± 0.25 frames, three 4.67 ± 0.17.
    const auto skipped =
        read(returnsAt({ReturnMark::nearest({5}), ReturnMark::nearest({14})}), kClock120);
    EXPECT_EQ(skipped.returns[1].turns, 3);
    EXPECT_TRUE(warns(skipped, MarksWarning::Kind::TurnsInferred));
    const auto given =
        read(returnsAt({ReturnMark::nearest({5}), ReturnMark::nearest({40}, 8)}), kClock120);
    EXPECT_EQ(given.returns[0].turns, 1);
}

TEST(ReadingByMarks, FirstReturnMayBeTheSecondTurn) {
    // Returns at 5 and 7: no turn of 5 ± 0.5 frames comes again at 7; two and three turns of 2.4
    // do.
    const auto r = read(returnsAt({ReturnMark::nearest({5}), ReturnMark::nearest({7})}), kClock120);
    EXPECT_EQ(r.returns[0].turns, 2);
    EXPECT_EQ(r.returns[1].turns, 3);
    EXPECT_TRUE(warns(r, MarksWarning::Kind::TurnsInferred));
}

TEST(ReadingByMarks, NearestUsesTheActualNeighbours) {
    // Frames at 0, 10, 20, 40, 44 ms: frame 3 is nearest from 30 to 42 ms.
    const auto clock = ClipClock::stamped({{0, 10, 20, 40, 44}, Rational{1, 1000}}).value();
    const auto r = read(returnsAt({ReturnMark::nearest({3})}), clock);
    EXPECT_NEAR(r.bounds->low.rpm, 60.0 / 0.042, 1e-6);
    EXPECT_NEAR(r.bounds->high.rpm, 60.0 / 0.030, 1e-6);
    EXPECT_FALSE(warns(r, MarksWarning::Kind::AssumedNeighbour));
}

TEST(ReadingByMarks, MissingNeighbourIsMirroredAndSaid) {
    const auto clock = ClipClock::stamped({{0, 10, 20, 40}, Rational{1, 1000}}).value();
    const auto r = read(returnsAt({ReturnMark::nearest({3})}), clock);
    EXPECT_NEAR(r.bounds->low.rpm, 60.0 / 0.050, 1e-6);
    EXPECT_TRUE(warns(r, MarksWarning::Kind::AssumedNeighbour));
}

TEST(ReadingByMarks, BracketIsBoundedByItsFramesOrItsFraction) {
    const auto open = read(returnsAt({ReturnMark::between({4}, {5})}), kClock120);
    EXPECT_NEAR(open.bounds->low.rpm, 7200.0 / 5.0, kRounding);
    EXPECT_NEAR(open.bounds->high.rpm, 7200.0 / 4.0, kRounding);
    EXPECT_NEAR(open.marked.rpm, 7200.0 / 4.5, kRounding);
    const auto fine =
        read(returnsAt({ReturnMark::between({4}, {5}, 1, BracketFraction{0.8, 0.1})}), kClock120);
    EXPECT_NEAR(fine.bounds->low.rpm, 7200.0 / 4.9, kRounding);
    EXPECT_NEAR(fine.bounds->high.rpm, 7200.0 / 4.7, kRounding);
    EXPECT_NEAR(fine.marked.rpm, 1500.0, kRounding);
    EXPECT_DOUBLE_EQ(fine.framesPerTurn, 4.8);
}

TEST(ReadingByMarks, ClockEntersTheBudgetAndTheInterval) {
    // Return 300 of 60 turns: timing is small, so the relative 1 % of the clock rules.
    const auto clock = tests::constantClock(Rational{120}, 0.01);
    const auto r = read(returnsAt({ReturnMark::nearest({300}, 60)}), clock);
    const double timing = 1440.0 / (300.0 * std::sqrt(12.0));  // JCGM 100:2008, 4.3.7
    EXPECT_NEAR(r.standardUncertainty.rpm, std::hypot(14.4, timing), 1e-3);
    EXPECT_NEAR(r.interval95.high.rpm - r.estimate.rpm, 1.959964 * r.standardUncertainty.rpm, 0.05);
    ASSERT_GE(r.budget.rows.size(), 2U);
    EXPECT_EQ(r.budget.rows[1].name, "capture rate");
    EXPECT_NEAR(r.budget.rows[1].contribution, 14.4, 1e-3);
    double shares = 0.0;
    for (const auto& row : r.budget.rows) {
        shares += row.share;
    }
    EXPECT_NEAR(shares, 1.0, 1e-12);
}

TEST(ReadingByMarks, LineOfSightIsCorrectedOrContributed) {
    ReadingContext context;
    context.lineOfSight = {LineOfSight::Kind::Corrected, fromDegrees(36.0), fromDegrees(3.6)};
    const auto marks = returnsAt({ReturnMark::nearest({50}, 10)});
    const auto plain = read(marks, kClock120);
    const auto corrected = read(marks, kClock120, context);
    // 36° more than ten turns are 10.1 turns; 3.6° of 10.1 turns are 1/1010.
    EXPECT_NEAR(corrected.estimate.rpm, plain.estimate.rpm * 1.01, 1e-9);
    EXPECT_NEAR(corrected.budget.rows[3].contribution, corrected.estimate.rpm / 1010.0, 1e-9);
    context.lineOfSight = {LineOfSight::Kind::Contribution, fromDegrees(36.0), {}};
    const auto contributed = read(marks, kClock120, context);
    EXPECT_NEAR(contributed.estimate.rpm, plain.estimate.rpm, 1e-9);
    EXPECT_NEAR(contributed.budget.rows[3].contribution, plain.estimate.rpm * 0.01 / std::sqrt(3.0),
                1e-9);
    EXPECT_GT(contributed.interval95.high, plain.interval95.high);
    EXPECT_EQ(plain.budget.rows[3].distribution, Distribution::NotAssessed);
}

TEST(ReadingByMarks, KnownRollingShutterShiftsTheInstants) {
    // The ball sinks from row 0.2 to row 0.8 of a sensor read in 1/150 s: 0.6/150 s = 0.48 frames.
    ReadingContext context;
    context.rollingShutter = {
        RollingShutter::Kind::Known, Seconds{1.0 / 150.0}, {{{0}, 0.2}, {{5}, 0.8}}};
    const auto r = read(returnsAt({ReturnMark::nearest({5})}), kClock120, context);
    EXPECT_NEAR(r.marked.rpm, 7200.0 / 5.48, 1e-6);
    EXPECT_NEAR(r.bounds->low.rpm, 7200.0 / 5.98, 1e-6);
}

TEST(ReadingByMarks, UnknownRollingShutterSpansNoneToOneFrame) {
    ReadingContext context;
    context.rollingShutter = {RollingShutter::Kind::Unknown, {}, {{{0}, 0.2}, {{50}, 0.7}}};
    const auto marks = returnsAt({ReturnMark::nearest({50}, 10)});
    const double plain = read(marks, kClock120).estimate.rpm;
    const auto r = read(marks, kClock120, context);
    // Up to half a frame in fifty: a factor between 1 and 1/1.01.
    const double least = 1.0 / 1.01;
    EXPECT_NEAR(r.estimate.rpm, plain * 0.5 * (1.0 + least), 1e-6);
    EXPECT_NEAR(r.budget.rows[2].contribution, plain * 0.5 * (1.0 - least) / std::sqrt(3.0), 1e-6);
    EXPECT_EQ(r.budget.rows[2].distribution, Distribution::Rectangular);
}

TEST(ReadingByMarks, FewFramesBlurAndWholeFramesWarn) {
    ReadingContext context;
    context.exposure = Seconds{1.0 / 200.0};
    const auto few = read(returnsAt({ReturnMark::between({2}, {3}, 1)}), kClock120, context);
    EXPECT_TRUE(warns(few, MarksWarning::Kind::FewFramesPerTurn));
    EXPECT_TRUE(warns(few, MarksWarning::Kind::Blur));
    EXPECT_NEAR(toDegrees(*few.blurPerExposure), 360.0 * few.estimate.rpm / 60.0 / 200.0, 1e-9);
    const auto whole = read(returnsAt({ReturnMark::nearest({4}, 1), ReturnMark::nearest({8}, 2),
                                       ReturnMark::nearest({12}, 3)}),
                            kClock120);
    EXPECT_TRUE(warns(whole, MarksWarning::Kind::Stroboscope));
    const auto uneven = read(returnsAt({ReturnMark::nearest({14}, 3)}), kClock120);
    EXPECT_FALSE(warns(uneven, MarksWarning::Kind::Stroboscope));
}

TEST(ReadingByMarks, LookAlikesHoldAliasesCountsAndSymmetry) {
    ReadingContext context;
    context.symmetryOrder = 2;
    const auto r = read(returnsAt({ReturnMark::nearest({10}, 2)}), kClock120, context);
    const auto has = [&](LookAlike::Kind kind, double rpm) {
        return std::any_of(r.lookAlikes.begin(), r.lookAlikes.end(), [&](const auto& one) {
            return one.kind == kind && std::abs(one.rate.rpm - rpm) < 1e-6;
        });
    };
    EXPECT_TRUE(has(LookAlike::Kind::Alias, 3600.0 - r.estimate.rpm));
    EXPECT_TRUE(has(LookAlike::Kind::Alias, 3600.0 + r.estimate.rpm));
    EXPECT_TRUE(has(LookAlike::Kind::TurnCount, 720.0));
    EXPECT_TRUE(has(LookAlike::Kind::Symmetry, 2.0 * r.estimate.rpm));
    EXPECT_TRUE(has(LookAlike::Kind::Symmetry, 0.5 * r.estimate.rpm));
}

// The reading of two returns with everything uncertain, by drawing what the marks allow.
double drawRate(std::mt19937_64& random) {
    std::uniform_real_distribution<double> period{4.0, 6.0};
    std::uniform_real_distribution<double> start{-0.5, 0.5};
    std::uniform_real_distribution<double> unit{-1.0, 1.0};
    std::normal_distribution<double> clock{0.0, 0.01};
    for (;;) {
        const double t = period(random);
        const double s = start(random);
        const double second = s + 2.0 * t;
        const double third = s + 3.0 * t;
        if (second >= 9.5 && second <= 10.5 && third >= 14.3 && third <= 14.7) {
            return 7200.0 / t * (1.0 + clock(random) + unit(random) * 30.0 / 360.0 / 3.0);
        }
    }
}

TEST(ReadingByMarks, AgreesWithAMonteCarloOfTheWholeReading) {
    const auto clock = tests::constantClock(Rational{120}, 0.01);
    ReadingContext context;
    context.lineOfSight = {LineOfSight::Kind::Contribution, fromDegrees(30.0), {}};
    const MarkSet marks{StartMark{{20}, 0.5},
                        {ReturnMark::nearest({30}, 2),
                         ReturnMark::between({34}, {35}, 3, BracketFraction{0.5, 0.2})},
                        {}};
    const auto r = read(marks, clock, context);
    const auto drawn = tests::propagate(drawRate, 5);
    const double tolerance = 1.0;  // rpm; u is about 45 rpm, so half a unit of its second digit
    EXPECT_NEAR(r.estimate.rpm, drawn.mean, tolerance);
    EXPECT_NEAR(r.standardUncertainty.rpm, drawn.standardUncertainty, tolerance);
    EXPECT_NEAR(r.interval95.low.rpm, drawn.symmetric.low, tolerance);
    EXPECT_NEAR(r.interval95.high.rpm, drawn.symmetric.high, tolerance);
}

TEST(ReadingByMarks, WarningNamesAreStable) {
    EXPECT_EQ(marksWarningName(MarksWarning::Kind::FewFramesPerTurn), "few_frames_per_turn");
    EXPECT_EQ(marksWarningName(MarksWarning::Kind::MethodsDiffer), "methods_differ");
}

}  // namespace
}  // namespace core::spin
