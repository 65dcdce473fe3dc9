#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "core/synthesis/footage_maker.h"
#include "tests/support/process.h"

/// The command `testclip` on a film that is good and on five that are not, made by core/synthesis
/// (whose projection, exposure and fall are checked in tests/core/synthesis against independent
/// computation).
namespace {

using core::Rpm;
using core::Seconds;
using core::synthesis::Flight;
using core::synthesis::Scene;
using core::timebase::Rational;
using nlohmann::json;

constexpr double kSpinRpm = 2400.0;

/// Balls that fly through the picture one after the other, square to the camera.
Scene filmOf(int shots, int captureFps = 240) {
    Scene scene;
    scene.camera = {.widthPx = 960, .heightPx = 540, .horizontalFieldOfViewDeg = 62.0, .shift = {}};
    scene.timing.captureRate = Rational{captureFps};
    scene.shutter.exposure = {1.0 / 2000.0};
    constexpr double kWayM = 1.7;
    constexpr double kCrossingS = 0.16;
    constexpr double kEveryS = 0.6;
    scene.timing.instants = std::lround(shots * kEveryS * captureFps);
    for (int shot = 0; shot < shots; ++shot) {
        Flight flight;
        flight.strike = {0.2 + kEveryS * shot};
        flight.lifetime = {0.3};
        flight.positionM = {-0.5 * kWayM, 0.03, 1.35};
        flight.velocityMPerS = {kWayM / kCrossingS, -0.5 * 9.8 * kCrossingS, 0.1};
        flight.spinRadPerS = core::synthesis::scaled(
            core::synthesis::unitOf({0.25, -0.35, 0.9}),
            core::toRadiansPerSecond(Rpm{kSpinRpm + 100.0 * shot}).radiansPerSecond);
        flight.attitude = core::synthesis::turned({}, {0.4, 0.7, 0.2}, {1.0});
        scene.flights.push_back(flight);
    }
    return scene;
}

class TestClipFilm : public ::testing::Test {
protected:
    /// The answer for the film of a scene.
    json judged(const Scene& scene, std::vector<std::string> more = {}) {
        const std::filesystem::path film = m_folder.file("test clip.mp4");
        const auto made = core::synthesis::makeFootage(scene, {}, film);
        EXPECT_TRUE(made.has_value()) << made.error().message;
        std::vector<std::string> command{TURNMARK_CLI, "testclip",           film.string(),
                                         "--json",     "--ball-diameter-mm", "67"};
        command.insert(command.end(), more.begin(), more.end());
        const auto run = tests::runProgram(command);
        EXPECT_EQ(run.status, 0) << run.errors;
        return json::parse(run.output)["clips"][0];
    }
    static void expectPoint(const json& clip, const char* point, const char* verdict) {
        EXPECT_EQ(clip["points"][point]["verdict"], verdict) << clip["points"][point];
        EXPECT_EQ(clip["points"][point]["advice"].is_null(),
                  clip["points"][point]["verdict"] == "good");
    }

private:
    tests::TemporaryFolder m_folder;
};

TEST_F(TestClipFilm, AGoodOneIsGoodToFilm) {
    const auto clip = judged(filmOf(3), {"--readout-ms", "0"});
    for (const auto& [name, point] : clip["points"].items()) {
        EXPECT_EQ(point["verdict"], "good") << name << point;
    }
    EXPECT_EQ(clip["verdict"], "good");
    EXPECT_EQ(clip["points"]["shots"]["value"], "3 found, 3 read");
    // 240 frames a second tell spins apart up to half a turn a frame: 120 turns a second.
    EXPECT_TRUE(clip["points"]["spin_limit"]["value"].get<std::string>().starts_with("7200 rpm"));
}

TEST_F(TestClipFilm, FarAwayTheBallIsTooSmall) {
    Scene scene = filmOf(1);
    for (Flight& flight : scene.flights) {
        flight.positionM[2] = 3.2;
    }
    expectPoint(judged(scene), "ball_size", "change");
}

TEST_F(TestClipFilm, ALongExposureBlurs) {
    Scene scene = filmOf(1, 120);
    scene.shutter.exposure = {1.0 / 150.0};  // 96 degrees at 2400 rpm
    const auto clip = judged(scene);
    EXPECT_EQ(clip["verdict"], "change");
    expectPoint(clip, "blur", "change");
}

TEST_F(TestClipFilm, InTheDarkNoiseHidesTheMarking) {
    Scene scene = filmOf(1);
    scene.sensor.brightness = 0.04;
    scene.sensor.fullWellElectrons = 300.0;  // white makes 12 electrons, and reading them out 8
    const auto clip = judged(scene);
    EXPECT_EQ(clip["verdict"], "change") << clip;
}

TEST_F(TestClipFilm, ASlowCameraShowsTooLittle) {
    const auto clip = judged(filmOf(1, 30));
    EXPECT_EQ(clip["verdict"], "change");
    expectPoint(clip, "spin_limit", "change");
}

TEST_F(TestClipFilm, ASlowMotionExportIsRefutedByTheBallsFall) {
    Scene scene = filmOf(1);
    scene.timing.stretch = Rational{8};
    const auto clip = judged(scene);
    EXPECT_EQ(clip["verdict"], "change");
    expectPoint(clip, "capture_rate", "change");
    EXPECT_NE(clip["points"]["capture_rate"]["advice"].get<std::string>().find("240"),
              std::string::npos);
}

}  // namespace
