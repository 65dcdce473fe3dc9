#include "core/media/frames/picture.h"

#include <algorithm>
#include <cmath>
#include <cstring>
#include <utility>

#include "core/media/frames/native_bytes.h"
#include "core/media/frames/picture_conversion.h"

namespace core::media {
namespace {

PixelBuffer turned(PixelBuffer stored, const Orientation& orientation) {
    if (orientation.isUpright()) {
        return stored;
    }
    const int width = orientation.swapsSides() ? stored.height() : stored.width();
    const int height = orientation.swapsSides() ? stored.width() : stored.height();
    PixelBuffer shown{width, height, PixelFormat::Rgb8};
    for (int y = 0; y < height; ++y) {
        std::uint8_t* target = shown.row(y);
        for (int x = 0; x < width; ++x) {
            const PixelPlace from = storedPlace(orientation, width, height, x, y);
            const std::uint8_t* source = stored.row(from.y) + std::ptrdiff_t{3} * from.x;
            target[0] = source[0];
            target[1] = source[1];
            target[2] = source[2];
            target += 3;
        }
    }
    return shown;
}

}  // namespace

Picture::Picture(AvFramePtr stored, timebase::FrameIndex index, Orientation orientation)
    : m_stored{std::move(stored)}, m_index{index}, m_orientation{orientation} {
    for (const AVBufferRef* buffer : m_stored->buf) {
        m_bytesHeld += buffer != nullptr ? static_cast<std::size_t>(buffer->size) : 0;
    }
}

int Picture::width() const noexcept {
    return m_orientation.swapsSides() ? m_stored->height : m_stored->width;
}

int Picture::height() const noexcept {
    return m_orientation.swapsSides() ? m_stored->width : m_stored->height;
}

PixelBuffer Picture::rgb() const {
    return turned(toRgb(*m_stored, {0, 0, m_stored->width, m_stored->height}), m_orientation);
}

PixelBuffer Picture::rgbRegion(int x, int y, int width, int height) const {
    CORE_EXPECTS(width >= 0 && height >= 0);
    PixelBuffer region{width, height, PixelFormat::Rgb8};
    const int left = std::max(x, 0);
    const int top = std::max(y, 0);
    const auto end = [](int from, int size, int limit) {
        return static_cast<int>(std::min<std::int64_t>(std::int64_t{from} + size, limit));
    };
    const int right = end(x, width, this->width());
    const int bottom = end(y, height, this->height());
    if (left >= right || top >= bottom) {
        return region;
    }
    // Two opposite corners of the visible part, in the stored picture.
    const auto stored = [&](int shownX, int shownY) {
        return storedPlace(m_orientation, this->width(), this->height(), shownX, shownY);
    };
    const PixelPlace a = stored(left, top);
    const PixelPlace b = stored(right - 1, bottom - 1);
    const StoredRect rect{std::min(a.x, b.x), std::min(a.y, b.y), std::abs(a.x - b.x) + 1,
                          std::abs(a.y - b.y) + 1};
    const PixelBuffer visible = turned(toRgb(*m_stored, rect), m_orientation);
    for (int line = 0; line < visible.height(); ++line) {
        std::memcpy(region.row(top - y + line) + std::ptrdiff_t{3} * (left - x), visible.row(line),
                    static_cast<std::size_t>(visible.strideBytes()));
    }
    return region;
}

PixelBuffer Picture::rgbScaledToFit(int maxWidth, int maxHeight) const {
    CORE_EXPECTS(maxWidth >= 1 && maxHeight >= 1);
    const double scale = std::min(
        {1.0, static_cast<double>(maxWidth) / width(), static_cast<double>(maxHeight) / height()});
    if (scale == 1.0) {
        return rgb();
    }
    const auto scaled = [scale](int side) {
        return std::max(1, static_cast<int>(std::lround(side * scale)));
    };
    return turned(toRgbScaled(*m_stored, scaled(m_stored->width), scaled(m_stored->height)),
                  m_orientation);
}

NativePicture nativePicture(const Frame& frame) {
    const auto* picture = dynamic_cast<const Picture*>(&frame);
    CORE_EXPECTS(picture != nullptr);
    const AVFrame& stored = picture->stored();
    const auto format = static_cast<AVPixelFormat>(stored.format);
    NativePicture native{av_get_pix_fmt_name(format), {}};
    const int size = av_image_get_buffer_size(format, stored.width, stored.height, 1);
    CORE_EXPECTS(size > 0);
    native.bytes.resize(static_cast<std::size_t>(size));
    av_image_copy_to_buffer(native.bytes.data(), size, stored.data, stored.linesize, format,
                            stored.width, stored.height, 1);
    return native;
}

}  // namespace core::media
