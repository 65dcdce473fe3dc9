#include "core/synthesis/random_numbers.h"

#include <cmath>

#include "core/base/units.h"

namespace core::synthesis {
namespace {

constexpr std::uint64_t kGoldenStep = 0x9E3779B97F4A7C15ULL;
constexpr double kPer53Bits = 1.0 / 9007199254740992.0;

std::uint64_t finished(std::uint64_t z) noexcept {
    z = (z ^ (z >> 30U)) * 0xBF58476D1CE4E5B9ULL;
    z = (z ^ (z >> 27U)) * 0x94D049BB133111EBULL;
    return z ^ (z >> 31U);
}

}  // namespace

std::uint64_t RandomNumbers::next() noexcept {
    m_state += kGoldenStep;
    return finished(m_state);
}

double RandomNumbers::uniform() noexcept {
    return static_cast<double>(next() >> 11U) * kPer53Bits;
}

double RandomNumbers::logUniform(double low, double high) noexcept {
    return std::exp(uniform(std::log(low), std::log(high)));
}

double RandomNumbers::normal() noexcept {
    const double radius = std::sqrt(-2.0 * std::log(1.0 - uniform()));
    return radius * std::cos(2.0 * kPi * uniform());
}

int RandomNumbers::below(int count) noexcept {
    return static_cast<int>(uniform() * count);
}

std::uint64_t mixed(std::uint64_t a, std::uint64_t b) noexcept {
    return finished(finished(a + kGoldenStep) ^ (b * kGoldenStep + 1U));
}

float mixedUnit(std::uint64_t a, std::uint64_t b) noexcept {
    return static_cast<float>(mixed(a, b) >> 40U) * 0x1p-24F;
}

}  // namespace core::synthesis
