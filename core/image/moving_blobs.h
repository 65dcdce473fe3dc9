#pragma once

#include <stop_token>
#include <vector>

#include "core/image/ball_track.h"
#include "core/image/frame_source.h"
#include "core/timebase/clip_clock.h"

namespace core::image {

/// Something that differs from the background in one frame. Full-size pixels, in the coordinates of
/// the reference frame of its MovingPictures.
struct Blob {
    PointPx centre;
    double areaPx2{};
    double varianceX{};  ///< second central moments of its pixels
    double varianceXY{};
    double varianceY{};
    bool touchesBorder{};
};

/// What moves in a stretch of frames, found at reduced size with the frames laid over each other.
struct MovingPictures {
    int fullWidth{};
    int fullHeight{};
    std::vector<timebase::FrameIndex> frames;
    std::vector<Seconds> times;
    std::vector<FrameMotion> motion;       ///< full-size pixels; all identity for a fixed camera
    std::vector<std::vector<Blob>> blobs;  ///< one list a frame
    bool cameraMoves{};
};

/// The frames of a range, one after the other. Errors: those of the source; Cancelled.
Result<std::vector<SmallFramePtr>> readSmallFrames(FrameSource& source, FrameRange range,
                                                   const std::stop_token& stop);

/// Looks at the pictures, of which there must be one; registers them to the middle one; background
/// is the median over time, the threshold follows the local scatter over time.
MovingPictures findMovingBlobs(const std::vector<SmallFramePtr>& pictures,
                               const timebase::ClipClock& clock);

}  // namespace core::image
