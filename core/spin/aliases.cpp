#include "core/spin/aliases.h"

#include <algorithm>
#include <cmath>

#include "core/base/expects.h"

namespace core::spin {
namespace {

// Look-alike period of the picture: F/m in turns per minute.
double foldingRpm(timebase::CaptureRate capture, int symmetryOrder) {
    CORE_EXPECTS(symmetryOrder >= 1);
    return 60.0 * capture.fps.toDouble() / symmetryOrder;
}

// Turns of the marking in one frame interval that differ by less are the same number.
constexpr double kSameCycles = 1e-12;

}  // namespace

std::vector<LookAlike> aliasCandidates(Rpm rate, timebase::CaptureRate capture, int symmetryOrder,
                                       int maxMultiple) {
    const double folding = foldingRpm(capture, symmetryOrder);
    std::vector<LookAlike> found;
    for (int j = 1; j <= maxMultiple; ++j) {
        for (const double other : {rate.rpm - j * folding, rate.rpm + j * folding}) {
            if (std::abs(other) > kSameCycles * folding) {
                found.push_back({.kind = LookAlike::Kind::Alias,
                                 .rate = {std::abs(other)},
                                 .multiple = j,
                                 .turnsOtherWay = (other < 0.0) != (rate.rpm < 0.0)});
            }
        }
    }
    std::sort(found.begin(), found.end(),
              [](const auto& a, const auto& b) { return a.rate < b.rate; });
    return found;
}

std::vector<LookAlike> symmetryAlternatives(Rpm rate, int symmetryOrder) {
    CORE_EXPECTS(symmetryOrder >= 1);
    if (symmetryOrder == 1) {
        return {};
    }
    const auto alternative = [&](double rpm) {
        return LookAlike{.kind = LookAlike::Kind::Symmetry,
                         .rate = {rpm},
                         .multiple = symmetryOrder,
                         .turnsOtherWay = false};
    };
    return {alternative(rate.rpm / symmetryOrder), alternative(rate.rpm * symmetryOrder)};
}

}  // namespace core::spin
