#pragma once

#include "core/media/frames/frame.h"
#include "core/media/frames/orientation.h"
#include "core/media/libav.h"

namespace core::media {

/// Frame over a decoded AVFrame. Internal; Immutable.
class Picture final : public Frame {
public:
    Picture(AvFramePtr stored, timebase::FrameIndex index, Orientation orientation);

    [[nodiscard]] timebase::FrameIndex index() const noexcept override { return m_index; }
    [[nodiscard]] int width() const noexcept override;
    [[nodiscard]] int height() const noexcept override;
    [[nodiscard]] std::size_t bytesHeld() const noexcept override { return m_bytesHeld; }
    [[nodiscard]] PixelBuffer rgb() const override;
    [[nodiscard]] PixelBuffer rgbRegion(int x, int y, int width, int height) const override;
    [[nodiscard]] PixelBuffer rgbScaledToFit(int maxWidth, int maxHeight) const override;

    /// As the decoder gave it, unturned.
    [[nodiscard]] const AVFrame& stored() const noexcept { return *m_stored; }

private:
    AvFramePtr m_stored;
    timebase::FrameIndex m_index;
    Orientation m_orientation;
    std::size_t m_bytesHeld{};
};

}  // namespace core::media
