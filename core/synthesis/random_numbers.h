#pragma once

#include <cstdint>

namespace core::synthesis {

/// A small repeatable generator (SplitMix64: Steele, Lea and Flood, OOPSLA 2014, figure 17), so
/// that a seed gives the same film with every standard library. Confined.
class RandomNumbers {
public:
    explicit RandomNumbers(std::uint64_t seed) noexcept : m_state{seed} {}

    std::uint64_t next() noexcept;
    /// Uniform in [0, 1).
    double uniform() noexcept;
    double uniform(double low, double high) noexcept { return low + (high - low) * uniform(); }
    /// Uniform in its logarithm; both ends positive.
    double logUniform(double low, double high) noexcept;
    /// Mean 0, standard deviation 1 (Box and Muller 1958).
    double normal() noexcept;
    /// Uniform in 0 … count - 1.
    int below(int count) noexcept;

private:
    std::uint64_t m_state;
};

/// A well mixed number for a pair, for textures and places that need no sequence.
[[nodiscard]] std::uint64_t mixed(std::uint64_t a, std::uint64_t b) noexcept;
/// The same as a float in [0, 1).
[[nodiscard]] float mixedUnit(std::uint64_t a, std::uint64_t b) noexcept;

}  // namespace core::synthesis
