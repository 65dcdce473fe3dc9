#pragma once

#include <cstdint>
#include <utility>
#include <vector>

namespace core::plan {

/// Random numbers that are the same on every machine and with every compiler: SplitMix64 (Steele,
/// Lea and Flood, "Fast splittable pseudorandom number generators", OOPSLA 2014), 64 bits:
///   state += 0x9E3779B97F4A7C15; z = state; z = (z ^ z >> 30) · 0xBF58476D1CE4E5B9;
///   z = (z ^ z >> 27) · 0x94D049BB133111EB; result z ^ z >> 31      (all modulo 2^64)
/// Confined.
class RandomOrder {
public:
    explicit RandomOrder(std::uint64_t seed) noexcept : m_state{seed} {}

    [[nodiscard]] std::uint64_t next() noexcept;
    /// A whole number from 0 to bound - 1, all equally probable: numbers below 2^64 mod bound are
    /// drawn again, then the remainder is taken. bound > 0.
    [[nodiscard]] std::uint64_t below(std::uint64_t bound) noexcept;

    /// Every order of the items equally probable, up to the 2^64 seeds: for i from the last
    /// position down to 1, the item at i is exchanged with the one at below(i + 1) (Durstenfeld,
    /// Algorithm 235, Comm. ACM 7 (1964) 420; Knuth, TAOCP 2, 3.4.2, algorithm P).
    template <class Item>
    void shuffle(std::vector<Item>& items) noexcept {
        for (std::size_t i = items.size(); i-- > 1;) {
            std::swap(items[i], items[static_cast<std::size_t>(below(i + 1))]);
        }
    }

private:
    std::uint64_t m_state;
};

}  // namespace core::plan
