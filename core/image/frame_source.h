#pragma once

#include <memory>

#include "core/base/pixels.h"
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

/// A rectangle of pixels.
struct PixelBox {
    int left{}, top{};
    int width{}, height{};
};

/// A frame at the size at which what moves is looked for, smoothed against noise once for all who
/// look. Immutable.
struct SmallFrame {
    timebase::FrameIndex index;
    int fullWidth{};
    int fullHeight{};
    PixelBuffer picture;  ///< Rgb8; each pixel the mean of itself and its eight neighbours
};
using SmallFramePtr = std::shared_ptr<const SmallFrame>;

[[nodiscard]] SmallFramePtr smallFrameOf(const media::Frame& frame);

/// Where pictures come from: a decoder, a cache, or pictures drawn in memory. Confined.
/// Errors of all members: OutOfRange for a frame outside the clip; those of the decoder.
class FrameSource {
public:
    virtual ~FrameSource() = default;
    virtual Result<media::FramePtr> frame(timebase::FrameIndex index) = 0;
    /// Whoever looks at all of a flight asks for these two, so that no source need hold whole
    /// frames for it.
    virtual Result<SmallFramePtr> small(timebase::FrameIndex index);
    /// As media::Frame::rgbRegion().
    virtual Result<PixelBuffer> region(timebase::FrameIndex index, const PixelBox& box);
};

}  // namespace core::image
