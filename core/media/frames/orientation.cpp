#include "core/media/frames/orientation.h"

#include <cmath>
#include <cstring>

namespace core::media {

Orientation orientationOf(const AVStream& stream) {
    const std::uint8_t* data = av_stream_get_side_data(&stream, AV_PKT_DATA_DISPLAYMATRIX, nullptr);
    if (data == nullptr) {
        return {};
    }
    std::array<std::int32_t, 9> matrix{};
    std::memcpy(matrix.data(), data, sizeof(matrix));
    // A negative determinant mirrors. Taking the mirroring off the first row leaves a turn.
    const double determinant =
        static_cast<double>(matrix[0]) * matrix[4] - static_cast<double>(matrix[1]) * matrix[3];
    Orientation orientation;
    orientation.isMirrored = determinant < 0.0;
    if (orientation.isMirrored) {
        av_display_matrix_flip(matrix.data(), 1, 0);
    }
    const double counterClockwise = av_display_rotation_get(matrix.data());
    if (std::isfinite(counterClockwise)) {
        const auto quarterTurns = static_cast<int>(std::lround(-counterClockwise / 90.0));
        orientation.rotationDegrees = ((quarterTurns % 4 + 4) % 4) * 90;
    }
    return orientation;
}

PixelPlace storedPlace(const Orientation& orientation, int shownWidth, int shownHeight, int x,
                       int y) noexcept {
    PixelPlace place{x, y};
    switch (orientation.rotationDegrees) {
        case 90:  // what was at the left bottom comes to the left top
            place = {y, shownWidth - 1 - x};
            break;
        case 180:
            place = {shownWidth - 1 - x, shownHeight - 1 - y};
            break;
        case 270:
            place = {shownHeight - 1 - y, x};
            break;
        default:
            break;
    }
    if (orientation.isMirrored) {
        const int storedWidth = orientation.swapsSides() ? shownHeight : shownWidth;
        place.x = storedWidth - 1 - place.x;
    }
    return place;
}

}  // namespace core::media
