#include "core/synthesis/capture_schedule.h"

#include <algorithm>
#include <cmath>

#include "core/synthesis/random_numbers.h"

namespace core::synthesis {
namespace {

constexpr std::int64_t kCoarsestTicksPerSecond = 12000;

bool contains(const std::vector<std::int64_t>& list, std::int64_t value) {
    return std::find(list.begin(), list.end(), value) != list.end();
}

}  // namespace

CaptureSchedule scheduleOf(const Scene& scene) {
    const CaptureTiming& timing = scene.timing;
    const timebase::Rational playback = timing.captureRate / timing.stretch;
    const std::int64_t finer =
        std::max<std::int64_t>(1, (kCoarsestTicksPerSecond + playback.num() - 1) / playback.num());
    const std::int64_t ticksPerFrame = playback.den() * finer;

    CaptureSchedule schedule;
    schedule.timeBase = timebase::Rational{1, playback.num() * finer};
    const double captureSecondsPerTick = (schedule.timeBase / timing.stretch).toDouble();
    RandomNumbers random{mixed(scene.seed, 0x717713)};
    std::int64_t shown = 0;
    std::int64_t shownTicks = 0;
    for (std::int64_t instant = 0; instant < timing.instants; ++instant) {
        // Less than half an interval, so that stamps of neighbours keep their order.
        const double late = instant == 0 ? 0.0 : timing.jitter * random.normal();
        const double bounded = std::clamp(late, -0.45, 0.45);
        const std::int64_t ticks =
            instant * ticksPerFrame + std::llround(bounded * static_cast<double>(ticksPerFrame));
        if (contains(timing.dropped, instant)) {
            continue;
        }
        if (!contains(timing.frozen, instant)) {
            shown = instant;
            shownTicks = ticks;
        }
        if (!schedule.frames.empty()) {
            schedule.frames.back().durationTicks = ticks - schedule.frames.back().ticks;
        }
        schedule.frames.push_back(
            {.ticks = ticks,
             .durationTicks = ticksPerFrame,
             .stampedInstant = instant,
             .shownInstant = shown,
             .stampedTime = {static_cast<double>(ticks) * captureSecondsPerTick},
             .shownTime = {static_cast<double>(shownTicks) * captureSecondsPerTick}});
    }
    return schedule;
}

PicturePoint swayAt(const Scene& scene, Seconds captureTime) {
    if (scene.shakePx == 0.0) {
        return {};
    }
    RandomNumbers random{mixed(scene.seed, 0x5A4E)};
    PicturePoint sway;
    constexpr int kWaves = 3;
    for (int i = 0; i < kWaves; ++i) {
        for (double* part : {&sway.x, &sway.y}) {
            const double frequencyHz = random.logUniform(0.7, 5.0);
            const double phase = random.uniform(0.0, 2.0 * kPi);
            *part += std::sin(2.0 * kPi * frequencyHz * captureTime.seconds + phase);
        }
    }
    // Three waves of amplitude 1 have a variance of 3/2.
    const double amplitudePx = scene.shakePx * std::sqrt(2.0 / kWaves);
    return {sway.x * amplitudePx, sway.y * amplitudePx};
}

}  // namespace core::synthesis
