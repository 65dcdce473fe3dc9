#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/media/file/clip_index.h"
#include "core/media/file/playback_rate.h"

namespace core::media {

/// Gaps, repeated and backward stamps, and stamps too coarse for the frames. At most a dozen of a
/// kind are listed; a last one says how many more there are.
std::vector<ClipWarning> stampWarnings(const timebase::FrameStamps& stamps,
                                       const std::optional<StampSteps>& steps);

}  // namespace core::media
