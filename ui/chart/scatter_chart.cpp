#include "ui/chart/scatter_chart.h"

#include <qcustomplot.h>

#include <QKeyEvent>
#include <QVBoxLayout>
#include <algorithm>
#include <cmath>

#include "ui/chart/plot_look.h"
#include "ui/style/data_palette.h"

namespace ui::chart {
namespace {

constexpr double kNearPx = 9.0;  // how near is near enough to be pointed at
constexpr double kPointPx = 7.0;
constexpr double kMargin = 0.06;  // of the range, around the points

QCPRange rangeAround(double low, double high) {
    const double margin = high > low ? kMargin * (high - low) : 1.0;
    return {low - margin, high + margin};
}

}  // namespace

ScatterChart::ScatterChart(QWidget* parent) : QWidget{parent}, m_canvas{new QCustomPlot} {
    auto* layout = new QVBoxLayout{this};
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(m_canvas);
    setFocusPolicy(Qt::StrongFocus);
    setToolTip(tr("← → go from point to point, Enter opens it"));
    m_canvas->setFocusPolicy(Qt::NoFocus);
    m_canvas->setMouseTracking(true);
    m_canvas->installEventFilter(this);
    installEventFilter(this);
    m_canvas->setInteractions({});
    rebuild();
}

void ScatterChart::show(ScatterPlot plot) {
    m_plot = std::move(plot);
    setAccessibleName(QStringLiteral("%1; %2").arg(m_plot.yLabel, m_plot.xLabel));
    std::stable_sort(m_plot.points.begin(), m_plot.points.end(),
                     [](const auto& a, const auto& b) { return a.x < b.x; });
    m_pointed.reset();
    rebuild();
}

QString ScatterChart::pointedText() const {
    return m_pointed ? m_plot.points[*m_pointed].text : QString{};
}

std::vector<style::SpokenPart> ScatterChart::spokenParts() {
    constexpr int kHalf = static_cast<int>(kNearPx);
    std::vector<style::SpokenPart> parts;
    for (std::size_t i = 0; i < m_plot.points.size(); ++i) {
        const ScatterPlot::Point& at = m_plot.points[i];
        const QPoint centre{static_cast<int>(m_canvas->xAxis->coordToPixel(at.x)),
                            static_cast<int>(m_canvas->yAxis->coordToPixel(at.y))};
        parts.push_back({at.text,
                         {},
                         QRect{m_canvas->mapTo(this, centre) - QPoint{kHalf, kHalf},
                               QSize{2 * kHalf, 2 * kHalf}},
                         m_pointed == i,
                         [this, key = at.key] { Q_EMIT activated(key); }});
    }
    return parts;
}

void ScatterChart::rebuild() {
    m_tip = nullptr;
    m_canvas->clearItems();
    m_canvas->clearPlottables();
    dressPlot(*m_canvas, palette(), font());
    m_canvas->xAxis->setLabel(m_plot.xLabel);
    m_canvas->yAxis->setLabel(m_plot.yLabel);
    auto* graph = m_canvas->addGraph();
    graph->setLineStyle(QCPGraph::lsNone);
    graph->setScatterStyle(scatterOf(core::report::seriesLook(0), palette(), kPointPx));
    double lowX = 0.0;
    double highX = 1.0;
    double lowY = 0.0;
    double highY = 1.0;
    for (std::size_t i = 0; i < m_plot.points.size(); ++i) {
        const auto& at = m_plot.points[i];
        graph->addData(at.x, at.y);
        lowX = i == 0 ? at.x : std::min(lowX, at.x);
        highX = i == 0 ? at.x : std::max(highX, at.x);
        lowY = i == 0 ? at.y : std::min(lowY, at.y);
        highY = i == 0 ? at.y : std::max(highY, at.y);
    }
    for (const auto& trend : m_plot.trends) {
        if (trend.slope == 0.0) {
            lowY = std::min(lowY, trend.level);
            highY = std::max(highY, trend.level);
        }
        auto* line = new QCPItemStraightLine{m_canvas};
        line->point1->setCoords(trend.centre, trend.level);
        line->point2->setCoords(trend.centre + 1.0, trend.level + trend.slope);
        line->setPen(QPen{style::dataColour(style::DataColour::Vermilion, palette()),
                          trend.isMinor ? 1.2 : 2.0, trend.isMinor ? Qt::DashLine : Qt::SolidLine});
    }
    m_canvas->xAxis->setRange(rangeAround(lowX, highX));
    m_canvas->yAxis->setRange(rangeAround(lowY, highY));
    m_tip = makePlotTip(*m_canvas, palette(), font());
    point(m_pointed);
}

std::optional<std::size_t> ScatterChart::pointNear(QPointF at) const {
    std::optional<std::size_t> nearest;
    double best = kNearPx;
    for (std::size_t i = 0; i < m_plot.points.size(); ++i) {
        const double dx = m_canvas->xAxis->coordToPixel(m_plot.points[i].x) - at.x();
        const double dy = m_canvas->yAxis->coordToPixel(m_plot.points[i].y) - at.y();
        if (std::hypot(dx, dy) <= best) {
            best = std::hypot(dx, dy);
            nearest = i;
        }
    }
    return nearest;
}

void ScatterChart::point(std::optional<std::size_t> at) {
    m_pointed = at;
    m_tip->setVisible(at.has_value());
    if (at) {
        const auto& chosen = m_plot.points[*at];
        m_tip->setText(chosen.text);
        const bool isRight = m_canvas->xAxis->coordToPixel(chosen.x) > 0.5 * m_canvas->width();
        const bool isHigh = m_canvas->yAxis->coordToPixel(chosen.y) < 0.3 * m_canvas->height();
        m_tip->setPositionAlignment((isRight ? Qt::AlignRight : Qt::AlignLeft) |
                                    (isHigh ? Qt::AlignTop : Qt::AlignBottom));
        m_tip->position->setCoords(chosen.x, chosen.y);
    }
    m_canvas->setCursor(at ? Qt::PointingHandCursor : Qt::ArrowCursor);
    m_canvas->replot(QCustomPlot::rpQueuedReplot);
    sayCurrent(*this);
}

bool ScatterChart::onKey(int key) {
    if (m_plot.points.empty()) {
        return false;
    }
    if (key == Qt::Key_Left || key == Qt::Key_Right) {
        const std::size_t last = m_plot.points.size() - 1;
        std::size_t next = 0;
        if (m_pointed) {
            next = key == Qt::Key_Right ? std::min(last, *m_pointed + 1)
                                        : (*m_pointed == 0 ? 0 : *m_pointed - 1);
        }
        point(next);
        return true;
    }
    if (m_pointed && (key == Qt::Key_Return || key == Qt::Key_Enter)) {
        Q_EMIT activated(m_plot.points[*m_pointed].key);
        return true;
    }
    return false;
}

bool ScatterChart::eventFilter(QObject* watched, QEvent* event) {
    if (watched == this && event->type() == QEvent::KeyPress) {
        return onKey(static_cast<QKeyEvent*>(event)->key());
    }
    if (watched != m_canvas) {
        return false;
    }
    if (event->type() == QEvent::MouseMove) {
        point(pointNear(static_cast<QMouseEvent*>(event)->position()));
    } else if (event->type() == QEvent::Leave) {
        point(std::nullopt);
    } else if (event->type() == QEvent::MouseButtonDblClick) {
        const auto at = pointNear(static_cast<QMouseEvent*>(event)->position());
        if (at) {
            Q_EMIT activated(m_plot.points[*at].key);
        }
    } else if (event->type() == QEvent::MouseButtonPress) {
        setFocus(Qt::MouseFocusReason);
    }
    return false;
}

void ScatterChart::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    if (event->type() == QEvent::PaletteChange || event->type() == QEvent::FontChange) {
        rebuild();
    }
}

}  // namespace ui::chart
