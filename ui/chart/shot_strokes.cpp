#include "ui/chart/shot_strokes.h"

namespace ui::chart {
namespace {

constexpr double kHalfLengthPx = 3.5;

}  // namespace

double ShotStrokes::selectTest(const QPointF& /*place*/, bool /*onlySelectable*/,
                               QVariant* /*details*/) const {
    return -1.0;
}

void ShotStrokes::draw(QCPPainter* painter) {
    const QCPAxis& across = *mParentPlot->xAxis;
    const QCPAxis& up = *mParentPlot->yAxis;
    QVector<QLineF> lines;
    lines.reserve(m_places.size());
    for (const QPointF& place : m_places) {
        const double x = across.coordToPixel(place.x());
        const double y = up.coordToPixel(place.y());
        lines.append({x, y - kHalfLengthPx, x, y + kHalfLengthPx});
    }
    painter->setAntialiasing(false);
    painter->setPen(m_pen);
    painter->drawLines(lines);
}

}  // namespace ui::chart
