#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <fstream>
#include <nlohmann/json.hpp>
#include <numbers>

#include "tests/app/read_clip.h"
#include "tests/support/process.h"
#include "tests/support/reference_csv.h"

/// The command `read` on clips rendered by an independent path tracer, whose truth was written by
/// that renderer (tests/data/footage/README.md). The field of view is not given.
namespace {

namespace fs = std::filesystem;
using nlohmann::json;
using tests::mentions;
using tests::onlyShot;
using tests::parsedFile;
using tests::ReadClip;
using tests::readClip;

constexpr double kLargestError = 0.01;  // of every clip but the low-light one
constexpr double kMedianError = 0.003;
constexpr double kMedianAxisDeg = 2.0;
constexpr double kSigmas = 3.0;
constexpr double kRateOfStamps = 0.005;  // stamps of a variable rate jitter about the nominal one

double degreesBetween(const json& a, const json& b) {
    double dot = 0.0;
    for (std::size_t i = 0; i < 3; ++i) {
        dot += a.at(i).get<double>() * b.at(i).get<double>();
    }
    return std::acos(std::clamp(dot, -1.0, 1.0)) * 180.0 / std::numbers::pi;
}

double median(std::vector<double> values) {
    std::sort(values.begin(), values.end());
    const std::size_t half = values.size() / 2;
    return values.size() % 2 == 1 ? values[half] : 0.5 * (values[half - 1] + values[half]);
}

/// Relative error and axis error of the readings of several shots.
struct Errors {
    std::vector<double> rate;
    std::vector<double> axisDeg;

    /// A reading must be within kLargestError and kSigmas of its own uncertainties.
    void add(const json& shot, const json& truth) {
        const double trueRpm = truth["spin_rpm"];
        ASSERT_EQ(shot["status"], "reading") << shot["reason"];
        const double rpm = shot["spin_rpm"];
        const double sigma = shot["standard_uncertainty_rpm"];
        EXPECT_LE(std::abs(rpm - trueRpm), kSigmas * sigma)
            << rpm << " ± " << sigma << ", true " << trueRpm;
        EXPECT_LE(std::abs(rpm / trueRpm - 1.0), kLargestError) << rpm << ", true " << trueRpm;
        rate.push_back(std::abs(rpm / trueRpm - 1.0));
        axisDeg.push_back(degreesBetween(shot["axis"], truth["axis"]));
    }
    void expectMedians() const {
        EXPECT_LE(median(rate), kMedianError);
        EXPECT_LE(median(axisDeg), kMedianAxisDeg);
    }
};

/// The clip of a session of six shots stays outside the project (11 MB).
std::optional<fs::path> sessionClip() {
    const char* named = std::getenv("TURNMARK_FOOTAGE");
    const fs::path folder =
        named != nullptr ? fs::path{named} : fs::path{PROJECT_FOLDER} / ".." / "shared" / "footage";
    std::error_code ignored;
    for (const auto& entry : fs::directory_iterator{folder, ignored}) {
        if (entry.path().filename().string().starts_with("session") &&
            entry.path().extension() == ".mp4") {
            return entry.path();
        }
    }
    return std::nullopt;
}

class ReadCommand : public ::testing::Test {
protected:
    const fs::path footage = tests::dataFolder() / "footage";
    [[nodiscard]] json truthOf(const std::string& name) const {
        return parsedFile(footage / (name + ".json"));
    }
    [[nodiscard]] ReadClip read(const std::string& name, std::vector<std::string> more = {}) const {
        return readClip(footage / (name + ".mp4"), truthOf(name), std::move(more));
    }
};

TEST_F(ReadCommand, ClipsWithOneFlightAreWithinOnePerCentAndThreeUncertainties) {
    Errors errors;
    for (const std::string name :
         {"quarter_120fps", "half_120fps", "seam_print_tilted_120fps", "quarter_tilted_120fps",
          "band_dot_240fps_hevc", "slow_240in30_tagged", "dropped_frames_120fps",
          "rolling_shutter_120fps"}) {
        SCOPED_TRACE(name);
        const json truth = truthOf(name);
        const auto [status, clip, problems] = read(name);
        ASSERT_EQ(status, 0) << problems;
        const double captureFps = truth["capture_fps"];
        EXPECT_NEAR(clip["capture_rate"].get<double>(), captureFps, kRateOfStamps * captureFps);
        errors.add(onlyShot(clip), truth["shots"][0]);
    }
    SCOPED_TRACE("slow_240in30_untagged");
    const auto stated = read("slow_240in30_untagged", {"--capture-rate", "240"});
    errors.add(onlyShot(stated.clip), truthOf("slow_240in30_untagged")["shots"][0]);
    errors.expectMedians();
}

TEST_F(ReadCommand, LowLightIsRightWithinItsUncertaintyOrNoReading) {
    const double trueRpm = truthOf("low_light_120fps")["shots"][0]["spin_rpm"];
    const auto found = read("low_light_120fps");
    const json& shot = onlyShot(found.clip);
    if (shot["status"] == "reading") {
        EXPECT_LE(std::abs(shot["spin_rpm"].get<double>() - trueRpm),
                  kSigmas * shot["standard_uncertainty_rpm"].get<double>());
    } else {
        EXPECT_FALSE(shot["reason"].get<std::string>().empty());
    }
}

TEST_F(ReadCommand, ABandIsNotReadWrongAndItsHalfTurnTwinIsListed) {
    const double trueRpm = truthOf("band_240fps")["shots"][0]["spin_rpm"];
    for (const auto& marking : {std::vector<std::string>{}, {"--marking", "band"}}) {
        SCOPED_TRACE(marking.size());
        const auto found = read("band_240fps", marking);
        const json& shot = onlyShot(found.clip);
        if (shot["status"] == "reading") {
            EXPECT_LE(std::abs(shot["spin_rpm"].get<double>() / trueRpm - 1.0), kLargestError);
        }
        EXPECT_TRUE(std::any_of(shot["candidates"].begin(), shot["candidates"].end(),
                                [](const json& candidate) { return candidate["kind"] == "twin"; }))
            << shot;
    }
}

TEST_F(ReadCommand, SlowMotionWithoutATagIsRefutedByGravity) {
    const auto found = read("slow_240in30_untagged");
    EXPECT_EQ(found.status, 0) << found.errors;
    EXPECT_TRUE(mentions(found.clip["warnings"], "not 30")) << found.clip["warnings"];
    EXPECT_EQ(onlyShot(found.clip)["status"], "no reading");
    EXPECT_TRUE(onlyShot(found.clip)["spin_rpm"].is_null());
}

TEST_F(ReadCommand, AWrongCaptureRateIsRefutedByGravity) {
    const auto found = read("quarter_120fps", {"--capture-rate", "30"});
    EXPECT_TRUE(mentions(found.clip["warnings"], "not 30")) << found.clip["warnings"];
}

TEST_F(ReadCommand, AFilmWithoutABallSaysSo) {
    tests::TemporaryFolder folder;
    const auto film = folder.file("pattern.mp4");
    ASSERT_EQ(
        tests::runProgram({"ffmpeg", "-v", "error", "-y", "-f", "lavfi", "-i",
                           "testsrc2=size=320x240:rate=60:duration=1", "-c:v", "libx264", film})
            .status,
        0);
    const auto done = tests::runProgram({TURNMARK_CLI, "read", film, "--json", "-"});
    EXPECT_EQ(done.status, 0) << done.errors;
    const json answer = json::parse(done.output);
    for (const auto& shot : answer["clips"][0]["shots"]) {
        EXPECT_EQ(shot["status"], "no reading") << shot;
    }
}

TEST_F(ReadCommand, AFileThatIsNoFilmIsNamedAndTheOthersAreRead) {
    tests::TemporaryFolder folder;
    const auto notes = folder.file("notes.mp4");
    std::ofstream{notes} << "not a film";
    const auto done = tests::runProgram(
        {TURNMARK_CLI, "read", notes, (footage / "half_120fps.mp4").string(), "--json", "-"});
    EXPECT_NE(done.status, 0);
    EXPECT_NE(done.errors.find("notes.mp4"), std::string::npos) << done.errors;
    const json answer = json::parse(done.output);
    EXPECT_FALSE(answer["clips"][0]["error"].is_null());
    EXPECT_EQ(answer["clips"][1]["shots"].size(), 1U);
}

TEST_F(ReadCommand, EveryShotOfASessionAndNothingElse) {
    const auto film = sessionClip();
    if (!film) {
        GTEST_SKIP() << "The session clip (11 MB) is not kept with the project; point "
                        "TURNMARK_FOOTAGE at the folder that holds it to run this test.";
    }
    const json truth = parsedFile(fs::path{*film}.replace_extension(".json"));
    const auto [status, clip, problems] = readClip(*film, truth);
    ASSERT_EQ(status, 0) << problems;
    const auto& shots = truth["shots"];
    ASSERT_EQ(clip["shots"].size(), shots.size());
    Errors errors;
    for (std::size_t i = 0; i < shots.size(); ++i) {
        SCOPED_TRACE(i);
        errors.add(clip["shots"][i], shots[i]);
    }
    errors.expectMedians();
}

}  // namespace
