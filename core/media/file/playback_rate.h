#pragma once

#include <cstdint>
#include <optional>

#include "core/timebase/frame_time.h"

namespace core::media {

/// later - earlier in ticks; a damaged file may hold stamps so far apart that the difference has to
/// stay at the end of its range.
[[nodiscard]] inline std::int64_t ticksBetween(std::int64_t earlier, std::int64_t later) noexcept {
    std::int64_t ticks = 0;
    if (__builtin_sub_overflow(later, earlier, &ticks)) {
        return later > earlier ? INT64_MAX : INT64_MIN;
    }
    return ticks;
}

/// What the steps between time stamps say.
struct StampSteps {
    std::int64_t medianTicks{};  ///< of the positive steps (the lower one of two)
    timebase::PlaybackRate rate;
    bool isSteady{};  ///< every stamp is the rounding of one constant rate, gaps aside
};

/// The playback rate from the steps near the median (within a quarter of it, or one tick): steps
/// over gaps and repeated stamps do not count, nor does the last sample's own duration.
///
/// When all stamps of these steps are roundings of a constant-rate grid to whole ticks, of a rate
/// in use (24 to 1000, or such a rate over 1.001, SMPTE ST 12-1 family) or else of a whole number,
/// that rate is taken as exact; of several that fit, the one the steps give without rounding, else
/// a whole number. Otherwise the rate is the exact mean over the steps.
///
/// Absent when there is no positive step.
std::optional<StampSteps> analyseSteps(const timebase::FrameStamps& stamps);

}  // namespace core::media
