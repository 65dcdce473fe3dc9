#include "ui/bridge/cut_out.h"

#include <algorithm>
#include <cmath>
#include <cstring>

namespace ui::bridge {
namespace {

int mixed(int a, int b, double share) {
    return static_cast<int>(a + (b - a) * share + 0.5);  // positive: rounded
}

QRgb mixed(QRgb a, QRgb b, double share) {
    return qRgb(mixed(qRed(a), qRed(b), share), mixed(qGreen(a), qGreen(b), share),
                mixed(qBlue(a), qBlue(b), share));
}

/// The colour between the centres of four pixels. The point is clamped to the picture.
QRgb sampled(const QImage& picture, QPointF at) {
    const double x = std::clamp(at.x() - 0.5, 0.0, picture.width() - 1.0);
    const double y = std::clamp(at.y() - 0.5, 0.0, picture.height() - 1.0);
    const int left = std::min(static_cast<int>(x), picture.width() - 2);
    const int top = std::min(static_cast<int>(y), picture.height() - 2);
    const auto* above = reinterpret_cast<const QRgb*>(picture.constScanLine(top)) + left;
    const auto* below = reinterpret_cast<const QRgb*>(picture.constScanLine(top + 1)) + left;
    return mixed(mixed(above[0], above[1], x - left), mixed(below[0], below[1], x - left), y - top);
}

}  // namespace

QImage imageOf(const core::PixelBuffer& pixels) {
    const QImage borrowed{pixels.row(0), pixels.width(), pixels.height(),
                          static_cast<qsizetype>(pixels.strideBytes()), QImage::Format_RGB888};
    return borrowed.convertToFormat(QImage::Format_RGB32);
}

QImage cutOutPicture(const QImage& picture, const QRectF& place, const CutOut& cutOut) {
    QImage image{cutOut.sidePx, cutOut.sidePx, QImage::Format_RGB32};
    image.fill(Qt::black);
    if (picture.width() < 2 || picture.height() < 2 || place.isEmpty()) {
        return image;
    }
    const double scale = cutOut.sidePx / (2.0 * cutOut.halfSidePx);
    const double shrink = picture.width() / place.width();
    for (int y = 0; y < image.height(); ++y) {
        auto* row = reinterpret_cast<QRgb*>(image.scanLine(y));
        for (int x = 0; x < image.width(); ++x) {
            const QPointF offset{x + 0.5 - image.width() / 2.0, y + 0.5 - image.height() / 2.0};
            const QPointF at = cutOut.centrePx + offset / scale;
            if (place.contains(at)) {
                row[x] = sampled(picture, (at - place.topLeft()) * shrink);
            }
        }
    }
    return image;
}

QImage wholePicture(const core::media::Frame& frame, QSize fitInto) {
    const bool scale = !fitInto.isEmpty() &&
                       (frame.width() > fitInto.width() || frame.height() > fitInto.height());
    return imageOf(scale ? frame.rgbScaledToFit(fitInto.width(), fitInto.height()) : frame.rgb());
}

QImage cutOutPicture(const core::media::Frame& frame, const CutOut& cutOut) {
    // One pixel more on every side, so that interpolation has its neighbours.
    const int left = static_cast<int>(std::floor(cutOut.centrePx.x() - cutOut.halfSidePx)) - 1;
    const int top = static_cast<int>(std::floor(cutOut.centrePx.y() - cutOut.halfSidePx)) - 1;
    const int side = static_cast<int>(std::ceil(2.0 * cutOut.halfSidePx)) + 3;
    QImage region = imageOf(frame.rgbRegion(left, top, side, side));
    const double scale = cutOut.sidePx / (2.0 * cutOut.halfSidePx);
    if (scale < 0.6) {  // bilinear sampling skips pixels when it shrinks further
        const int shrunk = std::max(2, static_cast<int>(std::lround(side * scale)));
        region = region.scaled(shrunk, shrunk, Qt::IgnoreAspectRatio, Qt::SmoothTransformation);
    }
    // The painter rounds a shift without scale to whole pixels; the ball would tremble.
    const double shrink = static_cast<double>(region.width()) / side;
    QImage image{cutOut.sidePx, cutOut.sidePx, QImage::Format_RGB32};
    for (int y = 0; y < image.height(); ++y) {
        auto* row = reinterpret_cast<QRgb*>(image.scanLine(y));
        for (int x = 0; x < image.width(); ++x) {
            const QPointF offset{x + 0.5 - image.width() / 2.0, y + 0.5 - image.height() / 2.0};
            row[x] =
                sampled(region, (cutOut.centrePx + offset / scale - QPointF(left, top)) * shrink);
        }
    }
    return image;
}

}  // namespace ui::bridge
