#include "core/timebase/clock_check.h"

#include <cmath>

#include "core/base/expects.h"
#include "core/timebase/slope_density.h"

namespace core::timebase {
namespace {

std::string nameOf(const ClockInstant& instant) {
    return "frame " + std::to_string(instant.frame.value);
}

Result<void> checkInput(const ClockCheck& check) {
    if (!std::isfinite(check.referenceRelativeSigma) || check.referenceRelativeSigma < 0.0) {
        return fail(ErrorCode::OutOfRange,
                    "The uncertainty of the clock check's reference must be zero or positive.");
    }
    for (const auto& instant : check.instants) {
        if (!std::isfinite(instant.known.seconds)) {
            return fail(ErrorCode::NotFinite, "The known time at " + nameOf(instant) +
                                                  " of the clock check is not a number.");
        }
        if (!std::isfinite(instant.halfWidthFrames) || instant.halfWidthFrames <= 0.0) {
            return fail(ErrorCode::OutOfRange, "The half-width at " + nameOf(instant) +
                                                   " of the clock check must be positive.");
        }
    }
    return ok();
}

}  // namespace

Result<ClockCheckResult> evaluateClockCheck(const ClockCheck& check) {
    BOOST_OUTCOME_TRY(checkInput(check));
    std::vector<BoundedPoint> points;
    for (const auto& instant : check.instants) {
        const auto frame = static_cast<double>(instant.frame.value);
        points.push_back({instant.known.seconds, frame - instant.halfWidthFrames,
                          frame + instant.halfWidthFrames});
    }
    const auto bounds = slopeBounds(points);
    if (!bounds) {
        return fail(ErrorCode::InvalidInput,
                    "A clock check needs at least two instants at different known times.");
    }
    if (bounds.value().isContradiction()) {
        const auto& b = bounds.value();
        return fail(
            ErrorCode::Contradiction,
            "No constant capture rate fits the clock check: " + nameOf(check.instants[b.lowFirst]) +
                " to " + nameOf(check.instants[b.lowSecond]) + " disagrees with " +
                nameOf(check.instants[b.highFirst]) + " to " +
                nameOf(check.instants[b.highSecond]) +
                ". Look at these instants again, or for dropped frames between them.");
    }
    BOOST_OUTCOME_TRY(density, SlopeDensity::fromPoints(points));
    if (density.mean() <= 0.0) {
        return fail(ErrorCode::OutOfRange,
                    "The frames of the clock check do not advance with its known times.");
    }
    if (density.low() <= 0.0) {
        return fail(ErrorCode::Untrustworthy,
                    "The instants of the clock check are too close together to give a rate. Mark "
                    "instants that are further apart.");
    }
    const double rate = density.mean();
    return ClockCheckResult{rate, std::hypot(density.sigma(), rate * check.referenceRelativeSigma),
                            density.low(), density.high()};
}

Seconds timeOfTurn(double turn, Rpm speed) {
    CORE_EXPECTS(speed.rpm > 0.0);
    return {turn * 60.0 / speed.rpm};
}

}  // namespace core::timebase
