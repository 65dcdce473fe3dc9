#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "core/media/frames/frame.h"

namespace core::media {

/// A decoded picture as the decoder gave it: unturned, in its own pixel format, planes one after
/// the other without gaps, as `ffmpeg -f rawvideo` writes it. For bit-exact comparison.
struct NativePicture {
    std::string pixelFormat;  ///< FFmpeg's name
    std::vector<std::uint8_t> bytes;
};

/// The frame must come from this module.
NativePicture nativePicture(const Frame& frame);

}  // namespace core::media
