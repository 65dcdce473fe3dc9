#include "core/media/file/playback_rate.h"

#include <algorithm>
#include <array>
#include <cstdlib>
#include <span>
#include <vector>

namespace core::media {
namespace {

using timebase::Rational;

// Rates that cameras and editors write; each also divided by 1.001.
constexpr std::array<std::int64_t, 17> kRatesInUse{24,  25,  30,  48,  50,  60,  90,  96,  100,
                                                   120, 180, 200, 240, 300, 480, 960, 1000};

struct RegularSteps {
    std::int64_t ticks{};
    std::int64_t steps{};
    bool areEqual{true};
};

bool isRegular(std::int64_t step, std::int64_t median) {
    return std::abs(step - median) <= std::max<std::int64_t>(1, median / 4);
}

std::optional<std::int64_t> medianStep(const std::vector<std::int64_t>& ticks) {
    std::vector<std::int64_t> steps;
    for (std::size_t i = 1; i < ticks.size(); ++i) {
        if (ticks[i] > ticks[i - 1]) {
            steps.push_back(ticksBetween(ticks[i - 1], ticks[i]));
        }
    }
    if (steps.empty()) {
        return std::nullopt;
    }
    const auto middle = steps.begin() + static_cast<std::ptrdiff_t>((steps.size() - 1) / 2);
    std::nth_element(steps.begin(), middle, steps.end());
    return *middle;
}

RegularSteps regularSteps(const std::vector<std::int64_t>& ticks, std::int64_t median) {
    RegularSteps regular;
    std::optional<std::int64_t> first;
    for (std::size_t i = 1; i < ticks.size(); ++i) {
        const std::int64_t step = ticksBetween(ticks[i - 1], ticks[i]);
        if (step > 0 && isRegular(step, median)) {
            regular.ticks += step;
            ++regular.steps;
            regular.areEqual &= step == first.value_or(step);
            first = step;
        }
    }
    return regular;
}

/// True when the stamps of each unbroken stretch of regular steps lie on a grid of the given rate
/// to within rounding: the residuals of a stretch span no more than one tick.
bool liesOnGrid(const timebase::FrameStamps& stamps, std::int64_t median, const Rational& fps) {
    const long double ticksPerFrame =
        1.0L / (static_cast<long double>(fps.num()) / static_cast<long double>(fps.den()) *
                static_cast<long double>(stamps.timeBase.num()) /
                static_cast<long double>(stamps.timeBase.den()));
    constexpr long double kSlackTicks = 1.0L + 1e-6L;  // the last part for the arithmetic here
    const auto& ticks = stamps.ticks;
    long double low = 0.0L;
    long double high = 0.0L;
    std::size_t begin = 0;
    for (std::size_t i = 1; i < ticks.size(); ++i) {
        const std::int64_t step = ticksBetween(ticks[i - 1], ticks[i]);
        if (step <= 0 || !isRegular(step, median)) {
            begin = i;
            low = high = 0.0L;
            continue;
        }
        const long double residual = static_cast<long double>(ticks[i] - ticks[begin]) -
                                     static_cast<long double>(i - begin) * ticksPerFrame;
        low = std::min(low, residual);
        high = std::max(high, residual);
        if (high - low > kSlackTicks) {
            return false;
        }
    }
    return true;
}

std::optional<Rational> rateInUse(const timebase::FrameStamps& stamps, std::int64_t median,
                                  const Rational& mean) {
    std::vector<Rational> candidates{mean};
    for (const std::int64_t whole : kRatesInUse) {
        candidates.emplace_back(whole);
    }
    for (const std::int64_t whole : kRatesInUse) {
        candidates.emplace_back(whole * 1000, 1001);
    }
    const std::span inUse{candidates.begin() + 1, candidates.end()};
    if (std::find(inUse.begin(), inUse.end(), mean) != inUse.end()) {
        return mean;
    }
    for (const Rational& candidate : inUse) {
        if (liesOnGrid(stamps, median, candidate)) {
            return candidate;
        }
    }
    const auto whole = static_cast<std::int64_t>(mean.toDouble() + 0.5);
    if (whole >= 1 && liesOnGrid(stamps, median, Rational{whole})) {
        return Rational{whole};
    }
    return std::nullopt;
}

}  // namespace

std::optional<StampSteps> analyseSteps(const timebase::FrameStamps& stamps) {
    const auto median = medianStep(stamps.ticks);
    if (!median) {
        return std::nullopt;
    }
    const RegularSteps regular = regularSteps(stamps.ticks, *median);
    const Rational mean = Rational{regular.steps} / (Rational{regular.ticks} * stamps.timeBase);
    StampSteps steps{.medianTicks = *median, .rate = {mean}, .isSteady = regular.areEqual};
    if (const auto exact = rateInUse(stamps, *median, mean)) {
        steps.rate = {*exact};
        steps.isSteady = true;
    }
    return steps;
}

}  // namespace core::media
