#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "core/base/units.h"
#include "core/timebase/frame_time.h"

namespace core::timebase {

/// An instant of known time in a clip: the frame nearest to it, and when it happened by the filmed
/// reference (a running stopwatch, the turns of a turntable). Only differences of times matter.
struct ClockInstant {
    FrameIndex frame;
    Seconds known;
    double halfWidthFrames{0.5};  ///< the true instant lies this far at most from the frame
    bool operator==(const ClockInstant&) const = default;
};

/// A clock check: two or more instants, and how well the reference itself is known.
struct ClockCheck {
    std::string filmed;  ///< what was filmed, for people: "turntable at 33 1/3 rpm"
    std::vector<ClockInstant> instants;
    double referenceRelativeSigma{};  ///< relative standard uncertainty of the reference
    bool operator==(const ClockCheck&) const = default;
};

/// What a clock check says of the capture rate, in frames per second.
struct ClockCheckResult {
    double rateFps{};
    double sigmaFps{};  ///< frame rounding and the reference together
    double lowFps{};    ///< limits from the frames alone
    double highFps{};
    [[nodiscard]] double relativeSigma() const noexcept { return sigmaFps / rateFps; }
};

/// Capture rate = frames passed / known time passed, by timebase::SlopeDensity over all instants:
/// with two instants of half a frame each the relative standard uncertainty is 1/(K·sqrt 6) for K
/// frames (JCGM 100:2008, 4.3.9, triangular). The reference's uncertainty is added in quadrature.
///
/// Frames are counted, so a clip with dropped frames between the instants gives too low a rate.
/// Errors: InvalidInput for fewer than two distinct times; Contradiction when no constant rate fits
/// all instants (names them); OutOfRange for a negative uncertainty or a rate that is not positive;
/// Untrustworthy when the limits include zero.
Result<ClockCheckResult> evaluateClockCheck(const ClockCheck& check);

/// Known times of the turns of a turntable or drill at a constant speed: turn n happens at
/// n·60/speed seconds. speed > 0.
[[nodiscard]] Seconds timeOfTurn(double turn, Rpm speed);

/// What was seen of the reference in a frame: seconds that a stopwatch shows, or turns made.
struct ReferenceReading {
    FrameIndex frame;
    double shown{};
    bool operator==(const ReferenceReading&) const = default;
};

/// How well a stopwatch on a screen tells an instant, half-width: a picture stays for 1/60 s.
inline constexpr Seconds kStopwatchHalfWidth{0.01};

/// Relative standard uncertainty of a stopwatch's rate: a quartz (100 parts in a million; common
/// practice, no source).
inline constexpr double kStopwatchSigma = 1e-4;
/// Relative standard uncertainty of a nominal speed of rotation that nobody has measured:
/// rectangular, half-width 1.5 % (common practice for turntables, no source).
inline constexpr double kNominalSpeedSigma = 0.015 / 1.7320508075688772;

/// The check by a filmed stopwatch. Each instant is known to half a frame, and to as many frames
/// more as the capture rate, from the first and last instant, makes of halfWidth.
/// Errors: InvalidInput for fewer than two different times, or a frame that is named twice;
/// OutOfRange for a negative half-width or frame; NotFinite.
Result<ClockCheck> stopwatchCheck(std::span<const ReferenceReading> readings,
                                  Seconds halfWidth = kStopwatchHalfWidth);

/// The check by something that turns at a known speed: turn n happens at timeOfTurn().
/// Errors: those of stopwatchCheck(); OutOfRange for a speed that is not positive.
Result<ClockCheck> turningCheck(std::span<const ReferenceReading> readings, Rpm speed,
                                double speedRelativeSigma = kNominalSpeedSigma);

/// Seconds as people write them down from a stopwatch: "12.34", "1:02.5", "0:01:02.5".
/// Errors: InvalidInput, with what may be typed.
Result<double> parseStopwatch(std::string_view text);
/// A speed as people write it: "1200", "33.3", "33 1/3". Errors: InvalidInput, OutOfRange.
Result<Rpm> parseSpeed(std::string_view text);

}  // namespace core::timebase
