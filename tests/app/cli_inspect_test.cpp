#include <gtest/gtest.h>

#include <fstream>
#include <nlohmann/json.hpp>

#include "tests/support/process.h"

namespace {

using nlohmann::json;

/// Makes a clip with the ffmpeg program; its own reader (ffprobe) is the reference below.
void ffmpeg(std::vector<std::string> options) {
    options.insert(options.begin(), {"ffmpeg", "-v", "error", "-y"});
    const auto done = tests::runProgram(options);
    ASSERT_EQ(done.status, 0) << done.errors;
}

std::vector<double> ffprobeStamps(const std::string& file) {
    const auto done = tests::runProgram({"ffprobe", "-v", "error", "-select_streams", "v:0",
                                         "-show_entries", "frame=pts_time", "-of", "json", file});
    std::vector<double> stamps;
    const json probed = json::parse(done.output);
    for (const auto& frame : probed["frames"]) {
        stamps.push_back(std::stod(frame["pts_time"].get<std::string>()));
    }
    return stamps;
}

struct Inspection {
    int status;
    json clip;
    std::string errors;
};

Inspection inspect(const std::string& file, const std::string& option = "--json") {
    const auto done = tests::runProgram({TURNMARK_CLI, "inspect", "--json", option, file});
    return {done.status, json::parse(done.output)["clips"][0], done.errors};
}

class InspectCommand : public ::testing::Test {
protected:
    void expectStampsAsFfprobe(const json& clip, const std::string& file) {
        constexpr double kMicrosecond = 1e-6;  // ffprobe prints six decimals
        const auto expected = ffprobeStamps(file);
        ASSERT_EQ(clip["frames"].get<std::size_t>(), expected.size());
        ASSERT_EQ(clip["time_stamps_s"].size(), expected.size());
        for (std::size_t i = 0; i < expected.size(); ++i) {
            EXPECT_NEAR(clip["time_stamps_s"][i].get<double>(), expected[i], kMicrosecond)
                << "frame " << i;
        }
    }
    tests::TemporaryFolder folder;
};

TEST_F(InspectCommand, ConstantRateEqualsFfprobe) {
    const auto file = folder.file("constant.mp4");
    ffmpeg(
        {"-f", "lavfi", "-i", "testsrc=size=160x120:rate=120:duration=1", "-c:v", "libx264", file});
    const auto [status, clip, errors] = inspect(file);
    EXPECT_EQ(status, 0) << errors;
    EXPECT_EQ(clip["playback_rate"], "120/1");
    EXPECT_EQ(clip["codec"], "h264");
    EXPECT_EQ(clip["width"], 160);
    EXPECT_EQ(clip["clock"], "stamped");
    EXPECT_TRUE(clip["error"].is_null());
    expectStampsAsFfprobe(clip, file);
}

TEST_F(InspectCommand, VariableRateEqualsFfprobeAndTellsTheGaps) {
    const auto file = folder.file("variable.mp4");
    ffmpeg({"-f", "lavfi", "-i", "testsrc=size=160x120:rate=120:duration=1", "-vf",
            "select='not(eq(mod(n,11),10))'", "-vsync", "passthrough", "-c:v", "libx264", "-bf",
            "2", file});
    const auto [status, clip, errors] = inspect(file);
    EXPECT_EQ(status, 0) << errors;
    expectStampsAsFfprobe(clip, file);
    const auto hasGap = std::any_of(clip["warnings"].begin(), clip["warnings"].end(),
                                    [](const json& warning) { return warning["kind"] == "gap"; });
    EXPECT_TRUE(hasGap) << clip["warnings"];
}

TEST_F(InspectCommand, TaggedSlowMotionIsStretchedEightTimes) {
    const auto file = folder.file("tagged.mp4");
    ffmpeg({"-f", "lavfi", "-i", "testsrc=size=160x120:rate=30:duration=1", "-movflags",
            "use_metadata_tags", "-metadata", "com.android.capture.fps=240", "-c:v", "libx264",
            file});
    const auto [status, clip, errors] = inspect(file);
    EXPECT_EQ(status, 0) << errors;
    EXPECT_EQ(clip["clock"], "stretched");
    EXPECT_DOUBLE_EQ(clip["capture_rate"].get<double>(), 240.0);
    ASSERT_EQ(clip["evidence"].size(), 1U);
    EXPECT_EQ(clip["evidence"][0]["kind"], "container_tag");
}

TEST_F(InspectCommand, UntaggedSlowMotionHasNoCaptureRate) {
    const auto file = folder.file("untagged.mp4");
    ffmpeg(
        {"-f", "lavfi", "-i", "testsrc=size=160x120:rate=30:duration=1", "-c:v", "libx264", file});
    const auto [status, clip, errors] = inspect(file);
    EXPECT_EQ(status, 0) << errors;
    EXPECT_TRUE(clip["capture_rate"].is_null());
    EXPECT_TRUE(clip["evidence"].empty());
    EXPECT_FALSE(clip["warnings"].empty());
}

/// Fifteen pictures a second raised to thirty by ffmpeg: every second one is a copy.
TEST_F(InspectCommand, PicturesPutInByAnEditorAreNamedWhenTheyAreLookedAt) {
    const auto file = folder.file("raised.mp4");
    ffmpeg({"-f", "lavfi", "-i", "testsrc2=size=160x120:rate=15:duration=2", "-vf", "fps=30",
            "-c:v", "libx264", "-crf", "18", file});
    const auto repeats = [](const json& clip) {
        return std::count_if(
            clip["warnings"].begin(), clip["warnings"].end(),
            [](const json& warning) { return warning["kind"] == "repeated_picture"; });
    };
    EXPECT_EQ(repeats(inspect(file).clip), 0);
    EXPECT_GE(repeats(inspect(file, "--pictures").clip), 20);
}

TEST_F(InspectCommand, TruncatedClipGivesItsReadablePartOrSaysWhy) {
    const auto whole = folder.file("whole.mkv");
    ffmpeg(
        {"-f", "lavfi", "-i", "testsrc=size=320x240:rate=60:duration=2", "-c:v", "libx264", whole});
    const auto cut = folder.file("cut.mkv");
    const std::string bytes = tests::bytesOf(whole);
    std::ofstream{cut, std::ios::binary} << bytes.substr(0, bytes.size() / 2);
    const auto [status, clip, errors] = inspect(cut);
    EXPECT_EQ(status, 0) << errors;
    EXPECT_GT(clip["frames"].get<int>(), 10);
    EXPECT_LT(clip["frames"].get<int>(), 120);
    const auto told =
        std::any_of(clip["warnings"].begin(), clip["warnings"].end(),
                    [](const json& warning) { return warning["kind"] == "truncated"; });
    EXPECT_TRUE(told) << clip["warnings"];
}

TEST_F(InspectCommand, TruncatedMp4WithoutItsTableIsRefusedWithTheReason) {
    const auto whole = folder.file("whole.mp4");
    ffmpeg(
        {"-f", "lavfi", "-i", "testsrc=size=320x240:rate=60:duration=2", "-c:v", "libx264", whole});
    const std::string bytes = tests::bytesOf(whole);
    const auto cut = folder.file("cut.mp4");
    std::ofstream{cut, std::ios::binary} << bytes.substr(0, bytes.size() / 2);
    const auto [status, clip, errors] = inspect(cut);
    EXPECT_EQ(status, 1);
    EXPECT_TRUE(clip["frames"].is_null());
    EXPECT_NE(clip["error"].get<std::string>().find("cut.mp4"), std::string::npos);
    EXPECT_NE(errors.find("cut.mp4"), std::string::npos);
}

TEST_F(InspectCommand, TextRenamedToMp4IsRefused) {
    const auto file = folder.file("notes.mp4");
    std::ofstream{file} << "These are the notes of the day, not a film.\n";
    const auto [status, clip, errors] = inspect(file);
    EXPECT_EQ(status, 1);
    EXPECT_NE(clip["error"].get<std::string>().find("notes.mp4"), std::string::npos);
}

TEST_F(InspectCommand, EmptyFileIsRefused) {
    const auto file = folder.file("empty.mp4");
    std::ofstream{file}.close();
    const auto [status, clip, errors] = inspect(file);
    EXPECT_EQ(status, 1);
    EXPECT_NE(clip["error"].get<std::string>().find("empty"), std::string::npos);
}

TEST_F(InspectCommand, AbsentFileIsRefused) {
    const auto [status, clip, errors] = inspect(folder.file("nowhere.mp4"));
    EXPECT_EQ(status, 1);
    EXPECT_NE(clip["error"].get<std::string>().find("nowhere.mp4"), std::string::npos);
}

}  // namespace
