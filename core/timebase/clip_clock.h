#pragma once

#include <memory>
#include <optional>

#include "core/base/units.h"
#include "core/timebase/frame_time.h"

namespace core::timebase {

enum class ClockKind {
    Stamped,    ///< the file plays at real speed; time stamps are trusted
    Stretched,  ///< the file plays slower by a known factor; time stamps are trusted
    Counted,    ///< time stamps are not trusted; frame i was taken at i / capture rate
};

/// When each frame of a clip was captured. Immutable, cheap to copy (stamps are shared).
///
/// Capture time of frame i, in seconds since frame 0, exact:
///   stamped    (p_i - p_0) * timeBase
///   stretched  (p_i - p_0) * timeBase / stretch      stretch = capture rate / playback rate
///   counted    i / captureRate
/// A relative standard uncertainty of the rate is shared by every shot of the clip: it does not
/// average out over shots (JCGM 100:2008, F.1.2.3 on correlated input through a common standard).
class ClipClock {
public:
    /// Errors: InvalidInput when there are no stamps, the time base is not positive, or stamps do
    /// not increase strictly (names the first frame at fault); Unsupported when exact capture times
    /// would leave 64 bits.
    static Result<ClipClock> stamped(FrameStamps stamps, double relativeSigma = 0.0);
    /// stretch > 0. Errors as stamped(), OutOfRange for the stretch.
    static Result<ClipClock> stretched(FrameStamps stamps, Rational stretch,
                                       double relativeSigma = 0.0);
    /// Errors: OutOfRange for a frame count below 1 or a rate that is not positive.
    static Result<ClipClock> counted(std::int64_t frames, CaptureRate rate,
                                     double relativeSigma = 0.0);

    [[nodiscard]] ClockKind kind() const noexcept { return m_kind; }
    [[nodiscard]] std::int64_t frameCount() const noexcept { return m_frameCount; }
    [[nodiscard]] bool contains(FrameIndex frame) const noexcept {
        return frame.value >= 0 && frame.value < m_frameCount;
    }
    /// Exact capture time since frame 0 in seconds. The frame must be in the clip.
    [[nodiscard]] Rational captureTime(FrameIndex frame) const;
    /// The same as a double.
    [[nodiscard]] Seconds captureSeconds(FrameIndex frame) const;
    /// The last frame whose capture time is not after t, clamped to the clip.
    [[nodiscard]] FrameIndex frameAt(Seconds t) const;
    /// For a counted clock the rate itself; otherwise from the mean of the frame intervals within a
    /// quarter of the median one. Rounded stamps leave it off by at most one tick over all of these
    /// together (240 frames a second at 600 ticks: exact over an even number of intervals).
    /// Absent for a stamped or stretched clip of one frame.
    [[nodiscard]] std::optional<CaptureRate> captureRate() const;
    [[nodiscard]] Rational stretch() const noexcept { return m_stretch; }
    [[nodiscard]] double relativeSigma() const noexcept { return m_relativeSigma; }

private:
    ClipClock() = default;
    ClockKind m_kind{ClockKind::Counted};
    std::int64_t m_frameCount{};
    std::shared_ptr<const FrameStamps> m_stamps;
    Rational m_stretch{1};
    Rational m_rateFps{1};
    double m_relativeSigma{};
};

}  // namespace core::timebase
