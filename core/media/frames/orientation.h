#pragma once

#include <array>

#include "core/media/libav.h"

namespace core::media {

/// How the stored picture is turned for showing: mirrored left to right first if so, then turned
/// clockwise.
struct Orientation {
    int rotationDegrees{};  ///< 0, 90, 180 or 270
    bool isMirrored{};
    [[nodiscard]] bool swapsSides() const noexcept { return rotationDegrees % 180 != 0; }
    [[nodiscard]] bool isUpright() const noexcept { return rotationDegrees == 0 && !isMirrored; }
};

/// From the stream's display matrix (ISO/IEC 14496-12, track header matrix); upright without one.
Orientation orientationOf(const AVStream& stream);

/// The unturned picture's pixel that shows at (x, y) of the turned picture of the given size.
struct PixelPlace {
    int x{};
    int y{};
};
PixelPlace storedPlace(const Orientation& orientation, int shownWidth, int shownHeight, int x,
                       int y) noexcept;

}  // namespace core::media
