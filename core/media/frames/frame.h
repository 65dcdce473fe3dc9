#pragma once

#include <cstddef>
#include <memory>

#include "core/base/pixels.h"
#include "core/timebase/frame_time.h"

namespace core::media {

/// One decoded picture, kept in the decoder's own pixel format. Immutable; holding it pins it.
class Frame {
public:
    virtual ~Frame() = default;
    [[nodiscard]] virtual timebase::FrameIndex index() const noexcept = 0;
    /// Size as shown, after rotation.
    [[nodiscard]] virtual int width() const noexcept = 0;
    [[nodiscard]] virtual int height() const noexcept = 0;
    [[nodiscard]] virtual std::size_t bytesHeld() const noexcept = 0;
    /// The whole picture as shown: rotation, colour matrix and range applied, 8 bits.
    [[nodiscard]] virtual PixelBuffer rgb() const = 0;
    /// The rectangle of the shown picture with its top left pixel at (x, y), cut at the border of
    /// the picture: pixels outside are black. Much cheaper than rgb() for a small rectangle.
    [[nodiscard]] virtual PixelBuffer rgbRegion(int x, int y, int width, int height) const = 0;
    /// The shown picture scaled down to fit into the given box, keeping proportions; never
    /// enlarged.
    [[nodiscard]] virtual PixelBuffer rgbScaledToFit(int maxWidth, int maxHeight) const = 0;
};

using FramePtr = std::shared_ptr<const Frame>;

}  // namespace core::media
