#pragma once

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numeric>
#include <random>
#include <vector>

#include "core/base/units.h"

namespace tests {

/// What a million values of an output quantity say of it.
struct Drawn {
    double mean{};
    double standardUncertainty{};
    core::Interval<double> symmetric{};  ///< 95 %, as much left out on both sides
    core::Interval<double> shortest{};   ///< 95 %, none is shorter
};

/// Propagates distributions by JCGM 101:2008, 7.2 to 7.7, with 10^6 trials of a function of a
/// std::mt19937_64.
template <class Draw>
Drawn propagate(Draw draw, std::uint64_t seed) {
    constexpr std::size_t kTrials = 1'000'000;
    constexpr std::size_t kInside = 950'000;
    std::mt19937_64 random{seed};
    std::vector<double> values(kTrials);
    std::generate(values.begin(), values.end(), [&] { return draw(random); });
    std::sort(values.begin(), values.end());
    const double mean = std::accumulate(values.begin(), values.end(), 0.0) / kTrials;
    const double squares = std::accumulate(
        values.begin(), values.end(), 0.0,
        [mean](double sum, double value) { return sum + (value - mean) * (value - mean); });
    std::size_t best = 0;
    for (std::size_t low = 1; low + kInside < kTrials; ++low) {
        if (values[low + kInside] - values[low] < values[best + kInside] - values[best]) {
            best = low;
        }
    }
    constexpr std::size_t kLow = (kTrials - kInside) / 2 - 1;
    return {mean,
            std::sqrt(squares / (kTrials - 1)),
            {values[kLow], values[kLow + kInside]},
            {values[best], values[best + kInside]}};
}

}  // namespace tests
