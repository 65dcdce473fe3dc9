#include "core/synthesis/footage_maker.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>

#include "tests/core/synthesis/sample_clips.h"
#include "tests/support/comma_locale.h"

namespace core::synthesis {
namespace {

Scene smallScene() {
    Scene scene;
    scene.camera = {.widthPx = 320, .heightPx = 180, .horizontalFieldOfViewDeg = 60.0, .shift = {}};
    scene.timing.captureRate = timebase::Rational{120};
    scene.timing.instants = 20;
    scene.samplesPerPixel = 8;
    Flight flight;
    flight.strike = {0.01};
    flight.positionM = {-0.5, 0.0, 1.0};
    flight.velocityMPerS = {8.0, -1.0, 0.0};
    flight.spinRadPerS = {10.0, 20.0, 200.0};
    scene.flights.push_back(flight);
    return scene;
}

std::string contentOf(const std::string& file) {
    std::ifstream in{file, std::ios::binary};
    std::ostringstream all;
    all << in.rdbuf();
    return all.str();
}

/// Presentation times as ffprobe prints them, in seconds, sorted.
std::vector<double> stampsByFfprobe(const std::string& file) {
    const auto ran =
        tests::runProgram({"ffprobe", "-v", "error", "-select_streams", "v", "-show_entries",
                           "packet=pts_time", "-of", "csv=p=0", file});
    EXPECT_EQ(ran.status, 0) << ran.errors;
    std::vector<double> stamps;
    std::istringstream lines{ran.output};
    for (std::string line; std::getline(lines, line);) {
        stamps.push_back(std::stod(line));
    }
    std::sort(stamps.begin(), stamps.end());
    return stamps;
}

void expectStampsOfTruth(const ClipTruth& truth, const std::string& file) {
    const std::vector<double> stamps = stampsByFfprobe(file);
    ASSERT_EQ(stamps.size(), truth.schedule.frames.size());
    for (std::size_t i = 0; i < stamps.size(); ++i) {
        const auto exact =
            timebase::Rational{truth.schedule.frames[i].ticks} * truth.schedule.timeBase;
        EXPECT_NEAR(stamps[i], exact.toDouble(), 6e-7) << "frame " << i;  // six decimals printed
    }
}

TEST(FootageMaker, StampsOfAVariableRateFilmAreThoseOfTheTruth) {
    const tests::TemporaryFolder folder;
    Scene scene = smallScene();
    scene.timing.dropped = {5, 11, 12};
    scene.timing.jitter = 0.05;
    const auto truth = makeFootage(scene, {}, folder.file("variable.mp4"));
    ASSERT_TRUE(truth.has_value()) << truth.error().message;
    expectStampsOfTruth(truth.value(), folder.file("variable.mp4"));
}

TEST(FootageMaker, StampsHoldWithSoundAndFramesStoredOutOfOrder) {
    const tests::TemporaryFolder folder;
    Scene scene = smallScene();
    scene.timing.captureRate = timebase::Rational{120000, 1001};
    scene.sound = SoundTrack{};
    const FilmEncoding encoding{.bFrames = 2};
    const auto truth = makeFootage(scene, encoding, folder.file("sound.mp4"));
    ASSERT_TRUE(truth.has_value()) << truth.error().message;
    expectStampsOfTruth(truth.value(), folder.file("sound.mp4"));
}

TEST(FootageMaker, ASlowMotionFilmSaysAtWhichRateItWasCaptured) {
    const tests::TemporaryFolder folder;
    Scene scene = smallScene();
    scene.timing.captureRate = timebase::Rational{240};
    scene.timing.stretch = timebase::Rational{8};
    const FilmEncoding encoding{.codec = FilmCodec::Hevc, .tagCaptureRate = true};
    ASSERT_TRUE(makeFootage(scene, encoding, folder.file("slow.mp4")).has_value());
    const auto ran = tests::runProgram({"ffprobe", "-v", "error", "-show_entries",
                                        "format_tags=com.android.capture.fps:stream=codec_name,"
                                        "r_frame_rate",
                                        "-of", "json", folder.file("slow.mp4")});
    const auto json = nlohmann::json::parse(ran.output);
    EXPECT_EQ(json["streams"][0]["codec_name"], "hevc");
    EXPECT_EQ(json["streams"][0]["r_frame_rate"], "30/1");
    EXPECT_DOUBLE_EQ(
        std::stod(json["format"]["tags"]["com.android.capture.fps"].get<std::string>()), 240.0);
}

TEST(FootageMaker, TheSameSeedGivesTheSameBytes) {
    const tests::TemporaryFolder folder;
    Scene scene = smallScene();
    scene.sound = SoundTrack{};
    ASSERT_TRUE(makeFootage(scene, {}, folder.file("a.mp4")).has_value());
    ASSERT_TRUE(makeFootage(scene, {}, folder.file("b.mp4")).has_value());
    scene.seed = 2;
    ASSERT_TRUE(makeFootage(scene, {}, folder.file("c.mp4")).has_value());
    const std::string first = contentOf(folder.file("a.mp4"));
    EXPECT_FALSE(first.empty());
    EXPECT_TRUE(first == contentOf(folder.file("b.mp4")));
    EXPECT_FALSE(first == contentOf(folder.file("c.mp4")));
}

TEST(FootageMaker, AStoppedFilmLeavesNothingBehind) {
    const tests::TemporaryFolder folder;
    std::stop_source source;
    const auto stopAtFive = [&](std::int64_t done, std::int64_t) {
        if (done == 5) {
            source.request_stop();
        }
    };
    const auto stopped =
        makeFootage(smallScene(), {}, folder.file("a.mp4"), stopAtFive, source.get_token());
    ASSERT_FALSE(stopped.has_value());
    EXPECT_EQ(stopped.error().code, ErrorCode::Cancelled);
    EXPECT_TRUE(std::filesystem::is_empty(folder.path()));
}

TEST(FootageMaker, TruthStandsBesideTheFilm) {
    const tests::TemporaryFolder folder;
    ASSERT_TRUE(makeFootage(smallScene(), {}, folder.file("a.mp4")).has_value());
    const auto json = nlohmann::json::parse(contentOf(folder.file("a.json")));
    EXPECT_EQ(json["file"], "a.mp4");
    EXPECT_EQ(json["frames_total"], 20);
    EXPECT_EQ(json["shots"].size(), 1U);
}

TEST(Samples, AreThreeClipsUnderAMegabyte) {
    const tests::TemporaryFolder folder;
    const auto written = writeSamples(folder.path());
    ASSERT_TRUE(written.has_value()) << written.error().message;
    for (const char* name : {"plain_120fps", "slow_240in30_tagged", "dropped_frames_120fps"}) {
        const std::string film = folder.file(std::string{name} + ".mp4");
        EXPECT_GT(std::filesystem::file_size(film), 10000U);
        EXPECT_LT(std::filesystem::file_size(film), 1000000U);
        const auto json =
            nlohmann::json::parse(contentOf(folder.file(std::string{name} + ".json")));
        EXPECT_GE(json["shots"][0]["n_frames_fully_inside"].get<int>(), 12);
    }
}

TEST(FootageMaker, ALocaleWithADecimalCommaDoesNotReachTheTag) {
    const tests::TemporaryFolder folder;
    FilmEncoding encoding;
    encoding.tagCaptureRate = true;
    {
        const tests::CommaLocale german;
        ASSERT_TRUE(makeFootage(smallScene(), encoding, folder.path() / "a.mp4"));
    }
    const auto tag = tests::runProgram({"ffprobe", "-v", "error", "-show_entries",
                                        "format_tags=com.android.capture.fps", "-of", "csv=p=0",
                                        folder.file("a.mp4")});
    EXPECT_EQ(std::stod(tag.output), 120.0) << tag.output;
    EXPECT_EQ(tag.output.find(','), std::string::npos) << tag.output;
}

}  // namespace
}  // namespace core::synthesis
