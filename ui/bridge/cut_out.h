#pragma once

#include <QImage>
#include <QPointF>
#include <QRectF>
#include <QSize>

#include "core/media/frames/frame.h"

namespace ui::bridge {

/// A square of a frame, resampled: what is inside centre ± halfSidePx of the picture fills an image
/// of sidePx by sidePx.
struct CutOut {
    core::timebase::FrameIndex frame;
    QPointF
        centrePx;  ///< continuous picture coordinates, (0, 0) is the corner of the top left pixel
    double halfSidePx{};
    int sidePx{};
};

/// The whole picture, scaled down to fit into the box when the box is not empty.
[[nodiscard]] QImage wholePicture(const core::media::Frame& frame, QSize fitInto);
/// A copy in the format that Qt paints fastest.
[[nodiscard]] QImage imageOf(const core::PixelBuffer& pixels);
/// Parts outside the picture are black.
[[nodiscard]] QImage cutOutPicture(const core::media::Frame& frame, const CutOut& cutOut);
/// The same from a picture that shows only `place` of the frame; parts outside it are black.
[[nodiscard]] QImage cutOutPicture(const QImage& picture, const QRectF& place,
                                   const CutOut& cutOut);

}  // namespace ui::bridge
