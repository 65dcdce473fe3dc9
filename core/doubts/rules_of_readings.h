#pragma once

#include <map>
#include <vector>

#include "core/doubts/doubt.h"
#include "core/doubts/doubt_material.h"

/// What speaks against a single kept reading. Private to core/doubts.
namespace core::doubts {

/// Two determinations of one shot on one clock, the clock's share taken off.
struct Compared {
    double difference{};  ///< second less first, rpm
    double sigma{};       ///< standard uncertainty of the difference
    bool doMeet{};        ///< their 95 % intervals have a value in common
    [[nodiscard]] double inSigmas() const noexcept;
};
/// u² = u1² + u2² (JCGM 100:2008, 5.1.2), both made independently.
[[nodiscard]] Compared compared(Measured<Rpm> first, Interval<Rpm> firstInterval,
                                Measured<Rpm> second, Interval<Rpm> secondInterval);

/// Turns by which the marks are off when the pictures are right: N (f_pictures/f_marks) - N, where
/// N is the number of turns to the last return. Absent unless it is a whole number of half turns
/// (not zero) within a sixth of a turn, and the uncertainty allows no other one.
[[nodiscard]] std::optional<double> turnsMiscounted(int turns, Rpm marked, Measured<Rpm> pictures);

[[nodiscard]] std::vector<Doubt> doubtsOfReading(const DoubtMaterial& material,
                                                 const project::ReadingsByShot& readings,
                                                 const project::Shot& shot);

}  // namespace core::doubts
