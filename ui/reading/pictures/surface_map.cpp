#include "ui/reading/pictures/surface_map.h"

#include <QPainter>

#include "ui/style/tokens.h"

namespace ui::reading {
namespace {

constexpr int kMapHeightPx = 90;

QImage mapOf(const core::reading::PictureReading& read) {
    const auto pixels = read.fit.pattern.unrolled(read.fit.angularVelocity, kMapHeightPx);
    return QImage{pixels.row(0), pixels.width(), pixels.height(),
                  static_cast<qsizetype>(pixels.strideBytes()), QImage::Format_RGB888}
        .copy();
}

}  // namespace

SurfaceMap::SurfaceMap(QWidget* parent) : QWidget{parent} {
    setSizePolicy(QSizePolicy::Preferred, QSizePolicy::Fixed);
    setToolTip(
        tr("The ball's surface, unrolled about the spin axis. The ball turns about the "
           "points where the axis leaves it: the upper and the lower edge."));
    setAccessibleName(tr("Surface of the ball, unrolled about the spin axis"));
}

void SurfaceMap::setReading(const core::reading::PictureReading& read) {
    m_map = mapOf(read);
    update();
}

void SurfaceMap::paintEvent(QPaintEvent*) {
    QPainter painter{this};
    const int line = fontMetrics().height();
    const QRect place = rect().adjusted(0, line, -1, -line);
    painter.setRenderHint(QPainter::SmoothPixmapTransform);
    painter.drawImage(place, m_map);
    painter.setPen(style::colour(style::Token::Quiet, palette()));
    const int middle = place.center().x();
    painter.drawLine(middle, 2, middle, place.top());
    painter.drawLine(middle, place.bottom(), middle, height() - 2);
    painter.drawText(QRect{middle + 6, 0, width(), line}, Qt::AlignLeft, tr("axis"));
    painter.drawText(QRect{0, height() - line, middle - 6, line}, Qt::AlignRight,
                     tr("one turn across"));
}

}  // namespace ui::reading
