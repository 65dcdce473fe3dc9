#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "core/spin/reading_by_marks.h"
#include "tests/core/spin/clocks.h"
#include "tests/core/spin/warns.h"

namespace core::spin {
namespace {

using tests::kClock120;
using tests::warns;
using timebase::ClipClock;
using timebase::Rational;

AngleMark angleAt(std::int64_t frame, double degrees, std::optional<int> turns = {}) {
    AngleMark mark;
    mark.frame = {frame};
    mark.angle = fromDegrees(degrees);
    mark.turns = turns;
    return mark;
}

// Angles of a steady spin as a dial shows them, 0 to 360 degrees.
MarkSet steady(double rpm, const std::vector<std::int64_t>& frames, double wobbleDegrees = 0.0) {
    MarkSet marks;
    double sign = 1.0;
    for (const auto frame : frames) {
        const double degrees = 17.0 + rpm / 60.0 * 360.0 * static_cast<double>(frame) / 120.0;
        marks.angles.push_back(
            angleAt(frame, degrees - 360.0 * std::floor(degrees / 360.0) + sign * wobbleDegrees));
        sign = -sign;
    }
    return marks;
}

MarksReading read(const MarkSet& marks, const ReadingContext& context = {}) {
    const auto reading = readMarks(marks, kClock120, context);
    EXPECT_TRUE(reading.has_value()) << reading.error().message;
    return reading.value();
}

TEST(AngleReading, SteadySpinIsReadInBothSenses) {
    for (const double rpm : {1500.0, -1500.0, 330.0, 3100.0}) {
        const auto r = read(steady(rpm, {3, 4, 5, 6, 7, 9}));
        EXPECT_EQ(r.method, MarksReading::Method::Angles);
        EXPECT_NEAR(r.estimate.rpm, std::abs(rpm), 1e-6);
        EXPECT_EQ(r.turnsCounterClockwise, rpm > 0.0);
        EXPECT_NEAR(r.framesPerTurn, 7200.0 / std::abs(rpm), 1e-6);
        EXPECT_FALSE(r.bounds.has_value());
    }
}

TEST(AngleReading, UncertaintyOfTwoReadingsIsArithmetic) {
    // u = sqrt 2·(5°/sqrt 3)/span, JCGM 100:2008, 4.3.7 and eq. (10); span 1/120 s.
    const auto r = read(steady(1500.0, {3, 4}));
    const double degreesPerSecond = std::sqrt(2.0) * 5.0 / std::sqrt(3.0) * 120.0;
    EXPECT_NEAR(r.standardUncertainty.rpm, degreesPerSecond / 6.0, 1e-9);
    EXPECT_NEAR(r.interval95.high.rpm - r.estimate.rpm, 1.959964 * r.standardUncertainty.rpm, 1e-4);
}

TEST(AngleReading, ScatterLargerThanStatedRules) {
    auto marks = steady(1500.0, {3, 4, 5, 6, 7, 8}, 8.0);
    for (auto& mark : marks.angles) {
        mark.spread = fromDegrees(1.0);
    }
    const auto r = read(marks);
    EXPECT_TRUE(warns(r, MarksWarning::Kind::Scatter));
    EXPECT_EQ(r.budget.rows[0].distribution, Distribution::StudentT);
    EXPECT_EQ(r.budget.rows[0].degreesOfFreedom, 4.0);
    // t(0.975; 4) = 2.776 (JCGM 100:2008, table G.2)
    EXPECT_NEAR((r.interval95.high.rpm - r.estimate.rpm) / r.standardUncertainty.rpm, 2.776, 1e-3);
}

TEST(AngleReading, NeverBelowTheStepOfTheDial) {
    auto marks = steady(1500.0, {3, 4, 5, 6, 7, 8});
    for (auto& mark : marks.angles) {
        mark.spread = fromDegrees(0.001);
    }
    ReadingContext context;
    context.dialStep = fromDegrees(2.0);
    const double span = 5.0 / 120.0;
    EXPECT_NEAR(read(marks, context).standardUncertainty.rpm, 2.0 / (std::sqrt(6.0) * span) / 6.0,
                1e-9);
}

TEST(AngleReading, BendIsToldAndSteadySpinIsNot) {
    auto marks = steady(600.0, {0, 1, 2, 3, 4, 5, 6});
    EXPECT_FALSE(warns(read(marks), MarksWarning::Kind::Curvature));
    for (std::size_t i = 0; i < marks.angles.size(); ++i) {
        const double x = static_cast<double>(i) - 3.0;
        marks.angles[i].angle.radians += fromDegrees(3.0 * x * x).radians;
    }
    EXPECT_TRUE(warns(read(marks), MarksWarning::Kind::Curvature));
}

TEST(AngleReading, RepeatedAttitudesWiden) {
    // 1800 rpm at 120: exactly four frames a turn; eight readings of four attitudes.
    const auto locked = read(steady(1800.0, {0, 1, 2, 3, 4, 5, 6, 7, 8}));
    EXPECT_TRUE(warns(locked, MarksWarning::Kind::Stroboscope));
    const auto drifting = read(steady(1650.0, {0, 1, 2, 3, 4, 5, 6, 7, 8}));
    EXPECT_FALSE(warns(drifting, MarksWarning::Kind::Stroboscope));
    EXPECT_NEAR(locked.standardUncertainty.rpm / drifting.standardUncertainty.rpm,
                std::sqrt(9.0 / 4.0), 1e-9);
}

TEST(AngleReading, DistantPairIsAmbiguousUntilTurnsOrReturnsSayMore) {
    auto marks = steady(1500.0, {3, 9});
    const auto refused = readMarks(marks, kClock120);
    ASSERT_FALSE(refused.has_value());
    EXPECT_EQ(refused.error().code, ErrorCode::Untrustworthy);
    EXPECT_NE(refused.error().message.find("1500 rpm"), std::string::npos)
        << refused.error().message;
    auto withTurns = marks;  // 17 + 225 = 242 degrees, and 450 more: 692 = 1 turn + 332 degrees
    withTurns.angles[0].turns = 0;
    withTurns.angles[1].turns = 1;
    EXPECT_NEAR(read(withTurns).estimate.rpm, 1500.0, 1e-6);
    marks.start = StartMark{{3}, {}};
    marks.returns = {ReturnMark::nearest({8})};
    const auto both = read(marks);
    EXPECT_NEAR(both.estimate.rpm, 1500.0, 1e-6);
    EXPECT_TRUE(warns(both, MarksWarning::Kind::MethodsDiffer));
    EXPECT_EQ(both.returns.size(), 1U);
}

TEST(AngleReading, ReturnsAndAnglesThatDisagreeAreAContradiction) {
    auto marks = steady(1500.0, {3, 4, 5, 6, 7, 8, 9, 10});
    marks.start = StartMark{{3}, {}};
    marks.returns = {ReturnMark::nearest({11})};  // 900 rpm
    EXPECT_EQ(readMarks(marks, kClock120).error().code, ErrorCode::Contradiction);
}

TEST(AngleReading, EverySecondFrameFoldsAtHalfTheCaptureRate) {
    // 60 frames a second fold at 3600 rpm: 600 looks like -3000.
    const auto refused = readMarks(steady(600.0, {0, 2, 4, 6, 8}), kClock120);
    ASSERT_FALSE(refused.has_value());
    EXPECT_EQ(refused.error().code, ErrorCode::Untrustworthy);
    EXPECT_NE(refused.error().message.find("3000 rpm clockwise"), std::string::npos);
}

TEST(AngleReading, AnglesThatFollowNoTurningAreRefused) {
    const MarkSet marks{{},
                        {},
                        {angleAt(0, 0), angleAt(1, 200), angleAt(2, 20), angleAt(3, 110),
                         angleAt(4, 100), angleAt(5, 350)}};
    const auto refused = readMarks(marks, kClock120);
    ASSERT_FALSE(refused.has_value());
    EXPECT_EQ(refused.error().code, ErrorCode::Untrustworthy);
}

TEST(AngleReading, BandWithoutADotFoldsAtHalfATurn) {
    // The dial may be off by half a turn in any frame; order 2 does not mind.
    auto marks = steady(1300.0, {3, 4, 5, 6, 7});
    marks.angles[2].angle.radians += kPi;
    ReadingContext band;
    band.symmetryOrder = 2;
    EXPECT_NEAR(read(marks, band).estimate.rpm, 1300.0, 1e-6);
}

TEST(AngleReading, BadAnglesAreRefused) {
    const auto codeOf = [](const std::vector<AngleMark>& angles) {
        return readMarks({{}, {}, angles}, kClock120).error().code;
    };
    EXPECT_EQ(codeOf({angleAt(3, 10)}), ErrorCode::InvalidInput);
    EXPECT_EQ(codeOf({angleAt(3, 10), angleAt(3, 11)}), ErrorCode::InvalidInput);
    EXPECT_EQ(codeOf({angleAt(3, std::nan("")), angleAt(4, 11)}), ErrorCode::NotFinite);
    EXPECT_EQ(codeOf({angleAt(3, 10), angleAt(4000, 11)}), ErrorCode::OutOfRange);
    auto noSpread = angleAt(3, 10);
    noSpread.spread = {0.0};
    EXPECT_EQ(codeOf({noSpread, angleAt(4, 11)}), ErrorCode::OutOfRange);
    EXPECT_EQ(codeOf({angleAt(3, 10, 0), angleAt(4, 11, 7)}), ErrorCode::Contradiction);
}

}  // namespace
}  // namespace core::spin
