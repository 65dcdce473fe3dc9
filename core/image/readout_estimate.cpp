#include "core/image/readout_estimate.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace core::image {

namespace {

constexpr double kContradiction = 2.0;  // sigmas outside the prior
constexpr int kSteps = 2000;            // of the prior's range

/// Density of the readout time in the middles of kSteps equal steps from 0 to 1, not normalised.
std::vector<double> densityOf(const std::optional<ReadoutEstimate>& estimate, double longest) {
    std::vector<double> density(kSteps, 1.0);
    if (!estimate) {
        return density;
    }
    const double value = estimate->value.seconds;
    const double nearest = std::clamp(value, 0.0, longest);
    const double sigma =
        std::max(estimate->sigma().seconds, std::abs(value - nearest) / kContradiction);
    const double least = (nearest - value) / sigma;
    for (int i = 0; i < kSteps; ++i) {
        const double z = (longest * (i + 0.5) / kSteps - value) / sigma;
        density[static_cast<std::size_t>(i)] = std::exp(-0.5 * (z * z - least * least));
    }
    return density;
}

/// Where the sum of the density reaches a share of the whole, as a share of the range.
double quantileOf(const std::vector<double>& density, double whole, double share) {
    double sum = 0.0;
    for (std::size_t i = 0; i < density.size(); ++i) {
        const double next = sum + density[i];
        if (next >= share * whole) {
            return (static_cast<double>(i) + (share * whole - sum) / density[i]) / kSteps;
        }
        sum = next;
    }
    return 1.0;
}

/// The shortest interval that holds 95 % (JCGM 101:2008, 5.3.4); of equally short ones that with
/// equal tails. As shares of the range. A camera that reads all rows at once stays inside: its
/// readout of 0 lies at the edge of the prior, where equal tails would leave it out.
Interval<double> shortestInterval(const std::vector<double>& density, double whole) {
    constexpr double kOutside = 0.05;
    constexpr double kNoticeable = 1e-3;  // of the length: rounding of the steps
    constexpr int kTails = 50;
    Interval<double> shortest{quantileOf(density, whole, 0.5 * kOutside),
                              quantileOf(density, whole, 1.0 - 0.5 * kOutside)};
    for (int i = 0; i <= kTails; ++i) {
        const double below = kOutside * i / kTails;
        const Interval<double> other{quantileOf(density, whole, below),
                                     quantileOf(density, whole, below + 1.0 - kOutside)};
        if (other.high - other.low < (1.0 - kNoticeable) * (shortest.high - shortest.low)) {
            shortest = other;
        }
    }
    return shortest;
}

double weightedMedian(std::vector<std::pair<double, double>> valuesAndWeights) {
    std::sort(valuesAndWeights.begin(), valuesAndWeights.end());
    double whole = 0.0;
    for (const auto& [value, weight] : valuesAndWeights) {
        whole += weight;
    }
    double sum = 0.0;
    for (const auto& [value, weight] : valuesAndWeights) {
        sum += weight;
        if (sum >= 0.5 * whole) {
            return value;
        }
    }
    return valuesAndWeights.back().first;
}

}  // namespace

Seconds ReadoutEstimate::sigma() const noexcept {
    return {std::hypot(ownSigma.seconds, commonSigma.seconds)};
}

Seconds longestReadout(Seconds frameInterval) noexcept {
    return std::min(frameInterval, kLongestReadout);
}

ReadoutKnowledge readoutKnowledge(const std::optional<ReadoutEstimate>& estimate, Seconds longest) {
    const std::vector<double> density = densityOf(estimate, longest.seconds);
    double whole = 0.0;
    double first = 0.0;
    double second = 0.0;
    for (int i = 0; i < kSteps; ++i) {
        const double at = (i + 0.5) / kSteps;
        const double weight = density[static_cast<std::size_t>(i)];
        whole += weight;
        first += weight * at;
        second += weight * at * at;
    }
    const double mean = first / whole;
    const double variance = std::max(0.0, second / whole - mean * mean);
    const double unit = longest.seconds;
    const Interval<double> likely = shortestInterval(density, whole);
    return {
        {unit * mean}, {unit * std::sqrt(variance)}, {{unit * likely.low}, {unit * likely.high}}};
}

std::optional<ReadoutEstimate> pooledReadout(std::span<const ReadoutEstimate> estimates) {
    if (estimates.empty()) {
        return std::nullopt;
    }
    constexpr double kCommonAsOwn = 0.1;  // keeps a flight of a poor outline from ruling the pool
    constexpr double kHuberSigmas = 3.0;
    std::vector<std::pair<double, double>> weighted;
    for (const ReadoutEstimate& one : estimates) {
        const double common = one.commonSigma.seconds;
        const double variance =
            one.ownSigma.seconds * one.ownSigma.seconds + kCommonAsOwn * common * common;
        weighted.emplace_back(one.value.seconds, 1.0 / variance);
    }
    const double middle = weightedMedian(weighted);
    double whole = 0.0;
    double sum = 0.0;
    double common = 0.0;
    for (std::size_t i = 0; i < estimates.size(); ++i) {
        auto& [value, weight] = weighted[i];
        const double distance = std::abs(value - middle) / estimates[i].sigma().seconds;
        weight *= distance > kHuberSigmas ? kHuberSigmas / distance : 1.0;
        whole += weight;
        sum += weight * value;
        common += weight * estimates[i].commonSigma.seconds;
    }
    const double mean = sum / whole;
    double chi2 = 0.0;
    for (const auto& [value, weight] : weighted) {
        chi2 += weight * (value - mean) * (value - mean);
    }
    const auto freedom = static_cast<double>(estimates.size()) - 1.0;
    const double birge = freedom > 0.0 ? std::sqrt(std::max(1.0, chi2 / freedom)) : 1.0;
    return ReadoutEstimate{{mean}, {birge / std::sqrt(whole)}, {common / whole}};
}

}  // namespace core::image
