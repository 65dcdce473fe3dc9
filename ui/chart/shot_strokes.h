#pragma once

#include <qcustomplot.h>

namespace ui::chart {

/// Many values as short upright strokes of one size: far quicker to paint than as many points of a
/// graph. Owned by its plot. Private to ui/chart.
class ShotStrokes : public QCPAbstractItem {
    Q_OBJECT

public:
    explicit ShotStrokes(QCustomPlot* plot) : QCPAbstractItem{plot} {}
    void setPen(const QPen& pen) { m_pen = pen; }
    /// In coordinates of the axes.
    void add(double x, double y) { m_places.append({x, y}); }
    /// Strokes are not chosen by the plot.
    double selectTest(const QPointF& place, bool onlySelectable, QVariant* details) const override;

protected:
    void draw(QCPPainter* painter) override;

private:
    QPen m_pen;
    QVector<QPointF> m_places;
};

}  // namespace ui::chart
