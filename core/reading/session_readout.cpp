#include "core/reading/session_readout.h"

#include <cmath>
#include <vector>

#include "core/reading/inputs_json.h"

namespace core::reading {
namespace {

constexpr double kSameRate = 0.02;  // relative; frame rates of one mode wander a little

/// Frames per second of capture; zero while the clock is not settled.
double captureRateOf(const project::Clip& clip) {
    if (clip.clock && clip.clock->counted) {
        return clip.clock->counted->fps.toDouble();
    }
    return clip.clock && clip.playbackRate
               ? clip.playbackRate->fps.toDouble() * clip.clock->stretch.toDouble()
               : 0.0;
}

bool isSameMode(const project::Clip& a, const project::Clip& b) {
    const double rate = captureRateOf(a);
    return a.session == b.session && a.width == b.width && a.height == b.height &&
           a.rotationDegrees == b.rotationDegrees && rate > 0.0 &&
           std::abs(captureRateOf(b) - rate) <= kSameRate * rate;
}

}  // namespace

std::optional<image::ReadoutEstimate> sessionReadout(const project::Snapshot& snapshot,
                                                     const project::Clip& clip) {
    std::vector<image::ReadoutEstimate> estimates;
    std::size_t looked = 0;
    for (auto at = snapshot.readings.end();
         at != snapshot.readings.begin() && looked < kMostPooled;) {
        const project::Reading& reading = *--at;
        if (reading.method != project::ReadingMethod::RotationFit) {
            continue;
        }
        const auto* shot = snapshot.shots.find(reading.shot);
        const auto* filmed = shot != nullptr ? snapshot.clips.find(shot->clip) : nullptr;
        if (filmed == nullptr || !isSameMode(*filmed, clip)) {
            continue;
        }
        ++looked;
        const auto kept = keptFitFromJson(reading.inputsJson);
        if (kept && kept.value().readoutSeen) {
            estimates.push_back(*kept.value().readoutSeen);
        }
    }
    return image::pooledReadout(estimates);
}

}  // namespace core::reading
