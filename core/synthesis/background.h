#pragma once

#include <cstdint>
#include <vector>

#include "core/synthesis/light_transfer.h"
#include "core/synthesis/scene.h"

namespace core::synthesis {

/// A picture in linear light: three floats a pixel (red, green, blue), rows without gaps.
struct LightPicture {
    int width{};
    int height{};
    std::vector<float> light;

    LightPicture() = default;
    LightPicture(int widthPx, int heightPx);
    [[nodiscard]] float* pixel(int x, int y) noexcept;
    [[nodiscard]] const float* pixel(int x, int y) const noexcept;
};

/// Paints what stands behind the ball: a textured wall, fence, hedge or sky above textured ground,
/// with shapes of many colours on the wall and the fence. Blurred as by a lens. Depends on nothing
/// but its arguments.
[[nodiscard]] LightPicture paintBackground(BackgroundKind kind, int widthPx, int heightPx,
                                           double lensBlurPx, std::uint64_t seed);

}  // namespace core::synthesis
