#include "core/stats/sample/robust_location.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <vector>

#include "core/base/words.h"
#include "core/stats/sample/checks.h"
#include "core/stats/sample/sample_summary.h"

namespace core::stats {
namespace {

constexpr double kHuberBend = 1.5;
constexpr double kDeviationScale = 1.4826;  // 1 / quantile(0.75) of the normal, as R's mad()

double pairMean(double a, double b) {
    return 0.5 * (a + b);
}

// Number of pair means (i <= j) not above limit; sorted upwards. O(n).
std::uint64_t pairMeansUpTo(std::span<const double> sorted, double limit) {
    std::uint64_t count = 0;
    std::size_t partners = sorted.size();
    for (std::size_t i = 0; i < sorted.size(); ++i) {
        while (partners > i && pairMean(sorted[i], sorted[partners - 1]) > limit) {
            --partners;
        }
        if (partners <= i) {
            break;
        }
        count += partners - i;
    }
    return count;
}

// The rank-th smallest pair mean, counted from one: the least number that enough means do not
// exceed, found by halving down to neighbouring doubles. No table of n^2 means is made.
double pairMeanAtRank(std::span<const double> sorted, std::uint64_t rank) {
    double low = sorted.front();
    double high = sorted.back();
    if (pairMeansUpTo(sorted, low) >= rank) {
        return low;
    }
    while (true) {
        const double middle = low + 0.5 * (high - low);
        if (middle <= low || middle >= high) {
            return high;
        }
        (pairMeansUpTo(sorted, middle) >= rank ? high : low) = middle;
    }
}

double hodgesLehmann(std::span<const double> sorted) {
    const auto size = static_cast<std::uint64_t>(sorted.size());
    const std::uint64_t pairs = size * (size + 1) / 2;
    const double upper = pairMeanAtRank(sorted, pairs / 2 + 1);
    return pairs % 2 == 1 ? upper : pairMean(pairMeanAtRank(sorted, pairs / 2), upper);
}

double huber(std::span<const double> values, double start, double scale) {
    constexpr int kMaxSteps = 1000;
    constexpr double kTolerance = 1e-14;  // of the scale
    if (scale <= 0.0) {
        return start;
    }
    double location = start;
    for (int step = 0; step < kMaxSteps; ++step) {
        double shift = 0.0;
        for (const double value : values) {
            shift += std::clamp(value - location, -kHuberBend * scale, kHuberBend * scale);
        }
        shift /= static_cast<double>(values.size());
        location += shift;
        if (std::abs(shift) <= kTolerance * scale) {
            break;
        }
    }
    return location;
}

}  // namespace

Result<RobustTwins> robustTwins(std::span<const double> values) {
    BOOST_OUTCOME_TRY(checkValues(values, toSay("Robust location"), 1));
    std::vector<double> sorted(values.begin(), values.end());
    std::sort(sorted.begin(), sorted.end());
    const double middle = median(values);
    std::vector<double> deviations;
    deviations.reserve(values.size());
    for (const double value : values) {
        deviations.push_back(std::abs(value - middle));
    }
    const double scale = kDeviationScale * median(deviations);
    return RobustTwins{.median = middle,
                       .hodgesLehmann = hodgesLehmann(sorted),
                       .huber = huber(values, middle, scale),
                       .scaledMedianDeviation = scale};
}

}  // namespace core::stats
