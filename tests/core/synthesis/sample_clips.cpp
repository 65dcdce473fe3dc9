#include "tests/core/synthesis/sample_clips.h"

namespace core::synthesis {
namespace {

constexpr std::uint64_t kSampleSeed = 77;

/// A ball that crosses the picture from left to right; `crossingS` seconds from border to border.
Scene crossing(timebase::Rational captureRate, double spinRpm, double crossingS) {
    Scene scene;
    scene.seed = kSampleSeed;
    scene.camera = {.widthPx = 848, .heightPx = 480, .horizontalFieldOfViewDeg = 60.0, .shift = {}};
    scene.timing.captureRate = captureRate;
    scene.shutter.exposure = {1.0 / 1500.0};
    constexpr double kDistanceM = 1.3;
    constexpr double kWayM = 1.6;
    constexpr double kBeforeS = 0.06;
    scene.timing.instants =
        static_cast<std::int64_t>((crossingS + 2.0 * kBeforeS) * captureRate.toDouble());
    Flight flight;
    flight.strike = {kBeforeS};
    flight.positionM = {-0.5 * kWayM, 0.02, kDistanceM};
    flight.velocityMPerS = {kWayM / crossingS, -0.5 * 9.8 * crossingS, 0.3};
    const Vector3 axis = unitOf({0.08, -0.12, 1.0});
    flight.spinRadPerS = scaled(axis, toRadiansPerSecond(Rpm{spinRpm}).radiansPerSecond);
    flight.attitude = turned({}, {0.3, 0.2, 0.9}, {1.0});
    scene.flights.push_back(flight);
    return scene;
}

}  // namespace

Result<void> writeSamples(const std::filesystem::path& folder) {
    FilmEncoding encoding;
    encoding.constantQuality = 22;

    Scene plain = crossing(timebase::Rational{120}, 1500.0, 0.15);
    plain.background = BackgroundKind::Brick;
    BOOST_OUTCOME_TRY(makeFootage(plain, encoding, folder / "plain_120fps.mp4"));

    Scene dropped = crossing(timebase::Rational{120}, 1320.0, 0.17);
    dropped.background = BackgroundKind::Foliage;
    dropped.timing.dropped = {12, 19};
    dropped.timing.jitter = 0.04;
    BOOST_OUTCOME_TRY(makeFootage(dropped, encoding, folder / "dropped_frames_120fps.mp4"));

    Scene slow = crossing(timebase::Rational{240}, 2640.0, 0.10);
    slow.background = BackgroundKind::Fence;
    slow.flights.front().ball.marking = Marking::BandWithDot;
    slow.flights.front().ball.base = {0.82F, 0.88F, 0.30F};
    slow.flights.front().ball.mark = {0.06F, 0.06F, 0.10F};
    slow.timing.stretch = timebase::Rational{8};
    encoding.tagCaptureRate = true;
    BOOST_OUTCOME_TRY(makeFootage(slow, encoding, folder / "slow_240in30_tagged.mp4"));
    return ok();
}

}  // namespace core::synthesis
