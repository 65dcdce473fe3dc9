#pragma once

#include <string>

#include "core/base/pixels.h"
#include "core/base/result.h"
#include "core/publish/film/clip_footage.h"
#include "core/publish/material.h"

namespace core::publish {

/// The frames behind one number: the ball cut out of consecutive frames, side by side, with time
/// and turns under each.
struct FrameStrip {
    PixelBuffer picture;
    std::string words;  ///< what is seen
};

/// From the frame of reference of the counting reading on, as many frames as show one turn and a
/// little more and fill the last row, at most kMaxStripFrames; where one turn takes more frames,
/// evenly spaced ones.
inline constexpr int kMaxStripFrames = 12;

/// Errors: NotFound when nobody has said where the ball is, the clip is gone or has no stamps, or
/// no reading counts; those of ClipFootage and the decoder.
Result<FrameStrip> frameStrip(const Material& material, const project::Shot& shot,
                              ClipFootage& footage, const std::stop_token& stop);

}  // namespace core::publish
