#pragma once

#include <span>
#include <vector>

#include "core/media/file/clip_index.h"
#include "core/project/model.h"

namespace core::intake {

/// A clock settled from evidence, or the remark that says why there is none. Immutable value.
struct SettledClock {
    std::optional<project::ClockSetting> setting;
    std::vector<project::ClipRemark> remarks;  ///< kinds as of timebase::clockNoteName, or
                                               ///< "clock_unsettled"
};

/// Weighs the evidence for a clip (timebase::settleCaptureRate) and turns the outcome into what the
/// project keeps. Conflicting evidence is not an error here: the clip is kept with its clock open,
/// and shots on it cannot be read until the reviewer settles it. Time stamps that do not increase
/// are not trusted.
[[nodiscard]] SettledClock settleClock(std::optional<timebase::PlaybackRate> playback,
                                       const timebase::FrameStamps& stamps,
                                       std::span<const timebase::CaptureRateEvidence> evidence,
                                       timebase::StampTrust trust = timebase::StampTrust::Trusted);

}  // namespace core::intake
