#include <gtest/gtest.h>

#include <cmath>
#include <filesystem>
#include <nlohmann/json.hpp>

#include "tests/support/process.h"
#include "tests/support/reference_csv.h"

namespace {

using nlohmann::json;
namespace fs = std::filesystem;

/// A project with two clips that were captured at 240 frames per second, play at 30 and say nothing
/// of it (tests/data/footage/README.md), made by the real program.
class ClockCommand : public ::testing::Test {
protected:
    void SetUp() override {
        const auto film = tests::dataFolder() / "footage" / "slow_240in30_untagged.mp4";
        fs::copy_file(film, folder.path() / "watch.mp4");
        ASSERT_EQ(tests::runProgram({"ffmpeg", "-v", "error", "-i", film.string(), "-c", "copy",
                                     "-metadata", "comment=2", folder.file("shots.mp4")})
                      .status,
                  0);
        const auto made =
            tests::runProgram({TURNMARK_CLI, "intake", project, folder.file("watch.mp4"),
                               folder.file("shots.mp4"), "--session", "day"});
        ASSERT_EQ(made.status, 0) << made.errors;
    }
    tests::Finished run(const std::vector<std::string>& options) {
        std::vector<std::string> words{TURNMARK_CLI, "clock", project};
        words.insert(words.end(), options.begin(), options.end());
        return tests::runProgram(words);
    }
    json clockOf(const std::string& clip) {
        const auto done = run({clip, "--json"});
        return done.status == 0 ? json::parse(done.output)["clips"][0] : json{done.errors};
    }

    tests::TemporaryFolder folder;
    std::string project{folder.file("p.turnmark")};
};

// Forty frames in a sixth of a second are 240 a second; half a frame at both ends, triangular, is
// 1/(40·sqrt 6) (JCGM 100:2008, 4.3.9), to which the stopwatch's quartz adds 0.01 %.
TEST_F(ClockCommand, AFilmedStopwatchSettlesTheClockOfClipsFilmedAlike) {
    EXPECT_EQ(clockOf("shots.mp4")["clock"], "stamped");
    EXPECT_TRUE(clockOf("shots.mp4")["decided_by"].is_null());
    const auto done = run({"watch.mp4", "--instant", "2=0:01.00", "--instant", "42=1.1666667",
                           "--read-to", "0", "--json"});
    ASSERT_EQ(done.status, 0) << done.errors;
    const json said = json::parse(done.output);
    EXPECT_NEAR(said["check"]["capture_rate_fps"].get<double>(), 240.0, 0.1);
    EXPECT_NEAR(said["check"]["relative_standard_uncertainty"].get<double>(),
                std::hypot(1.0 / (40.0 * std::sqrt(6.0)), 1e-4), 1e-5);
    EXPECT_EQ(said["clips"].size(), 2U);
    const json clip = clockOf("shots.mp4");
    EXPECT_EQ(clip["clock"], "stretched");
    EXPECT_EQ(clip["decided_by"], "clock_check");
    EXPECT_NEAR(clip["capture_rate_fps"].get<double>(), 240.0, 0.2);
    EXPECT_NE(clip["evidence"][0]["message"].get<std::string>().find("stopwatch"),
              std::string::npos);

    ASSERT_EQ(run({"watch.mp4", "--withdraw"}).status, 0);
    EXPECT_EQ(clockOf("shots.mp4")["clock"], "stamped");
}

TEST_F(ClockCommand, TurnsOfARigSettleTheClockOfTheClipThatIsNamedAndTheCautionIsSaid) {
    // A whole turn at 1440 rpm takes 1/24 s, ten frames at 240 a second.
    const auto done = run({"watch.mp4", "--frames", "2", "42", "--turns", "4", "--rpm", "1440",
                           "--for", "watch.mp4"});
    ASSERT_EQ(done.status, 0) << done.errors;
    EXPECT_NE(done.output.find("clamped and guarded"), std::string::npos) << done.output;
    EXPECT_EQ(clockOf("watch.mp4")["decided_by"], "clock_check");
    EXPECT_NEAR(clockOf("watch.mp4")["capture_rate_fps"].get<double>(), 240.0, 0.2);
    EXPECT_EQ(clockOf("shots.mp4")["clock"], "stamped");
}

TEST_F(ClockCommand, WhatCannotBeRightIsSaidAndChangesNothing) {
    const std::vector<std::pair<std::vector<std::string>, std::string>> wrong{
        {{"watch.mp4", "--instant", "2=1"}, "two frames"},
        {{"watch.mp4", "--instant", "2=1", "--instant", "x=2"}, "FRAME=SECONDS"},
        {{"watch.mp4", "--instant", "2=1", "--instant", "9=1.2.3"}, "1.2.3"},
        {{"watch.mp4", "--instant", "2=1", "--instant", "9999=12"}, "outside the clip"},
        {{"watch.mp4", "--turns", "4", "--rpm", "1440"}, "--frames"},
        {{"watch.mp4", "--frames", "2", "42", "--turns", "4", "--rpm", "fast"}, "fast"},
        {{"none.mp4"}, "watch.mp4"},
        {{"watch.mp4", "--withdraw"}, "no clock check"}};
    for (const auto& [options, part] : wrong) {
        const auto done = run(options);
        EXPECT_EQ(done.status, 1) << part;
        EXPECT_NE(done.errors.find(part), std::string::npos) << part << ": " << done.errors;
    }
    EXPECT_TRUE(clockOf("watch.mp4")["evidence"].empty());
}

}  // namespace
