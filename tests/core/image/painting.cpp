#include "painting.h"

#include <algorithm>
#include <cmath>

namespace tests {

namespace {

void blend(core::PixelBuffer& picture, int x, int y, const Colour& colour, double share) {
    if (x < 0 || y < 0 || x >= picture.width() || y >= picture.height()) {
        return;
    }
    for (std::size_t c = 0; c < 3; ++c) {
        std::uint8_t& level = picture.row(y)[3 * x + static_cast<int>(c)];
        const double mixed =
            share * static_cast<double>(colour[c]) + (1.0 - share) * static_cast<double>(level);
        level = static_cast<std::uint8_t>(std::lround(mixed));
    }
}

}  // namespace

void paintDisc(core::PixelBuffer& picture, core::image::PointPx centre, double radiusPx,
               Colour colour) {
    const int reach = static_cast<int>(radiusPx) + 2;
    for (int y = static_cast<int>(centre.y) - reach; y <= static_cast<int>(centre.y) + reach; ++y) {
        for (int x = static_cast<int>(centre.x) - reach; x <= static_cast<int>(centre.x) + reach;
             ++x) {
            const double distance = std::hypot(x + 0.5 - centre.x, y + 0.5 - centre.y);
            blend(picture, x, y, colour, std::clamp(radiusPx - distance + 0.5, 0.0, 1.0));
        }
    }
}

void paintShadow(core::PixelBuffer& picture, core::image::PointPx centre, double halfWidthPx,
                 double factor) {
    const int reach = static_cast<int>(halfWidthPx) + 2;
    constexpr double kFlatness = 3.0;
    for (int y = static_cast<int>(centre.y) - reach; y <= static_cast<int>(centre.y) + reach; ++y) {
        for (int x = static_cast<int>(centre.x) - reach; x <= static_cast<int>(centre.x) + reach;
             ++x) {
            const double rho = std::hypot(x + 0.5 - centre.x, kFlatness * (y + 0.5 - centre.y));
            const double depth = std::clamp(1.2 * (1.0 - rho / halfWidthPx), 0.0, 1.0);
            blend(picture, x, y, {0, 0, 0}, depth * (1.0 - factor));
        }
    }
}

void paintFigure(core::PixelBuffer& picture, int left, int top, int frame) {
    const int arm = static_cast<int>(std::lround(12.0 * std::sin(0.15 * frame)));
    for (int y = 0; y < 130; ++y) {
        for (int x = 0; x < 40; ++x) {
            const bool isArm = y > 30 && y < 80 && x < 12;
            const Colour colour = isArm ? Colour{150, 60, 200} : Colour{150, 60, 90};
            blend(picture, left + x + (isArm ? arm : 0), top + y, colour, 1.0);
        }
    }
}

}  // namespace tests
