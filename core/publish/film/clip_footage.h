#pragma once

#include <filesystem>
#include <map>
#include <memory>
#include <stop_token>

#include "core/base/pixels.h"
#include "core/base/result.h"
#include "core/media/frames/frame_decoder.h"
#include "core/project/snapshot.h"
#include "core/reading/ball_places.h"

namespace core::publish {

/// The footage of a project, opened clip by clip when it is needed; the latest stays open.
/// Confined. Errors: those of project::locateClip (NotFound when the clip is nowhere),
/// media::readClipIndex and media::FrameDecoder.
class ClipFootage {
public:
    ClipFootage(std::filesystem::path projectFile, std::stop_token stop);

    Result<media::FrameDecoder*> open(const project::Clip& clip);

private:
    std::filesystem::path m_projectFile;
    std::stop_token m_stop;
    project::ClipId m_open;
    std::unique_ptr<media::FrameDecoder> m_decoder;
};

/// A square about the ball, `halfWidthPx` to each side of its centre, scaled to sidePx pixels.
/// Outside the picture it is black.
[[nodiscard]] PixelBuffer cutAround(const media::Frame& frame, const reading::BallPlace& place,
                                    double halfWidthPx, int sidePx);

}  // namespace core::publish
