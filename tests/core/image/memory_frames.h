#pragma once

#include <memory>
#include <utility>
#include <vector>

#include "core/image/frame_source.h"

namespace tests {

/// A picture held in memory, as a frame of a clip.
class MemoryFrame : public core::media::Frame {
public:
    MemoryFrame(core::timebase::FrameIndex index, core::PixelBuffer picture)
        : m_index{index}, m_picture{std::move(picture)} {}

    [[nodiscard]] core::timebase::FrameIndex index() const noexcept override { return m_index; }
    [[nodiscard]] int width() const noexcept override { return m_picture.width(); }
    [[nodiscard]] int height() const noexcept override { return m_picture.height(); }
    [[nodiscard]] std::size_t bytesHeld() const noexcept override {
        return m_picture.bytes().size();
    }
    [[nodiscard]] core::PixelBuffer rgb() const override { return m_picture; }
    [[nodiscard]] core::PixelBuffer rgbRegion(int x, int y, int width, int height) const override;
    [[nodiscard]] core::PixelBuffer rgbScaledToFit(int maxWidth, int maxHeight) const override;

private:
    core::timebase::FrameIndex m_index;
    core::PixelBuffer m_picture;
};

/// Pictures in memory as a clip.
class MemorySource : public core::image::FrameSource {
public:
    void add(core::PixelBuffer picture);
    [[nodiscard]] std::int64_t frameCount() const {
        return static_cast<std::int64_t>(m_frames.size());
    }
    core::Result<core::media::FramePtr> frame(core::timebase::FrameIndex index) override;

private:
    std::vector<core::media::FramePtr> m_frames;
};

}  // namespace tests
