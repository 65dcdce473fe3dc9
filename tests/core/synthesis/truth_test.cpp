#include "core/synthesis/truth.h"

#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>

namespace core::synthesis {
namespace {

/// A ball that crosses a 1280 x 720 picture slowly, wholly inside from the first frame on.
Scene crossing(std::int64_t fps, double rpm) {
    Scene scene;
    scene.timing.captureRate = timebase::Rational{fps};
    scene.timing.instants = 24;
    Flight flight;
    flight.positionM = {-0.6, 0.0, 1.5};
    flight.velocityMPerS = {5.0, -1.0, 0.2};
    flight.spinRadPerS =
        scaled(unitOf({0.2, -0.1, 1.0}), toRadiansPerSecond(Rpm{rpm}).radiansPerSecond);
    scene.flights.push_back(flight);
    return scene;
}

std::vector<std::int64_t> returnsAfterStart(std::int64_t fps, double rpm, int turns) {
    const auto truth = truthOf(crossing(fps, rpm));
    EXPECT_TRUE(truth.has_value());
    const ShotTruth& shot = truth.value().shots.front();
    std::vector<std::int64_t> after;
    for (const timebase::FrameIndex frame : nearestReturnFrames(shot, turns)) {
        after.push_back(frame.value - startFrame(shot)->value);
    }
    return after;
}

// Common practice, no source: 1500 rpm at 120 frames a second is a turn in 4.8 frames; returns at
// 4.8, 9.6, 14.4, 19.2 are nearest to 5, 10, 14, 19.
TEST(Truth, NearestReturnsOfFourPointEightFramesATurn) {
    EXPECT_EQ(returnsAfterStart(120, 1500.0, 4), (std::vector<std::int64_t>{5, 10, 14, 19}));
}

// 2880 rpm at 240 frames a second: exactly five frames a turn. Frame 23 is the last: four turns.
TEST(Truth, ReturnsEndWithTheFlight) {
    EXPECT_EQ(returnsAfterStart(240, 2880.0, 9), (std::vector<std::int64_t>{5, 10, 15, 20}));
}

TEST(Truth, ABallWithoutSpinNeverReturns) {
    EXPECT_TRUE(returnsAfterStart(240, 0.0, 2).empty());
}

TEST(Truth, RollingShutterTimesBelongToTheRowOfTheBall) {
    Scene scene = crossing(120, 1500.0);
    scene.shutter.readout = {0.006};
    const auto truth = truthOf(scene);
    ASSERT_TRUE(truth.has_value());
    for (const FrameTruth& frame : truth.value().shots.front().frames) {
        const double row0 = static_cast<double>(frame.frame.value) / 120.0;
        EXPECT_NEAR(frame.captureTime.seconds, row0 + frame.centre.y / 720.0 * 0.006, 1e-12);
    }
}

TEST(Truth, VisibleFractionIsOneInsideAndHalfAtTheBorder) {
    Scene scene = crossing(120, 1500.0);
    scene.timing.instants = 1;
    scene.flights.front().velocityMPerS = {0.0, 0.0, 0.0};
    scene.flights.front().positionM = {-1.5 * std::tan(30.0 * kPi / 180.0), 0.0, 1.5};
    const auto truth = truthOf(scene);
    ASSERT_TRUE(truth.has_value());
    const FrameTruth& frame = truth.value().shots.front().frames.front();
    EXPECT_NEAR(frame.centre.x, 0.0, 1e-9);
    EXPECT_FALSE(frame.isFullyInside);
    EXPECT_NEAR(frame.visibleFraction, 0.5, 0.03);  // the outline's middle is not the centre
}

TEST(Truth, DecoysAndFlightsNeverSeenAreNoShots) {
    Scene scene = crossing(120, 1500.0);
    scene.flights.push_back(scene.flights.front());
    scene.flights.back().isDecoy = true;
    scene.flights.push_back(scene.flights.front());
    scene.flights.back().positionM = {-9.0, 0.0, 1.5};
    const auto truth = truthOf(scene);
    ASSERT_TRUE(truth.has_value());
    EXPECT_EQ(truth.value().shots.size(), 1U);
}

TEST(Truth, JsonHasTheKeysOfTheOtherTruthFiles) {
    Scene scene = crossing(240, 2400.0);
    scene.timing.stretch = timebase::Rational{8};
    const auto truth = truthOf(scene);
    ASSERT_TRUE(truth.has_value());
    const auto json = nlohmann::json::parse(truthJson(truth.value(), {"a.mp4", "h264", {}, 240.0}));
    for (const char* key : {"file",
                            "kind",
                            "expect",
                            "resolution",
                            "codec",
                            "capture_fps",
                            "container_fps",
                            "capture_fps_tag",
                            "variable_frame_rate",
                            "dropped_nominal_frames",
                            "frames_total",
                            "exposure_s",
                            "readout_s",
                            "hfov_deg",
                            "focal_px",
                            "gravity_camera_m_s2",
                            "ball_diameter_m",
                            "mark",
                            "half_turn_symmetric",
                            "lift_coefficient",
                            "shots"}) {
        EXPECT_TRUE(json.contains(key)) << key;
    }
    const auto& shot = json["shots"][0];
    EXPECT_NEAR(shot["spin_rpm"].get<double>(), 2400.0, 1e-9);
    const auto& frame = shot["frames"][12];
    EXPECT_NEAR(frame["pts_s"].get<double>(), 12.0 / 30.0, 1e-12);
    EXPECT_NEAR(frame["t_mid_s"].get<double>(), 12.0 / 240.0, 1e-12);
    EXPECT_EQ(frame["orientation_wxyz"].size(), 4U);
    EXPECT_EQ(frame["outline"]["semi_axes_px"].size(), 2U);
}

}  // namespace
}  // namespace core::synthesis
