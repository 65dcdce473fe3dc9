#pragma once

#include "core/base/result.h"
#include "core/media/frames/frame.h"
#include "core/timebase/frame_time.h"

namespace core::image {

/// Frames of a clip from first to last, both included.
struct FrameRange {
    timebase::FrameIndex first;
    timebase::FrameIndex last;

    [[nodiscard]] std::int64_t count() const noexcept { return last.value - first.value + 1; }
    bool operator==(const FrameRange&) const = default;
};

/// Where pictures come from: a decoder, a cache, or pictures drawn in memory. Confined.
class FrameSource {
public:
    virtual ~FrameSource() = default;
    /// Errors: OutOfRange for a frame outside the clip; those of the decoder.
    virtual Result<media::FramePtr> frame(timebase::FrameIndex index) = 0;
};

}  // namespace core::image
