#pragma once

#include <string>
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

}  // namespace core::timebase
