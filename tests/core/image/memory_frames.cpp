#include "memory_frames.h"

#include <algorithm>
#include <cstring>
#include <opencv2/imgproc.hpp>

namespace tests {

core::PixelBuffer MemoryFrame::rgbRegion(int x, int y, int width, int height) const {
    core::PixelBuffer region(width, height, core::PixelFormat::Rgb8);
    const int from = std::clamp(x, 0, m_picture.width());
    const int to = std::clamp(x + width, 0, m_picture.width());
    for (int row = 0; row < height; ++row) {
        if (y + row >= 0 && y + row < m_picture.height() && to > from) {
            std::memcpy(region.row(row) + 3 * (from - x), m_picture.row(y + row) + 3 * from,
                        static_cast<std::size_t>(3 * (to - from)));
        }
    }
    return region;
}

core::PixelBuffer MemoryFrame::rgbScaledToFit(int maxWidth, int maxHeight) const {
    const double scale = std::min({1.0, static_cast<double>(maxWidth) / m_picture.width(),
                                   static_cast<double>(maxHeight) / m_picture.height()});
    const cv::Size size(static_cast<int>(std::lround(m_picture.width() * scale)),
                        static_cast<int>(std::lround(m_picture.height() * scale)));
    core::PixelBuffer small(size.width, size.height, core::PixelFormat::Rgb8);
    const cv::Mat full(m_picture.height(), m_picture.width(), CV_8UC3,
                       const_cast<std::uint8_t*>(m_picture.row(0)));
    cv::Mat target(size.height, size.width, CV_8UC3, small.row(0));
    cv::resize(full, target, size, 0.0, 0.0, cv::INTER_AREA);
    return small;
}

void MemorySource::add(core::PixelBuffer picture) {
    m_frames.push_back(std::make_shared<MemoryFrame>(core::timebase::FrameIndex{frameCount()},
                                                     std::move(picture)));
}

core::Result<core::media::FramePtr> MemorySource::frame(core::timebase::FrameIndex index) {
    if (index.value < 0 || index.value >= frameCount()) {
        return core::fail(core::ErrorCode::OutOfRange, "There is no such frame in this clip.");
    }
    return m_frames[static_cast<std::size_t>(index.value)];
}

}  // namespace tests
