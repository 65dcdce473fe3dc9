#include "core/synthesis/strike_sound.h"

#include <algorithm>
#include <cmath>

#include "core/synthesis/random_numbers.h"

namespace core::synthesis {
namespace {

struct Burst {
    double toneHz;
    double decayS;
    double level;
    double noiseShare;
};

Burst burstOf(SoundKind kind) {
    switch (kind) {
        case SoundKind::Strike:
            return {.toneHz = 1450.0, .decayS = 0.006, .level = 0.8, .noiseShare = 0.6};
        case SoundKind::DoorSlam:
            return {.toneHz = 95.0, .decayS = 0.080, .level = 0.6, .noiseShare = 0.3};
        case SoundKind::Bounce:
            return {.toneHz = 320.0, .decayS = 0.020, .level = 0.35, .noiseShare = 0.2};
    }
    return {};
}

void addBurst(std::vector<float>& samples, const HeardSound& sound, int rate,
              RandomNumbers& random) {
    const Burst burst = burstOf(sound.kind);
    constexpr double kDecays = 8.0;
    const auto first = static_cast<std::ptrdiff_t>(std::ceil(sound.fileTime.seconds * rate));
    const auto count = static_cast<std::ptrdiff_t>(kDecays * burst.decayS * rate);
    for (std::ptrdiff_t i = 0; i < count; ++i) {
        const std::ptrdiff_t at = first + i;
        const double hiss = random.normal() * 0.4;
        if (at < 0 || at >= static_cast<std::ptrdiff_t>(samples.size())) {
            continue;
        }
        const double age = static_cast<double>(at) / rate - sound.fileTime.seconds;
        const double tone = std::sin(2.0 * kPi * burst.toneHz * age);
        const double shape = std::lerp(tone, hiss, burst.noiseShare);
        samples[static_cast<std::size_t>(at)] +=
            static_cast<float>(burst.level * std::exp(-age / burst.decayS) * shape);
    }
}

}  // namespace

std::vector<HeardSound> heardSoundsOf(const Scene& scene) {
    std::vector<HeardSound> heard;
    if (!scene.sound) {
        return heard;
    }
    const double stretch = scene.timing.stretch.toDouble();
    for (const Flight& flight : scene.flights) {
        if (!flight.isDecoy) {
            const double delay = lengthOf(flight.positionM) / kSoundMPerS;
            heard.push_back({SoundKind::Strike, {stretch * (flight.strike.seconds + delay)}});
        }
    }
    for (const SoundDecoy& decoy : scene.sound->decoys) {
        heard.push_back({decoy.kind, {stretch * decoy.time.seconds}});
    }
    std::stable_sort(heard.begin(), heard.end(), [](const HeardSound& a, const HeardSound& b) {
        return a.fileTime < b.fileTime;
    });
    return heard;
}

std::vector<float> soundOf(const Scene& scene, Seconds fileDuration) {
    if (!scene.sound) {
        return {};
    }
    const int rate = scene.sound->samplesPerSecond;
    std::vector<float> samples(static_cast<std::size_t>(std::ceil(fileDuration.seconds * rate)));
    RandomNumbers random{mixed(scene.seed, 0x50D)};
    for (float& sample : samples) {
        sample = static_cast<float>(scene.sound->noiseLevel * random.normal());
    }
    for (const HeardSound& sound : heardSoundsOf(scene)) {
        addBurst(samples, sound, rate, random);
    }
    for (float& sample : samples) {
        sample = std::clamp(sample, -1.0F, 1.0F);
    }
    return samples;
}

}  // namespace core::synthesis
