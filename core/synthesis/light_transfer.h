#pragma once

#include <cstdint>
#include <vector>

#include "core/synthesis/scene.h"

namespace core::synthesis {

/// Light in a picture, linear, one float a channel, 1 is the brightest that can be stored.
struct LinearColour {
    float red{};
    float green{};
    float blue{};
};

/// The transfer function of sRGB, IEC 61966-2-1:1999, clause 5: from stored value to light and
/// back, both in [0, 1].
[[nodiscard]] double lightFromStored(double stored) noexcept;
[[nodiscard]] double storedFromLight(double light) noexcept;
[[nodiscard]] LinearColour toLight(const Colour& colour) noexcept;

/// Turns light into stored bytes with the noise of a sensor. Immutable but for the noise's place.
///
/// A light L is counted as L F electrons, F the full well: photon noise of variance L F and read
/// noise r^2 (European Machine Vision Association standard 1288, linear camera model). The noise is
/// carried through the transfer function by the difference of its values one standard deviation
/// above and below, and drawn from a table of normal numbers.
class SensorModel {
public:
    SensorModel(const Sensor& sensor, std::uint64_t seed);

    /// Stored value in 1/64 of a byte's step, and its noise in the same unit.
    struct Level {
        std::int16_t code;
        std::int16_t sigma;
    };
    [[nodiscard]] Level level(float light) const noexcept {
        const float falling = m_brightness * light;
        const float clipped = falling < 0.0F ? 0.0F : (falling > 1.0F ? 1.0F : falling);
        return m_levels[static_cast<std::size_t>(clipped * kLevelSteps + 0.5F)];
    }
    /// Adds noise to a row of values and writes bytes. Rows of one picture differ in `row`.
    void expose(const Level* levels, std::uint8_t* bytes, std::size_t count, std::uint64_t picture,
                int row) const noexcept;

private:
    static constexpr float kLevelSteps = 32767.0F;
    std::vector<Level> m_levels;
    std::vector<std::int16_t> m_noise;
    std::uint64_t m_seed;
    float m_brightness;
};

}  // namespace core::synthesis
