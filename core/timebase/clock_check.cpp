#include "core/timebase/clock_check.h"

#include <algorithm>
#include <cmath>

#include "core/base/expects.h"
#include "core/base/kept_words.h"
#include "core/base/number.h"
#include "core/base/words.h"
#include "core/timebase/slope_density.h"

namespace core::timebase {
namespace {

std::string nameOf(const ClockInstant& instant) {
    return said("frame {}", instant.frame.value);
}

Result<void> checkInput(const ClockCheck& check) {
    if (!std::isfinite(check.referenceRelativeSigma) || check.referenceRelativeSigma < 0.0) {
        return fail(
            ErrorCode::OutOfRange,
            said("The uncertainty of the clock check's reference must be zero or positive."));
    }
    for (const auto& instant : check.instants) {
        if (!std::isfinite(instant.known.seconds)) {
            return fail(
                ErrorCode::NotFinite,
                said("The known time at {} of the clock check is not a number.", nameOf(instant)));
        }
        if (!std::isfinite(instant.halfWidthFrames) || instant.halfWidthFrames <= 0.0) {
            return fail(
                ErrorCode::OutOfRange,
                said("The half-width at {} of the clock check must be positive.", nameOf(instant)));
        }
    }
    return ok();
}

/// The readings by frame. Errors as stopwatchCheck().
Result<std::vector<ReferenceReading>> sortedByFrame(std::span<const ReferenceReading> readings) {
    std::vector<ReferenceReading> sorted{readings.begin(), readings.end()};
    std::sort(sorted.begin(), sorted.end(),
              [](const auto& a, const auto& b) { return a.frame < b.frame; });
    if (sorted.size() < 2) {
        return fail(
            ErrorCode::InvalidInput,
            said("A clock check needs two frames or more, with what the reference shows in each."));
    }
    for (std::size_t i = 1; i < sorted.size(); ++i) {
        const auto frame = sorted[i].frame.value;
        if (sorted[i].frame == sorted[i - 1].frame) {
            return fail(ErrorCode::InvalidInput,
                        said("The clock check names frame {} twice. Keep one of the two.", frame));
        }
        if (!(sorted[i].shown > sorted[i - 1].shown)) {
            return fail(
                ErrorCode::InvalidInput,
                said("The clock check says {:.7g} at frame {} and {:.7g} before it, at "
                     "frame {}. Time and turns must grow with the frames: look at "
                     "these two again.",
                     sorted[i].shown, frame, sorted[i - 1].shown, sorted[i - 1].frame.value));
        }
    }
    return sorted;
}

/// Hours, minutes and seconds, apart at the colons; the parts after the first are below 60. Errors:
/// those of numberFrom(); InvalidInput.
Result<double> secondsFrom(std::string_view text) {
    double seconds = 0.0;
    for (int parts = 1;; ++parts) {
        const auto colon = text.find(':');
        const bool isLast = colon == std::string_view::npos;
        BOOST_OUTCOME_TRY(part, numberFrom(text.substr(0, colon)));
        const bool isPart =
            part >= 0.0 && (parts == 1 || part < 60.0) && (isLast || part == std::floor(part));
        if (!isPart || parts > 3) {
            return fail(ErrorCode::InvalidInput, "");
        }
        seconds = 60.0 * seconds + part;
        if (isLast) {
            return seconds;
        }
        text.remove_prefix(colon + 1);
    }
}

/// "33 1/3", "100/3" or a number. Errors: those of numberFrom().
Result<double> mixedNumber(std::string_view text) {
    const auto slash = text.find('/');
    if (slash == std::string_view::npos) {
        return numberFrom(text);
    }
    const auto last = text.find_last_not_of(' ', slash - 1);
    const auto blank = last == std::string_view::npos ? last : text.rfind(' ', last);
    double whole = 0.0;
    if (blank != std::string_view::npos && text.find_first_not_of(' ') < blank) {
        BOOST_OUTCOME_TRY(before, numberFrom(text.substr(0, blank)));
        whole = before;
        text.remove_prefix(blank + 1);
    }
    const auto bar = text.find('/');
    BOOST_OUTCOME_TRY(numerator, numberFrom(text.substr(0, bar)));
    BOOST_OUTCOME_TRY(denominator, numberFrom(text.substr(bar + 1)));
    return whole + numerator / denominator;
}

}  // namespace

Result<ClockCheck> stopwatchCheck(std::span<const ReferenceReading> readings, Seconds halfWidth) {
    if (!std::isfinite(halfWidth.seconds) || halfWidth.seconds < 0.0) {
        return fail(
            ErrorCode::OutOfRange,
            said("A stopwatch is read to a hundredth of a second or so: zero or more seconds."));
    }
    BOOST_OUTCOME_TRY(sorted, sortedByFrame(readings));
    const auto& first = sorted.front();
    const auto& last = sorted.back();
    const double about =
        static_cast<double>(last.frame.value - first.frame.value) / (last.shown - first.shown);
    ClockCheck check{toKeep("stopwatch"), {}, kStopwatchSigma};
    for (const auto& reading : sorted) {
        check.instants.push_back({reading.frame, {reading.shown}, 0.5 + halfWidth.seconds * about});
    }
    BOOST_OUTCOME_TRY(evaluateClockCheck(check));
    return check;
}

Result<ClockCheck> turningCheck(std::span<const ReferenceReading> readings, Rpm speed,
                                double speedRelativeSigma) {
    if (!std::isfinite(speed.rpm) || speed.rpm <= 0.0) {
        return fail(ErrorCode::OutOfRange,
                    said("The speed of what turns must be above 0 turns per minute."));
    }
    BOOST_OUTCOME_TRY(sorted, sortedByFrame(readings));
    ClockCheck check{toKeep("{:.7g} rpm", speed.rpm), {}, speedRelativeSigma};
    for (const auto& reading : sorted) {
        check.instants.push_back({reading.frame, timeOfTurn(reading.shown, speed)});
    }
    BOOST_OUTCOME_TRY(evaluateClockCheck(check));
    return check;
}

Result<double> parseStopwatch(std::string_view text) {
    auto seconds = secondsFrom(text);
    if (!seconds && seconds.error().code != ErrorCode::Contradiction) {
        return fail(ErrorCode::InvalidInput,
                    said("\"{}\" is no time of a stopwatch. Write seconds, or minutes and seconds: "
                         "12.34 or 1:02.5.",
                         text));
    }
    return seconds;
}

Result<Rpm> parseSpeed(std::string_view text) {
    const auto rpm = mixedNumber(text);
    if (!rpm && rpm.error().code == ErrorCode::Contradiction) {
        return rpm.error();
    }
    if (!rpm || !std::isfinite(rpm.value()) || rpm.value() <= 0.0) {
        return fail(
            ErrorCode::InvalidInput,
            said("\"{}\" is no speed of rotation. Write turns per minute: 33 1/3 or 1200.", text));
    }
    return Rpm{rpm.value()};
}

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
                    said("A clock check needs at least two instants at different known times."));
    }
    if (bounds.value().isContradiction()) {
        const auto& b = bounds.value();
        return fail(
            ErrorCode::Contradiction,
            said("No constant capture rate fits the clock check: {} to {} disagrees with {} to {}. "
                 "Look at these instants again, or for dropped frames between them.",
                 nameOf(check.instants[b.lowFirst]), nameOf(check.instants[b.lowSecond]),
                 nameOf(check.instants[b.highFirst]), nameOf(check.instants[b.highSecond])));
    }
    BOOST_OUTCOME_TRY(density, SlopeDensity::fromPoints(points));
    if (density.mean() <= 0.0) {
        return fail(ErrorCode::OutOfRange,
                    said("The frames of the clock check do not advance with its known times."));
    }
    if (density.low() <= 0.0) {
        return fail(ErrorCode::Untrustworthy,
                    said("The instants of the clock check are too close together to give a rate. "
                         "Mark instants that are further apart."));
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
