#include "core/synthesis/scene.h"

#include <algorithm>
#include <cmath>
#include <string>

namespace core::synthesis {
namespace {

constexpr int kSmallestSidePx = 32;
constexpr int kLargestSidePx = 8192;
constexpr double kLargestJitter = 0.2;
constexpr int kMostSamples = 256;

bool isFinite(const Vector3& v) {
    return std::all_of(v.begin(), v.end(), [](double part) { return std::isfinite(part); });
}

Result<void> checkCamera(const PinholeCamera& camera) {
    for (const int side : {camera.widthPx, camera.heightPx}) {
        if (side < kSmallestSidePx || side > kLargestSidePx || side % 2 != 0) {
            return fail(ErrorCode::OutOfRange,
                        "The picture of the scene must have even sides from 32 to 8192 pixels.");
        }
    }
    if (!(camera.horizontalFieldOfViewDeg > 1.0 && camera.horizontalFieldOfViewDeg < 150.0)) {
        return fail(ErrorCode::OutOfRange,
                    "The horizontal field of view of the scene must lie between 1 and 150 "
                    "degrees.");
    }
    return ok();
}

Result<void> checkTiming(const CaptureTiming& timing) {
    if (timing.captureRate <= timebase::Rational{0} || timing.stretch <= timebase::Rational{0}) {
        return fail(ErrorCode::OutOfRange,
                    "The capture rate and the stretch of the scene must be positive.");
    }
    if (timing.instants < 1 || !(timing.jitter >= 0.0 && timing.jitter <= kLargestJitter)) {
        return fail(ErrorCode::OutOfRange,
                    "The scene needs at least one capture instant and a jitter from 0 to 0.2 frame "
                    "intervals.");
    }
    for (const auto* list : {&timing.dropped, &timing.frozen}) {
        for (const std::int64_t instant : *list) {
            if (instant < 1 || instant >= timing.instants) {
                return fail(ErrorCode::OutOfRange,
                            "Dropped or frozen instant " + std::to_string(instant) +
                                " lies outside the scene; instant 0 is always taken.");
            }
        }
    }
    return ok();
}

Result<void> checkBounce(const Bounce& bounce, Seconds strike, const std::string& name) {
    constexpr double kRounding = 1e-9;
    const bool isSound = std::abs(lengthOf(bounce.normal) - 1.0) < kRounding &&
                         bounce.restitution >= 0.0 && bounce.restitution <= 1.0 &&
                         bounce.friction >= 0.0 && bounce.time > strike;
    if (!isSound) {
        return fail(ErrorCode::OutOfRange,
                    name +
                        "must bounce after its strike, off a surface with a unit normal, with a "
                        "restitution from 0 to 1 and a friction that is not negative.");
    }
    return ok();
}

Result<void> checkFlight(const Flight& flight, std::size_t number) {
    const std::string name = "Flight " + std::to_string(number + 1) + " of the scene ";
    if (!isFinite(flight.positionM) || !isFinite(flight.velocityMPerS) ||
        !isFinite(flight.spinRadPerS) || !std::isfinite(flight.strike.seconds)) {
        return fail(ErrorCode::NotFinite, name +
                                              "has a position, velocity or time that is not "
                                              "finite.");
    }
    if (!(flight.ball.diameterM > 0.0 && flight.ball.massKg > 0.0)) {
        return fail(ErrorCode::OutOfRange, name + "needs a ball of positive diameter and mass.");
    }
    if (flight.positionM[2] <= flight.ball.diameterM) {
        return fail(ErrorCode::OutOfRange, name + "starts behind or inside the camera.");
    }
    if (!(flight.lifetime.seconds > 0.0 && flight.lifetime.seconds <= 5.0)) {
        return fail(ErrorCode::OutOfRange, name + "must last more than 0 and at most 5 s.");
    }
    return flight.bounce ? checkBounce(*flight.bounce, flight.strike, name) : ok();
}

}  // namespace

Result<void> checkScene(const Scene& scene) {
    BOOST_OUTCOME_TRY(checkCamera(scene.camera));
    BOOST_OUTCOME_TRY(checkTiming(scene.timing));
    if (!(scene.shutter.exposure.seconds >= 0.0 && scene.shutter.readout.seconds >= 0.0)) {
        return fail(ErrorCode::OutOfRange,
                    "Exposure and readout of the scene must not be negative.");
    }
    if (!(scene.sensor.fullWellElectrons > 0.0 && scene.sensor.readNoiseElectrons >= 0.0 &&
          scene.sensor.lensBlurPx >= 0.0 && scene.sensor.brightness > 0.0 &&
          scene.shakePx >= 0.0)) {
        return fail(ErrorCode::OutOfRange,
                    "Noise, lens blur and shake of the scene must not be negative, and the full "
                    "well and the brightness must be positive.");
    }
    if (scene.samplesPerPixel < 1 || scene.samplesPerPixel > kMostSamples) {
        return fail(ErrorCode::OutOfRange, "Samples per pixel must lie between 1 and 256.");
    }
    if (scene.sound && scene.sound->samplesPerSecond < 8000) {
        return fail(ErrorCode::OutOfRange, "Sound needs at least 8000 samples a second.");
    }
    for (std::size_t i = 0; i < scene.flights.size(); ++i) {
        BOOST_OUTCOME_TRY(checkFlight(scene.flights[i], i));
    }
    return ok();
}

}  // namespace core::synthesis
