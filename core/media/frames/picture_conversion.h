#pragma once

#include "core/base/pixels.h"
#include "core/media/libav.h"

namespace core::media {

/// A rectangle of the stored (unturned) picture, inside it.
struct StoredRect {
    int x{};
    int y{};
    int width{};
    int height{};
};

/// Converts with FFmpeg's own scaler and its default flags (bicubic), the picture's colour matrix
/// and range; an unnamed matrix is BT.601, as the ffmpeg program takes it. The result of a
/// rectangle equals that part of the whole picture's result.
PixelBuffer toRgb(const AVFrame& picture, const StoredRect& rect);

/// The whole picture scaled to the given size by area averaging.
PixelBuffer toRgbScaled(const AVFrame& picture, int width, int height);

}  // namespace core::media
