#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>

#include "tests/support/demo_copy.h"

namespace {

using nlohmann::json;
namespace fs = std::filesystem;

std::string demoFile() {
    static const tests::DemoCopy copy;
    return copy.project().string();
}

class PublishCommand : public ::testing::Test {
protected:
    json publishDemo(const std::string& name, const std::vector<std::string>& more = {}) const {
        std::vector<std::string> command{TURNMARK_CLI, "publish",         demoFile(),
                                         "--to",       folder.file(name), "--json"};
        command.insert(command.end(), more.begin(), more.end());
        const auto done = tests::runProgram(command);
        EXPECT_EQ(done.status, 0) << done.errors;
        return json::parse(done.output, nullptr, false);
    }
    tests::TemporaryFolder folder;
};

// The demo has eight implements, all of which have footage with the ball pointed at.
TEST_F(PublishCommand, PageShowsTheFramesOfEveryImplement) {
    const json done = publishDemo("out");
    EXPECT_TRUE(done["remarks"].empty()) << done["remarks"];
    const std::string page = tests::bytesOf(folder.path() / "out" / "index.html");
    std::size_t pictures = 0;
    for (auto at = page.find("data:image/png;base64,"); at != std::string::npos;
         at = page.find("data:image/png;base64,", at + 1)) {
        ++pictures;
    }
    EXPECT_EQ(pictures, 8U);
}

TEST_F(PublishCommand, FilmsAreOneAShotInH264WithEveryFrame) {
    publishDemo("out", {"--films"});
    std::size_t films = 0;
    fs::path film;
    for (const auto& entry : fs::directory_iterator{folder.path() / "out" / "films"}) {
        ++films;
        film = entry.path();
    }
    EXPECT_EQ(films, 94U);  // readings of the demo, see cli_project_test.cpp
    const auto probed = tests::runProgram(
        {"ffprobe", "-v", "error", "-count_frames", "-show_entries",
         "stream=codec_name,nb_read_frames,avg_frame_rate", "-of", "json", film.string()});
    ASSERT_EQ(probed.status, 0) << probed.errors;
    const json stream = json::parse(probed.output)["streams"][0];
    EXPECT_EQ(stream["codec_name"], "h264");
    EXPECT_EQ(stream["avg_frame_rate"], "12/1");
    EXPECT_GE(std::stoi(stream["nb_read_frames"].get<std::string>()), 15);
}

TEST_F(PublishCommand, SecondTimeGivesTheSameBytes) {
    publishDemo("one");
    publishDemo("two");
    for (const auto& entry : fs::recursive_directory_iterator{folder.path() / "one"}) {
        if (entry.is_regular_file()) {
            const auto other =
                folder.path() / "two" / fs::relative(entry.path(), folder.path() / "one");
            EXPECT_TRUE(tests::bytesOf(entry.path()) == tests::bytesOf(other)) << other;
        }
    }
}

// Frames that somebody counted and typed were not filmed and read by this program.
TEST_F(PublishCommand, TypedCountsAreNotSaidToBeFilmed) {
    std::ofstream{folder.path() / "counts.csv"} << "implement,hitter,frames,fps\n"
                                                   "gut,A,10,240\ngut,A,11,240\ngut,A,12,240\n"
                                                   "wire,A,7,240\nwire,A,8,240\nwire,A,8,240\n";
    const std::string project = folder.file("counts.turnmark");
    ASSERT_EQ(tests::runProgram({TURNMARK_CLI, "tallies", project, folder.file("counts.csv"),
                                 "--counted", "nearest"})
                  .status,
              0);
    ASSERT_EQ(tests::runProgram({TURNMARK_CLI, "publish", project, "--to", folder.file("first"),
                                 "--author", "Bench team"})
                  .status,
              0);
    // The author is entered once.
    ASSERT_EQ(tests::runProgram({TURNMARK_CLI, "publish", project, "--to", folder.file("out"),
                                 "--cite-as", "Tests of May."})
                  .status,
              0);
    const std::string page = tests::bytesOf(folder.path() / "out" / "index.html");
    for (const char* words :
         {"is filmed just after", "read from the frames", "Filmed:", "were filmed", "of clip"}) {
        EXPECT_EQ(page.find(words), std::string::npos) << words;
    }
    EXPECT_NE(page.find("Frames counted:"), std::string::npos);
    EXPECT_NE(page.find("By Bench team. Cite as: Tests of May.<"), std::string::npos);
}

TEST_F(PublishCommand, BlindHittersKeepTheRowsAndLoseTheNames) {
    publishDemo("out", {"--blind-hitters"});
    const std::string shots = tests::bytesOf(folder.path() / "out" / "shots.csv");
    EXPECT_NE(shots.find(",H2,"), std::string::npos);
    EXPECT_EQ(shots.find("hitter_A"), std::string::npos);
    EXPECT_EQ(shots.find(",A,"), std::string::npos);
}

TEST_F(PublishCommand, ThePageSpeaksTheLanguageThatIsAskedFor) {
    publishDemo("out", {"--language", "de"});
    const std::string page = tests::bytesOf(folder.path() / "out" / "index.html");
    EXPECT_NE(page.find("<html lang=\"de\">"), std::string::npos);
    EXPECT_NE(page.find("Was gefunden wurde"), std::string::npos);
    const auto refused = tests::runProgram(
        {TURNMARK_CLI, "publish", demoFile(), "--to", folder.file("other"), "--language", "xx"});
    EXPECT_EQ(refused.status, 2);
    EXPECT_NE(refused.errors.find("--language"), std::string::npos) << refused.errors;
}

TEST_F(PublishCommand, ForeignFileNeedsToBeAskedFor) {
    fs::create_directories(folder.path() / "out");
    std::ofstream{folder.path() / "out" / "findings.json"} << "{}";
    const auto done =
        tests::runProgram({TURNMARK_CLI, "publish", demoFile(), "--to", folder.file("out")});
    EXPECT_EQ(done.status, 1);
    EXPECT_NE(done.errors.find("findings.json"), std::string::npos) << done.errors;
    publishDemo("out", {"--overwrite"});
}

}  // namespace
