#include "core/plan/random_order.h"

#include "core/base/expects.h"

namespace core::plan {

std::uint64_t RandomOrder::next() noexcept {
    m_state += 0x9E3779B97F4A7C15U;
    std::uint64_t z = m_state;
    z = (z ^ (z >> 30U)) * 0xBF58476D1CE4E5B9U;
    z = (z ^ (z >> 27U)) * 0x94D049BB133111EBU;
    return z ^ (z >> 31U);
}

std::uint64_t RandomOrder::below(std::uint64_t bound) noexcept {
    CORE_EXPECTS(bound > 0);
    const std::uint64_t drawnAgain = (std::uint64_t{0} - bound) % bound;  // 2^64 mod bound
    std::uint64_t drawn = next();
    while (drawn < drawnAgain) {
        drawn = next();
    }
    return drawn % bound;
}

}  // namespace core::plan
