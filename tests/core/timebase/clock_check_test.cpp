#include "core/timebase/clock_check.h"

#include <gtest/gtest.h>

#include <cmath>

#include "core/timebase/slope_density.h"
#include "tests/support/reference_csv.h"

namespace core::timebase {
namespace {

constexpr double kTableDigits = 1e-10;  // relative; the tables have twelve digits

// Marks the first and the last turn of a row of the table, half a frame uncertain each.
void checkTurntable(const tests::ReferenceTable& table, std::size_t i) {
    const double fps = table.number(i, "fps");
    const double turns = table.number(i, "revolutions");
    const auto result = evaluateClockCheck(
        {"turntable",
         {{{0}, {0.0}},
          {{std::llround(table.number(i, "frames"))}, timeOfTurn(turns, {table.number(i, "rpm")})}},
         0.0});
    ASSERT_TRUE(result.has_value()) << result.error().message;
    EXPECT_NEAR(result.value().rateFps, fps, kTableDigits * fps);
    const double percent = table.number(i, "rel_u_percent_both_ends");
    EXPECT_NEAR(100.0 * result.value().relativeSigma(), percent, kTableDigits * percent);
    const double halfRange = 0.5 * (result.value().highFps - result.value().lowFps) / fps;
    const double worst = table.number(i, "worst_percent") / 100.0;
    EXPECT_NEAR(halfRange, worst, kTableDigits * worst);
}

TEST(ClockCheck, TurntableGivesTheRateAndUncertaintyOfTheTable) {
    // Only rows whose turns take a whole number of frames can be marked exactly.
    const auto table = tests::ReferenceTable::load("physics/turntable_check.csv");
    int checked = 0;
    for (std::size_t i = 0; i < table.rowCount(); ++i) {
        const double frames = table.number(i, "frames");
        if (std::abs(frames - std::round(frames)) < 1e-6) {
            checkTurntable(table, i);
            ++checked;
        }
    }
    EXPECT_GT(checked, 20);
}

TEST(ClockCheck, StandingDiscGivesItsSpeed) {
    // A disc of b bars stands still at 60·flashes/b turns a minute.
    const auto table = tests::ReferenceTable::load("physics/strobe_discs.csv");
    ASSERT_GT(table.rowCount(), 0U);
    for (std::size_t i = 0; i < table.rowCount(); ++i) {
        const double barTime = 1.0 / table.number(i, "light_flashes_per_s");
        const Rpm speed{table.number(i, "rpm_at_standstill")};
        EXPECT_NEAR(timeOfTurn(1.0, speed).seconds, barTime * table.number(i, "bars"), 1e-9);
    }
}

TEST(ClockCheck, ThirdInstantNarrowsTheLimits) {
    // Pairs allow (240 ± 1)/1 s, (241 ± 1)/1 s and (481 ± 1)/2 s: together 240 to 241.
    const auto two = evaluateClockCheck({"stopwatch", {{{0}, {0.0}}, {{240}, {1.0}}}, 0.0}).value();
    EXPECT_NEAR(two.lowFps, 239.0, 1e-9);
    EXPECT_NEAR(two.highFps, 241.0, 1e-9);
    const auto three =
        evaluateClockCheck({"stopwatch", {{{0}, {0.0}}, {{240}, {1.0}}, {{481}, {2.0}}}, 0.0});
    ASSERT_TRUE(three.has_value()) << three.error().message;
    EXPECT_NEAR(three.value().lowFps, 240.0, 1e-9);
    EXPECT_NEAR(three.value().highFps, 241.0, 1e-9);
    EXPECT_LT(three.value().sigmaFps, two.sigmaFps);
}

TEST(ClockCheck, UncertaintyOfTheReferenceIsAddedInQuadrature) {
    const ClockCheck check{"turntable", {{{0}, {0.0}}, {{4320}, {18.0}}}, 0.002};
    const double rounding = 1.0 / (4320.0 * std::sqrt(6.0));  // JCGM 100:2008, 4.3.9
    EXPECT_NEAR(evaluateClockCheck(check).value().relativeSigma(), std::hypot(rounding, 0.002),
                1e-9);
}

TEST(ClockCheck, InstantsThatNoRateFitsAreNamed) {
    const auto result =
        evaluateClockCheck({"stopwatch", {{{0}, {0.0}}, {{240}, {1.0}}, {{300}, {2.0}}}, 0.0});
    ASSERT_FALSE(result.has_value());
    EXPECT_EQ(result.error().code, ErrorCode::Contradiction);
    EXPECT_NE(result.error().message.find("frame 240"), std::string::npos);
    EXPECT_NE(result.error().message.find("frame 300"), std::string::npos);
}

TEST(ClockCheck, BadInputIsRefused) {
    const auto codeOf = [](const ClockCheck& check) {
        return evaluateClockCheck(check).error().code;
    };
    EXPECT_EQ(codeOf({"", {{{0}, {0.0}}}, 0.0}), ErrorCode::InvalidInput);
    EXPECT_EQ(codeOf({"", {{{0}, {1.0}}, {{9}, {1.0}}}, 0.0}), ErrorCode::Contradiction);
    EXPECT_EQ(codeOf({"", {{{0}, {0.0}}, {{240}, {1.0}}}, -1.0}), ErrorCode::OutOfRange);
    EXPECT_EQ(codeOf({"", {{{0}, {0.0}}, {{240}, {1.0}, 0.0}}, 0.0}), ErrorCode::OutOfRange);
    EXPECT_EQ(codeOf({"", {{{240}, {0.0}}, {{0}, {1.0}}}, 0.0}), ErrorCode::OutOfRange);
    EXPECT_EQ(codeOf({"", {{{0}, {std::nan("")}}, {{9}, {1.0}}}, 0.0}), ErrorCode::NotFinite);
    EXPECT_EQ(codeOf({"", {{{0}, {0.0}}, {{1}, {1.0}}}, 0.0}), ErrorCode::Untrustworthy);
}

// Half a frame at each of two instants, triangular: 1/(K·sqrt 6) (JCGM 100:2008, 4.3.9), which is
// sqrt(2·(1/12))/K; 2400 frames in 10 s give 0.017 %. The quartz of the stopwatch comes on top.
TEST(StopwatchCheck, UncertaintyIsThatOfHalfAFrameAtBothEndsAndOfTheStopwatch) {
    const auto check = stopwatchCheck(std::vector<ReferenceReading>{{{2430}, 11.5}, {{30}, 1.5}},
                                      core::Seconds{0.0});
    ASSERT_TRUE(check) << check.error().message;
    const auto result = evaluateClockCheck(check.value()).value();
    EXPECT_NEAR(result.rateFps, 240.0, 1e-4);
    EXPECT_NEAR(result.relativeSigma(), std::hypot(std::sqrt(2.0 / 12.0) / 2400.0, 1e-4), 1e-9);
}

// A stopwatch that is read to ± 0.01 s is read to ± 2.4 frames at 240 a second.
TEST(StopwatchCheck, WhatTheStopwatchTellsLessWellWidensTheInstants) {
    const std::vector<ReferenceReading> readings{{{0}, 0.0}, {{1203}, 5.0}, {{2400}, 10.0}};
    EXPECT_EQ(stopwatchCheck(readings, core::Seconds{0.0}).error().code, ErrorCode::Contradiction);
    const auto check = stopwatchCheck(readings, core::Seconds{0.01});
    ASSERT_TRUE(check) << check.error().message;
    EXPECT_NEAR(check.value().instants[0].halfWidthFrames, 2.9, 1e-12);
}

// Ten turns at 33 1/3 rpm are 18 s: 4320 frames at 240 a second.
TEST(TurningCheck, TurnsAndSpeedGiveTheRate) {
    const std::vector<ReferenceReading> readings{{{10}, 0.0}, {{4330}, 10.0}};
    const auto check = turningCheck(readings, parseSpeed("33 1/3").value(), 0.002);
    ASSERT_TRUE(check) << check.error().message;
    const auto result = evaluateClockCheck(check.value()).value();
    EXPECT_NEAR(result.rateFps, 240.0, 1e-4);
    EXPECT_NEAR(result.relativeSigma(), std::hypot(std::sqrt(2.0 / 12.0) / 4320.0, 0.002), 1e-8);
    EXPECT_EQ(turningCheck(readings, core::Rpm{0.0}).error().code, ErrorCode::OutOfRange);
}

TEST(StopwatchCheck, ReadingsThatCannotBeAreNamed) {
    const auto messageOf = [](const std::vector<ReferenceReading>& readings) {
        const auto check = stopwatchCheck(readings);
        return check ? std::string{"none"} : check.error().message;
    };
    EXPECT_NE(messageOf({{{5}, 1.0}}).find("two frames"), std::string::npos);
    EXPECT_NE(messageOf({{{5}, 1.0}, {{5}, 2.0}}).find("frame 5 twice"), std::string::npos);
    EXPECT_NE(messageOf({{{5}, 2.0}, {{9}, 1.0}}).find("frame 9"), std::string::npos);
    EXPECT_NE(messageOf({{{5}, 2.0}, {{9}, std::nan("")}}).find("frame 9"), std::string::npos);
}

TEST(ReferenceText, TimesAndSpeedsAreReadAsPeopleWriteThem) {
    EXPECT_DOUBLE_EQ(parseStopwatch(" 12.34 ").value(), 12.34);
    EXPECT_DOUBLE_EQ(parseStopwatch("1:02.5").value(), 62.5);
    EXPECT_DOUBLE_EQ(parseStopwatch("1:02,5").value(), 62.5);
    EXPECT_EQ(parseStopwatch("1,500").error().code, ErrorCode::Contradiction);
    EXPECT_DOUBLE_EQ(parseStopwatch("1:00:02").value(), 3602.0);
    for (const char* wrong : {"", "x", "-1", "1:75", "1.5:02", "1:2:3:4", "inf", "12 34"}) {
        EXPECT_EQ(parseStopwatch(wrong).error().code, ErrorCode::InvalidInput) << wrong;
    }
    EXPECT_DOUBLE_EQ(parseSpeed("33 1/3").value().rpm, 100.0 / 3.0);
    EXPECT_DOUBLE_EQ(parseSpeed("100/3").value().rpm, 100.0 / 3.0);
    EXPECT_DOUBLE_EQ(parseSpeed("1200").value().rpm, 1200.0);
    for (const char* wrong : {"", "0", "-45", "33 1/0", "1/", "33 x", "nan"}) {
        EXPECT_EQ(parseSpeed(wrong).error().code, ErrorCode::InvalidInput) << wrong;
    }
}

}  // namespace
}  // namespace core::timebase
