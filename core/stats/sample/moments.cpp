#include "core/stats/sample/moments.h"

namespace core::stats {

Moments momentsOf(std::span<const double> values) noexcept {
    const auto count = static_cast<long double>(values.size());
    long double sum = 0.0L;
    for (const double value : values) {
        sum += static_cast<long double>(value);
    }
    const long double firstMean = sum / count;
    long double deviations = 0.0L;
    long double squares = 0.0L;
    for (const double value : values) {
        const long double deviation = static_cast<long double>(value) - firstMean;
        deviations += deviation;
        squares += deviation * deviation;
    }
    return {.count = values.size(),
            .mean = firstMean + deviations / count,
            .sumSquares = squares - deviations * deviations / count};
}

Moments combine(const Moments& a, const Moments& b) noexcept {
    if (a.count == 0 || b.count == 0) {
        return a.count == 0 ? b : a;
    }
    const auto countA = static_cast<long double>(a.count);
    const auto countB = static_cast<long double>(b.count);
    const long double step = b.mean - a.mean;
    return {.count = a.count + b.count,
            .mean = a.mean + step * countB / (countA + countB),
            .sumSquares =
                a.sumSquares + b.sumSquares + step * step * countA * countB / (countA + countB)};
}

}  // namespace core::stats
