#include "core/image/sensor_rows.h"

namespace core::image {

RowOrder rowOrderOf(int rotationDegrees) noexcept {
    switch (rotationDegrees) {
        case 90:
            return RowOrder::Left;
        case 180:
            return RowOrder::Up;
        case 270:
            return RowOrder::Right;
        default:
            return RowOrder::Down;
    }
}

PointPx SensorRows::perPx() const noexcept {
    switch (order) {
        case RowOrder::Left:
            return {-1.0 / pictureWidth, 0.0};
        case RowOrder::Up:
            return {0.0, -1.0 / pictureHeight};
        case RowOrder::Right:
            return {1.0 / pictureWidth, 0.0};
        case RowOrder::Down:
            break;
    }
    return {0.0, 1.0 / pictureHeight};
}

double SensorRows::at(PointPx point) const noexcept {
    const PointPx slope = perPx();
    const bool isFromFarEdge = order == RowOrder::Left || order == RowOrder::Up;
    return (isFromFarEdge ? 1.0 : 0.0) + slope.x * point.x + slope.y * point.y;
}

}  // namespace core::image
