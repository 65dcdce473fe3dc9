#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "core/synthesis/footage_maker.h"
#include "tests/app/read_clip.h"
#include "tests/support/process.h"

/// The command `read` on films of hard conditions, made by core/synthesis (whose rotation and
/// projection are checked in tests/core/synthesis against independent computation).
namespace {

using core::Rpm;
using core::Seconds;
using core::synthesis::FilmEncoding;
using core::synthesis::Flight;
using core::synthesis::Marking;
using core::synthesis::Scene;
using core::timebase::Rational;
using nlohmann::json;
using tests::mentions;
using tests::onlyShot;

constexpr double kBlunderShare = 0.05;

/// A ball that flies through the picture from left to right in `crossingS` seconds.
Scene crossing(int captureFps, double spinRpm, double crossingS) {
    Scene scene;
    scene.camera = {.widthPx = 960, .heightPx = 540, .horizontalFieldOfViewDeg = 62.0, .shift = {}};
    scene.timing.captureRate = Rational{captureFps};
    scene.shutter.exposure = {1.0 / 1600.0};
    constexpr double kWayM = 1.7;
    constexpr double kBeforeS = 0.07;
    scene.timing.instants = std::lround((crossingS + 2.0 * kBeforeS) * captureFps);
    Flight flight;
    flight.strike = {kBeforeS};
    flight.positionM = {-0.5 * kWayM, 0.03, 1.35};
    flight.velocityMPerS = {kWayM / crossingS, -0.5 * 9.8 * crossingS, 0.4};
    flight.spinRadPerS =
        core::synthesis::scaled(core::synthesis::unitOf({0.25, -0.35, 0.9}),
                                core::toRadiansPerSecond(Rpm{spinRpm}).radiansPerSecond);
    flight.attitude = core::synthesis::turned({}, {0.4, 0.7, 0.2}, {1.0});
    scene.flights.push_back(flight);
    return scene;
}

class RenderedFilm : public ::testing::Test {
protected:
    tests::ReadClip read(const Scene& scene, std::vector<std::string> more = {},
                         const FilmEncoding& encoding = {}) {
        const std::filesystem::path film = m_folder.file("film.mp4");
        const auto made = core::synthesis::makeFootage(scene, encoding, film);
        EXPECT_TRUE(made.has_value()) << made.error().message;
        truth = tests::parsedFile(std::filesystem::path{film}.replace_extension(".json"));
        return tests::readClip(film, truth, std::move(more));
    }
    /// The 95 % interval holds the true rate.
    void expectRight(const json& shot) const {
        ASSERT_EQ(shot["status"], "reading") << shot["reason"];
        const double trueRpm = truth["shots"][0]["spin_rpm"];
        EXPECT_LE(shot["interval_rpm"][0].get<double>(), trueRpm) << shot["spin_rpm"];
        EXPECT_GE(shot["interval_rpm"][1].get<double>(), trueRpm) << shot["spin_rpm"];
        EXPECT_NEAR(shot["spin_rpm"].get<double>(), trueRpm, 0.01 * trueRpm);
    }
    /// A reading that is not silently wrong, or a reason.
    void expectRightOrRefused(const json& clip) const {
        const double trueRpm = truth["shots"][0]["spin_rpm"];
        for (const json& shot : clip["shots"]) {
            if (shot["status"] == "reading") {
                EXPECT_NEAR(shot["spin_rpm"].get<double>(), trueRpm, kBlunderShare * trueRpm);
            } else {
                EXPECT_FALSE(shot["reason"].get<std::string>().empty());
            }
        }
    }
    void expectRefused(const json& clip) const {
        for (const json& shot : clip["shots"]) {
            EXPECT_EQ(shot["status"], "no reading") << shot["spin_rpm"];
            EXPECT_TRUE(shot["spin_rpm"].is_null());
            EXPECT_FALSE(shot["reason"].get<std::string>().empty());
        }
    }

    json truth;

private:
    tests::TemporaryFolder m_folder;
};

TEST_F(RenderedFilm, AFigureInMotionLightFromTheGroundAndUnevenStamps) {
    Scene scene = crossing(120, 1710.0, 0.17);
    scene.background = core::synthesis::BackgroundKind::Foliage;
    scene.figure = core::synthesis::MovingFigure{.startX = 0.3, .walkPerSecond = 0.3};
    scene.light.ambientBelow = 0.40;
    scene.flights.front().ball.highlight = 0.2F;
    scene.timing.jitter = 0.05;
    scene.timing.dropped = {11, 18};
    const auto found = read(scene);
    EXPECT_EQ(found.status, 0) << found.errors;
    expectRight(onlyShot(found.clip));
}

TEST_F(RenderedFilm, ARollingShutterWhoseReadoutIsTold) {
    Scene scene = crossing(120, 1390.0, 0.18);
    scene.background = core::synthesis::BackgroundKind::Brick;
    scene.shutter.readout = {0.0065};
    scene.flights.front().ball.marking = Marking::SeamWithPrint;
    scene.flights.front().ball.base = {0.85F, 0.85F, 0.35F};
    scene.flights.front().ball.mark = {0.08F, 0.08F, 0.12F};
    expectRight(onlyShot(read(scene).clip));
}

TEST_F(RenderedFilm, SlowMotionIsRightWhenItsStretchIsTold) {
    Scene scene = crossing(240, 2650.0, 0.11);
    scene.background = core::synthesis::BackgroundKind::Fence;
    scene.timing.stretch = Rational{8};
    const auto told = read(scene, {"--stretch", "8"});
    EXPECT_NEAR(told.clip["capture_rate"].get<double>(), 240.0, 0.01);
    expectRight(onlyShot(told.clip));
    const auto wrong = read(scene, {"--capture-rate", "60"});
    EXPECT_TRUE(mentions(wrong.clip["warnings"], "not 60")) << wrong.clip["warnings"];
    expectRefused(wrong.clip);
}

TEST_F(RenderedFilm, AMarkOnTheFarSideIsRefused) {
    Scene scene = crossing(120, 1500.0, 0.17);
    scene.flights.front().ball.marking = Marking::Hidden;
    scene.flights.front().ball.grain = 0.0F;
    expectRefused(read(scene).clip);
}

TEST_F(RenderedFilm, ABallWithoutAMarkIsRefused) {
    Scene scene = crossing(120, 1500.0, 0.17);
    scene.flights.front().ball.marking = Marking::Plain;
    scene.flights.front().ball.grain = 0.0F;
    expectRefused(read(scene).clip);
}

TEST_F(RenderedFilm, ABallCutByTheBorderIsNotReadWrong) {
    Scene scene = crossing(120, 1500.0, 0.17);
    Flight& flight = scene.flights.front();
    // Half the ball or more stays below the lower border, which lies 0.47 m under the middle.
    flight.positionM[1] = 0.475;
    flight.velocityMPerS[1] = -0.1;
    expectRightOrRefused(read(scene).clip);
}

TEST_F(RenderedFilm, ASecondBallInViewDoesNotMisleadTheReading) {
    Scene scene = crossing(120, 1500.0, 0.17);
    Flight second = scene.flights.front();
    second.isDecoy = true;
    second.positionM = {0.7, -0.35, 1.9};
    second.velocityMPerS = {-5.0, -0.6, 0.0};
    second.spinRadPerS = core::synthesis::scaled(second.spinRadPerS, -0.45);
    scene.flights.push_back(second);
    const auto found = read(scene);
    EXPECT_EQ(found.status, 0) << found.errors;
    const double trueRpm = truth["shots"][0]["spin_rpm"];
    std::size_t right = 0;
    for (const json& shot : found.clip["shots"]) {
        if (shot["status"] == "reading") {
            const double rpm = shot["spin_rpm"];
            const bool isFirst = std::abs(rpm / trueRpm - 1.0) < kBlunderShare;
            const bool isSecond = std::abs(rpm / (0.45 * trueRpm) - 1.0) < kBlunderShare;
            EXPECT_TRUE(isFirst || isSecond) << rpm;
            right += isFirst ? 1 : 0;
        }
    }
    EXPECT_LE(right, 1U);
}

TEST_F(RenderedFilm, AFlightOfFiveFramesIsNotReadWrong) {
    Scene scene = crossing(120, 2300.0, 5.0 / 120.0);
    const auto found = read(scene);
    EXPECT_EQ(found.status, 0) << found.errors;
    expectRightOrRefused(found.clip);
}

}  // namespace
