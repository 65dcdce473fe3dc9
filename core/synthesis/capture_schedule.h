#pragma once

#include <vector>

#include "core/synthesis/scene.h"
#include "core/timebase/frame_time.h"

namespace core::synthesis {

/// One frame of the film: which instant it shows and how it is stamped.
struct ScheduledFrame {
    std::int64_t ticks{};
    std::int64_t durationTicks{};
    std::int64_t stampedInstant{};  ///< nominal instant of its stamp
    std::int64_t shownInstant{};    ///< differs from the stamped one for a frozen frame
    Seconds stampedTime;            ///< capture time that the stamp stands for
    Seconds shownTime;              ///< capture time of the picture: row 0, middle of the exposure
};

/// All frames that are written, in order. Ticks are exact: capture time = ticks timeBase / stretch.
struct CaptureSchedule {
    timebase::Rational timeBase{1};
    std::vector<ScheduledFrame> frames;
};

/// The scene must have passed checkScene().
[[nodiscard]] CaptureSchedule scheduleOf(const Scene& scene);

/// Sway of the principal point of a hand-held camera at a capture time, in pixels: three slow
/// waves a direction, 0.7 to 5 Hz.
[[nodiscard]] PicturePoint swayAt(const Scene& scene, Seconds captureTime);

}  // namespace core::synthesis
