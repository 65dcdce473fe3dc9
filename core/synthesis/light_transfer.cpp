#include "core/synthesis/light_transfer.h"

#include <algorithm>
#include <cmath>

#include "core/synthesis/random_numbers.h"

namespace core::synthesis {
namespace {

constexpr double kCodesPerStep = 64.0;
constexpr int kFractionBits = 6;
constexpr double kNoiseSteps = 256.0;
constexpr int kNoiseBits = 8;
constexpr std::size_t kNoiseCount = 1U << 20U;
constexpr double kLargestDeviation = 6.0;

}  // namespace

double lightFromStored(double stored) noexcept {
    return stored <= 0.04045 ? stored / 12.92 : std::pow((stored + 0.055) / 1.055, 2.4);
}

double storedFromLight(double light) noexcept {
    return light <= 0.0031308 ? 12.92 * light : 1.055 * std::pow(light, 1.0 / 2.4) - 0.055;
}

LinearColour toLight(const Colour& colour) noexcept {
    const auto part = [](float stored) {
        return static_cast<float>(lightFromStored(static_cast<double>(stored)));
    };
    return {part(colour.red), part(colour.green), part(colour.blue)};
}

SensorModel::SensorModel(const Sensor& sensor, std::uint64_t seed)
    : m_seed{seed}, m_brightness{static_cast<float>(sensor.brightness)} {
    const auto steps = static_cast<std::size_t>(kLevelSteps);
    m_levels.reserve(steps + 1);
    for (std::size_t i = 0; i <= steps; ++i) {
        const double light = static_cast<double>(i) / static_cast<double>(kLevelSteps);
        const double read = sensor.readNoiseElectrons / sensor.fullWellElectrons;
        const double sigma = std::sqrt(light / sensor.fullWellElectrons + read * read);
        const double above = storedFromLight(std::min(light + sigma, 1.0));
        const double below = storedFromLight(std::max(light - sigma, 0.0));
        m_levels.push_back(
            {static_cast<std::int16_t>(std::lround(255.0 * kCodesPerStep * storedFromLight(light))),
             static_cast<std::int16_t>(std::lround(127.5 * kCodesPerStep * (above - below)))});
    }
    RandomNumbers random{mixed(seed, 0x5E2502)};
    m_noise.reserve(kNoiseCount);
    for (std::size_t i = 0; i < kNoiseCount; ++i) {
        const double deviation = std::clamp(random.normal(), -kLargestDeviation, kLargestDeviation);
        m_noise.push_back(static_cast<std::int16_t>(std::lround(kNoiseSteps * deviation)));
    }
}

void SensorModel::expose(const Level* levels, std::uint8_t* bytes, std::size_t count,
                         std::uint64_t picture, int row) const noexcept {
    const std::size_t span = m_noise.size() > count ? m_noise.size() - count : 1;
    const auto start = mixed(m_seed + picture, static_cast<std::uint64_t>(row)) % span;
    const std::int16_t* noise = m_noise.data() + start;
    constexpr int kHalf = 1 << (kFractionBits - 1);
    for (std::size_t i = 0; i < count; ++i) {
        const int deviation = (int{levels[i].sigma} * int{noise[i]}) >> kNoiseBits;
        const int code = (int{levels[i].code} + deviation + kHalf) >> kFractionBits;
        bytes[i] = static_cast<std::uint8_t>(std::clamp(code, 0, 255));
    }
}

}  // namespace core::synthesis
