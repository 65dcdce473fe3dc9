#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "tests/support/process.h"

namespace {

using nlohmann::json;

constexpr double kPrinted = 1e-9;  // JSON carries every digit of a double

json rate(std::vector<std::string> options) {
    options.insert(options.begin(), {TURNMARK_CLI, "rate", "--json"});
    const auto done = tests::runProgram(options);
    EXPECT_EQ(done.status, 0) << done.errors;
    return json::parse(done.output);
}

// Five whole frames per turn at 120 frames per second are 1440 rpm (common practice, no source);
// the nearest-frame bounds 60·120/5.5 and 60·120/4.5 follow by arithmetic.
TEST(RateCommand, FiveFramesAt120Are1440) {
    const auto answer = rate({"--capture-rate", "120", "--start", "0", "--return", "5"});
    EXPECT_NEAR(answer["marked_rpm"].get<double>(), 1440.0, kPrinted);
    EXPECT_NEAR(answer["bounds_rpm"][0].get<double>(), 60.0 * 120.0 / 5.5, kPrinted);
    EXPECT_NEAR(answer["bounds_rpm"][1].get<double>(), 60.0 * 120.0 / 4.5, kPrinted);
    EXPECT_GT(answer["interval_rpm"][0].get<double>(), 1300.0);
    EXPECT_LT(answer["interval_rpm"][1].get<double>(), 1610.0);
    EXPECT_NEAR(answer["frames_per_turn"].get<double>(), 5.0, kPrinted);
    // Seen from 120 frames a second (7200 a minute), f, 7200 - f and 7200 + f look the same.
    const double rateRpm = answer["rate_rpm"].get<double>();
    EXPECT_NEAR(answer["aliases_rpm"][0].get<double>(), 7200.0 - rateRpm, kPrinted);
    EXPECT_NEAR(answer["aliases_rpm"][1].get<double>(), 7200.0 + rateRpm, kPrinted);
}

// Four whole frames per turn at 120 frames per second are 1800 rpm (common practice, no source).
TEST(RateCommand, FourFramesAt120Are1800) {
    const auto answer = rate({"--capture-rate", "120", "--start", "10", "--return", "14"});
    EXPECT_NEAR(answer["marked_rpm"].get<double>(), 1800.0, kPrinted);
}

TEST(RateCommand, SeveralReturnsNarrowToTheIntersection) {
    const auto answer = rate({"--capture-rate", "120", "--start", "0", "--return", "5:1",
                              "--return", "10:2", "--return", "14:3"});
    // In frames: [4.5, 5.5], [9.5, 10.5]/2 and [13.5, 14.5]/3 meet in [4.75, 4.8333].
    EXPECT_NEAR(answer["bounds_rpm"][0].get<double>(), 7200.0 / (14.5 / 3.0), kPrinted);
    EXPECT_NEAR(answer["bounds_rpm"][1].get<double>(), 7200.0 / 4.75, kPrinted);
}

TEST(RateCommand, ContradictoryReturnsAreNamedAndFail) {
    const auto done = tests::runProgram({TURNMARK_CLI, "rate", "--capture-rate", "120", "--start",
                                         "0", "--return", "5:1", "--return", "14:2"});
    EXPECT_EQ(done.status, 1);
    EXPECT_TRUE(done.output.empty());
    EXPECT_NE(done.errors.find('5'), std::string::npos) << done.errors;
    EXPECT_NE(done.errors.find("14"), std::string::npos) << done.errors;
}

TEST(RateCommand, BudgetSharesAddUpToOne) {
    const auto answer = rate({"--capture-rate", "120", "--start", "0", "--return", "5"});
    double share = 0.0;
    for (const auto& row : answer["budget"]) {
        share += row["share"].get<double>();
    }
    EXPECT_NEAR(share, 1.0, kPrinted);
}

TEST(RateCommand, MissingClockIsAnErrorThatSaysWhatToGive) {
    const auto done = tests::runProgram({TURNMARK_CLI, "rate", "--start", "0", "--return", "5"});
    EXPECT_EQ(done.status, 1);
    EXPECT_NE(done.errors.find("--capture-rate"), std::string::npos) << done.errors;
}

TEST(RateCommand, WordInPlaceOfAFrameIsNamed) {
    const auto done = tests::runProgram(
        {TURNMARK_CLI, "rate", "--capture-rate", "120", "--start", "0", "--return", "five"});
    EXPECT_EQ(done.status, 1);
    EXPECT_NE(done.errors.find("five"), std::string::npos) << done.errors;
}

// The largest number that the option takes once led to "The clip has no frames.".
TEST(RateCommand, AFrameThatNoFilmHasIsNamed) {
    for (const char* option : {"--start", "--return"}) {
        const bool isStart = std::string_view{option} == "--start";
        const auto done = tests::runProgram({TURNMARK_CLI, "rate", "--capture-rate", "120",
                                             "--start", isStart ? "9223372036854775807" : "0",
                                             "--return", isStart ? "5" : "9223372036854775807"});
        EXPECT_EQ(done.status, 1);
        EXPECT_NE(done.errors.find("Frame 9223372036854775807 is in no film"), std::string::npos)
            << done.errors;
    }
    const auto done = tests::runProgram(
        {TURNMARK_CLI, "rate", "--capture-rate", "120", "--start", "0", "--return", "1000000000"});
    EXPECT_EQ(done.status, 0) << done.errors;
}

TEST(RateCommand, NumbersAreReadAsPeopleWriteThemAndNeverGuessed) {
    for (const char* rate : {"1,000", "12:1,000"}) {
        const bool isAngle = rate[2] == ':';
        const auto done = tests::runProgram(
            {TURNMARK_CLI, "rate", "--capture-rate", isAngle ? "120" : rate, "--start", "0",
             isAngle ? "--angle" : "--return", isAngle ? rate : "5"});
        EXPECT_NE(done.status, 0);
        EXPECT_NE(done.errors.find("\"1,000\" can mean 1000 or 1.000"), std::string::npos)
            << done.errors;
    }
    const auto answer = rate({"--capture-rate", "119,88", "--start", "0", "--return", "5"});
    EXPECT_EQ(answer, rate({"--capture-rate", "119.88", "--start", "0", "--return", "5"}));
}

}  // namespace
