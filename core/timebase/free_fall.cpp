#include "core/timebase/free_fall.h"

#include <algorithm>

namespace core::timebase {

FallVerdict judgeFall(double downwardMPerS2, double sigmaMPerS2) noexcept {
    constexpr double kFitting = 2.0;
    constexpr double kSurelyWrong = 3.0;
    constexpr double kMaxRelativeSigma = 0.3;
    if (!(downwardMPerS2 > 0.0) || !(sigmaMPerS2 <= kMaxRelativeSigma * downwardMPerS2)) {
        return FallVerdict::CannotTell;
    }
    const double ratio = kStandardGravity / downwardMPerS2;
    const double away = std::max(ratio, 1.0 / ratio);
    if (away <= kFitting) {
        return FallVerdict::Fits;
    }
    return away < kSurelyWrong ? FallVerdict::CannotTell : FallVerdict::DoesNotFit;
}

}  // namespace core::timebase
