#include "ui/chart/scatter_chart.h"

#include <qcustomplot.h>

#include <QKeyEvent>
#include <QVBoxLayout>
#include <algorithm>
#include <cmath>

#include "ui/chart/plot_look.h"
#include "ui/style/data_palette.h"
#include "ui/style/tokens.h"

namespace ui::chart {
namespace {

constexpr double kNearPx = 9.0;  // how near is near enough to be pointed at
constexpr double kPointPx = 7.0;
constexpr double kPointInUsePx = 12.0;
constexpr double kMargin = 0.06;  // of the range, around the points

QCPRange rangeAround(double low, double high) {
    const double margin = high > low ? kMargin * (high - low) : 1.0;
    return {low - margin, high + margin};
}

/// Words that always stand there, not only under the pointer.
void showQuietly(QCPItemText& label, const QString& text, const QPalette& palette) {
    label.setText(text);
    label.setPen(Qt::NoPen);
    label.setBrush(Qt::NoBrush);
    label.setColor(palette.text().color());
    label.setVisible(true);
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
    m_canvas->yAxis->setLabel(m_plot.isCurve ? QString{} : m_plot.yLabel);
    setRanges();
    drawPoints();
    drawTrends();
    labelPointInUse();
    m_tip = makePlotTip(*m_canvas, palette(), font());
    point(m_pointed);
}

void ScatterChart::drawPoints() {
    auto* all = m_canvas->addGraph();
    auto* inUse = m_canvas->addGraph();
    all->setLineStyle(m_plot.isCurve ? QCPGraph::lsLine : QCPGraph::lsNone);
    all->setPen(QPen{style::colour(style::Token::Quiet, palette()), 1.2});
    all->setScatterStyle(scatterOf(core::report::seriesLook(0), palette(), kPointPx));
    inUse->setLineStyle(QCPGraph::lsNone);
    inUse->setScatterStyle(scatterOf(core::report::seriesLook(0), palette(), kPointInUsePx));
    for (const auto& at : m_plot.points) {
        all->addData(at.x, at.y);
        if (at.isInUse) {
            inUse->addData(at.x, at.y);
        }
    }
}

void ScatterChart::drawTrends() {
    for (const auto& trend : m_plot.trends) {
        auto* line = new QCPItemStraightLine{m_canvas};
        line->point1->setCoords(trend.centre, trend.level);
        line->point2->setCoords(trend.centre + 1.0, trend.level + trend.slope);
        line->setPen(QPen{style::dataColour(style::DataColour::Vermilion, palette()),
                          trend.isMinor ? 1.2 : 2.0, trend.isMinor ? Qt::DashLine : Qt::SolidLine});
        if (!trend.label.isEmpty() && !m_plot.points.empty()) {
            labelTrend(trend);
        }
    }
}

/// At the end where the points are farther from the line, on the side where they are not.
void ScatterChart::labelTrend(const ScatterPlot::Trend& trend) {
    const auto levelAt = [&](double x) { return trend.level + trend.slope * (x - trend.centre); };
    const auto& first = m_plot.points.front();
    const auto& last = m_plot.points.back();
    const bool isRight = std::abs(last.y - levelAt(last.x)) > std::abs(first.y - levelAt(first.x));
    const auto range = m_canvas->xAxis->range();
    const double x = isRight ? range.upper : range.lower;
    auto* label = makePlotTip(*m_canvas, palette(), font());
    showQuietly(*label, trend.label, palette());
    const auto& near = isRight ? last : first;
    label->setPositionAlignment((isRight ? Qt::AlignRight : Qt::AlignLeft) |
                                (near.y > levelAt(near.x) ? Qt::AlignTop : Qt::AlignBottom));
    label->position->setCoords(x, levelAt(x));
}

void ScatterChart::setRanges() {
    double lowX = 0.0;
    double highX = 1.0;
    double lowY = 0.0;
    double highY = 1.0;
    for (std::size_t i = 0; i < m_plot.points.size(); ++i) {
        const auto& at = m_plot.points[i];
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
    }
    m_canvas->xAxis->setRange(rangeAround(lowX, highX));
    m_canvas->yAxis->setRange(rangeAround(m_plot.isCurve ? 0.0 : lowY, highY));
    if (m_plot.isCurve) {
        m_canvas->yAxis->setRangeLower(0.0);
        const QSharedPointer<QCPAxisTickerFixed> whole{new QCPAxisTickerFixed};
        whole->setScaleStrategy(QCPAxisTickerFixed::ssMultiples);
        m_canvas->xAxis->setTicker(whole);
        m_canvas->xAxis->setSubTicks(false);
    }
}

void ScatterChart::labelPointInUse() {
    for (const auto& at : m_plot.points) {
        if (!at.isInUse) {
            continue;
        }
        auto* label = makePlotTip(*m_canvas, palette(), font());
        showQuietly(*label, at.text, palette());
        const bool isRight = at.x > m_canvas->xAxis->range().center();
        label->setPositionAlignment((isRight ? Qt::AlignRight : Qt::AlignLeft) | Qt::AlignBottom);
        label->setPadding(QMargins{0, 0, 0, static_cast<int>(kPointInUsePx)});
        label->position->setCoords(at.x, at.y);
    }
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
