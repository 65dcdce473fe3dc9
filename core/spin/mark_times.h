#pragma once

#include "core/base/result.h"
#include "core/spin/mark.h"
#include "core/spin/reading_by_marks.h"
#include "core/timebase/clip_clock.h"

namespace core::spin {

/// When a mark says that something happened: within [low, high], seconds since frame 0.
struct MarkInstant {
    FrameIndex frame;
    double nominal{};  ///< the marked frame itself; the middle of a bracket, or its fraction
    double low{};
    double high{};
    bool assumedNeighbour{};  ///< the frame on one side is missing; the other interval was mirrored
};

/// Turns marks into instants by a clip's clock, the actual neighbours of each frame, and a known
/// rolling shutter. Keeps references: must not outlive its arguments. Immutable.
class MarkTimes {
public:
    MarkTimes(const timebase::ClipClock& clock, const RollingShutter& shutter) noexcept
        : m_clock{clock}, m_shutter{shutter} {}

    /// Errors of all: OutOfRange for a frame outside the clip; InvalidInput when a known rolling
    /// shutter lacks the row of the frame.
    [[nodiscard]] Result<double> secondsAt(FrameIndex frame) const;
    /// Errors also: OutOfRange for a spread that is negative or not finite.
    [[nodiscard]] Result<MarkInstant> startInstant(const StartMark& start) const;
    /// Errors also: InvalidInput for a bracket whose second frame is not after its first;
    /// OutOfRange for a fraction outside [0, 1] or a half-width that is not positive.
    [[nodiscard]] Result<MarkInstant> returnInstant(const ReturnMark& mark) const;

    [[nodiscard]] const timebase::ClipClock& clock() const noexcept { return m_clock; }
    /// Row of the ball in a frame. Errors: InvalidInput when it is missing.
    [[nodiscard]] Result<double> rowAt(FrameIndex frame) const;
    /// Median frame interval; the clip must have two frames.
    [[nodiscard]] double frameInterval() const;

private:
    struct Gaps {
        double before{};
        double after{};
        bool assumed{};
    };
    [[nodiscard]] Gaps gapsAround(FrameIndex frame) const;

    const timebase::ClipClock& m_clock;
    const RollingShutter& m_shutter;
};

}  // namespace core::spin
