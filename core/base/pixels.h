#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "core/base/expects.h"

namespace core {

/// How the bytes of a picture are laid out. Rows run top to bottom, pixels left to right.
enum class PixelFormat {
    Rgb8,   ///< three bytes a pixel: red, green, blue; full range, display (gamma) encoded
    Gray8,  ///< one byte a pixel, full range
};

[[nodiscard]] constexpr int bytesPerPixel(PixelFormat format) noexcept {
    return format == PixelFormat::Rgb8 ? 3 : 1;
}

/// A picture that somebody else owns. Valid only as long as the owner. Pixel (0, 0) is top left and
/// its centre lies at (0.5, 0.5) in continuous picture coordinates.
struct PixelView {
    const std::uint8_t* data{};
    int width{};
    int height{};
    std::ptrdiff_t strideBytes{};  ///< from one row to the next
    PixelFormat format{PixelFormat::Rgb8};

    [[nodiscard]] const std::uint8_t* row(int y) const noexcept { return data + y * strideBytes; }
    [[nodiscard]] bool isEmpty() const noexcept { return width <= 0 || height <= 0; }
};

/// A picture in memory, rows packed without gaps.
class PixelBuffer {
public:
    PixelBuffer() = default;
    PixelBuffer(int width, int height, PixelFormat format)
        : m_width{width}, m_height{height}, m_format{format} {
        CORE_EXPECTS(width >= 0 && height >= 0);
        m_bytes.resize(static_cast<std::size_t>(width) * static_cast<std::size_t>(height) *
                       static_cast<std::size_t>(bytesPerPixel(format)));
    }

    [[nodiscard]] int width() const noexcept { return m_width; }
    [[nodiscard]] int height() const noexcept { return m_height; }
    [[nodiscard]] PixelFormat format() const noexcept { return m_format; }
    [[nodiscard]] std::ptrdiff_t strideBytes() const noexcept {
        return static_cast<std::ptrdiff_t>(m_width) * bytesPerPixel(m_format);
    }
    [[nodiscard]] std::uint8_t* row(int y) noexcept { return m_bytes.data() + y * strideBytes(); }
    [[nodiscard]] const std::uint8_t* row(int y) const noexcept {
        return m_bytes.data() + y * strideBytes();
    }
    [[nodiscard]] std::span<const std::uint8_t> bytes() const noexcept { return m_bytes; }
    [[nodiscard]] PixelView view() const noexcept {
        return {m_bytes.data(), m_width, m_height, strideBytes(), m_format};
    }

private:
    std::vector<std::uint8_t> m_bytes;
    int m_width{};
    int m_height{};
    PixelFormat m_format{PixelFormat::Rgb8};
};

}  // namespace core
