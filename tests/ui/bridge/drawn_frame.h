#pragma once

#include <algorithm>
#include <functional>

#include "core/media/frames/frame.h"

namespace tests {

/// A frame whose grey levels a function gives.
class DrawnFrame : public core::media::Frame {
public:
    DrawnFrame(int width, int height, std::function<int(int, int)> level, std::int64_t index = 0)
        : m_width{width}, m_height{height}, m_level{std::move(level)}, m_index{index} {}

    [[nodiscard]] core::timebase::FrameIndex index() const noexcept override { return {m_index}; }
    [[nodiscard]] int width() const noexcept override { return m_width; }
    [[nodiscard]] int height() const noexcept override { return m_height; }
    [[nodiscard]] std::size_t bytesHeld() const noexcept override { return 0; }
    [[nodiscard]] core::PixelBuffer rgb() const override {
        return rgbRegion(0, 0, m_width, m_height);
    }
    [[nodiscard]] core::PixelBuffer rgbRegion(int left, int top, int width,
                                              int height) const override {
        core::PixelBuffer pixels{width, height, core::PixelFormat::Rgb8};
        for (int y = 0; y < height; ++y) {
            for (int x = 0; x < width; ++x) {
                const bool isInside =
                    x + left >= 0 && x + left < m_width && y + top >= 0 && y + top < m_height;
                const int level = isInside ? m_level(x + left, y + top) : 0;
                std::fill_n(pixels.row(y) + 3 * x, 3, static_cast<std::uint8_t>(level));
            }
        }
        return pixels;
    }
    /// The upper left part in the right size: enough to see that the size is asked for.
    [[nodiscard]] core::PixelBuffer rgbScaledToFit(int maxWidth, int maxHeight) const override {
        const double scale = std::min({1.0, static_cast<double>(maxWidth) / m_width,
                                       static_cast<double>(maxHeight) / m_height});
        return rgbRegion(0, 0, static_cast<int>(m_width * scale),
                         static_cast<int>(m_height * scale));
    }

private:
    int m_width;
    int m_height;
    std::function<int(int, int)> m_level;
    std::int64_t m_index;
};

}  // namespace tests
