#pragma once

#include "core/image/projected_sphere.h"

namespace core::image {

/// The way in which the rows of the sensor follow each other in the picture as it is shown. A
/// picture that was turned for showing has them across, or from the bottom up.
enum class RowOrder { Down, Left, Up, Right };

/// rotationDegrees: clockwise turn from the sensor's picture to the one shown (0, 90, 180, 270; any
/// other value counts as 0).
[[nodiscard]] RowOrder rowOrderOf(int rotationDegrees) noexcept;

/// The rows of a sensor in the picture as it is shown.
struct SensorRows {
    int pictureWidth{};
    int pictureHeight{};
    RowOrder order{RowOrder::Down};

    /// 0 at the edge that is read first, 1 at the edge that is read last; linear beyond both.
    [[nodiscard]] double at(PointPx point) const noexcept;
    /// Change of at() for a pixel to the right and for a pixel down.
    [[nodiscard]] PointPx perPx() const noexcept;
};

}  // namespace core::image
