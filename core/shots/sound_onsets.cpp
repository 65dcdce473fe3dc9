#include "core/shots/sound_onsets.h"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace core::shots {

namespace {

constexpr std::size_t kRise = 3;     // ms within which a strike is at its peak
constexpr std::size_t kBefore = 30;  // ms that tell the level before
constexpr std::size_t kApart = 60;   // ms within which only the most prominent counts
constexpr double kMinProminence = 4.0;
constexpr double kMinOverMedian = 2.5;  // of the whole clip: keeps silence from making onsets
constexpr double kQuietest = 1e-4;      // full scale 1
constexpr double kBeginsAt = 0.25;      // of the rise
constexpr std::size_t kTail = 8;        // ms: one swing of a boom of 60 Hz, so that it is no rise
constexpr double kMinRise = 1.6;        // over the loudest of the tail: noise of 1 ms stays below

double medianLevel(std::vector<float> levels) {
    const auto middle = levels.begin() + static_cast<std::ptrdiff_t>(levels.size() / 2);
    std::nth_element(levels.begin(), middle, levels.end());
    return static_cast<double>(*middle);
}

}  // namespace

std::vector<SoundOnset> findOnsets(const media::SoundEnvelope& sound) {
    const auto& level = sound.level;
    std::vector<SoundOnset> onsets;
    if (level.size() < kBefore + kRise) {
        return onsets;
    }
    const double usual = std::max(medianLevel(level), kQuietest);
    std::vector<std::pair<std::size_t, double>> candidates;  // step, prominence
    double sum = 0.0;
    for (std::size_t k = 0; k < kBefore; ++k) {
        sum += static_cast<double>(level[k]);
    }
    for (std::size_t k = kBefore; k + kRise <= level.size(); ++k) {
        const double before = sum / kBefore;
        const double peak = static_cast<double>(
            *std::max_element(level.begin() + static_cast<std::ptrdiff_t>(k),
                              level.begin() + static_cast<std::ptrdiff_t>(k + kRise)));
        const double prominence = peak / std::max(before, usual);
        const bool begins = static_cast<double>(level[k]) >= before + kBeginsAt * (peak - before);
        if (begins && prominence >= kMinProminence && peak >= kMinOverMedian * usual) {
            candidates.emplace_back(k, prominence);
        }
        sum += static_cast<double>(level[k]) - static_cast<double>(level[k - kBefore]);
    }
    for (std::size_t i = 0; i < candidates.size(); ++i) {
        const auto [step, prominence] = candidates[i];
        const SoundOnset onset{{sound.start.seconds + 1e-3 * static_cast<double>(step)},
                               prominence};
        const bool isNear =
            !onsets.empty() && onset.time.seconds - onsets.back().time.seconds < 1e-3 * kApart;
        if (!isNear) {
            onsets.push_back(onset);
        } else if (prominence > 2.0 * onsets.back().prominence) {
            onsets.back() = onset;  // the louder sound is the strike, not what shortly led to it
        }
    }
    return onsets;
}

std::vector<SoundRise> findRises(const media::SoundEnvelope& sound) {
    const auto& level = sound.sharpness.empty() ? sound.level : sound.sharpness;
    std::vector<SoundRise> rises;
    if (level.size() < kTail + kRise) {
        return rises;
    }
    const double usual = std::max(medianLevel(level), kQuietest);
    const auto loudest = [&level](std::size_t from, std::size_t to) {
        const auto begin = level.begin();
        return static_cast<double>(*std::max_element(begin + static_cast<std::ptrdiff_t>(from),
                                                     begin + static_cast<std::ptrdiff_t>(to)));
    };
    for (std::size_t k = kTail; k + kRise <= level.size(); ++k) {
        const double before = std::max(loudest(k - kTail, k), usual);
        const double peak = loudest(k, k + kRise);
        const bool begins = static_cast<double>(level[k]) >= before + kBeginsAt * (peak - before);
        if (begins && peak >= kMinRise * before) {
            // What is added: independent sounds add by their squares.
            rises.push_back({{sound.start.seconds + 1e-3 * static_cast<double>(k)},
                             std::sqrt(peak * peak - before * before) / usual});
            k += kRise - 1;
        }
    }
    return rises;
}

}  // namespace core::shots
