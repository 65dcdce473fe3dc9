#include "core/timebase/free_fall.h"

#include <algorithm>
#include <cmath>

namespace core::timebase {

FallVerdict judgeFall(double downwardMPerS2, double sigmaMPerS2) noexcept {
    constexpr double kFitting = 2.0;
    constexpr double kSurelyWrong = 3.0;
    constexpr double kMaxRelativeSigma = 0.3;
    constexpr double kSureSigmas = 3.0;
    if (!(downwardMPerS2 > 0.0) || !(sigmaMPerS2 <= kMaxRelativeSigma * downwardMPerS2)) {
        return FallVerdict::CannotTell;
    }
    const double ratio = kStandardGravity / downwardMPerS2;
    const double away = std::max(ratio, 1.0 / ratio);
    if (away <= kFitting) {
        return FallVerdict::Fits;
    }
    const double nearestFitting = kStandardGravity * (ratio < 1.0 ? kFitting : 1.0 / kFitting);
    const bool isSure = std::abs(downwardMPerS2 - nearestFitting) > kSureSigmas * sigmaMPerS2;
    return away >= kSurelyWrong && isSure ? FallVerdict::DoesNotFit : FallVerdict::CannotTell;
}

}  // namespace core::timebase
