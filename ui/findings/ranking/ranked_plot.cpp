#include "ui/findings/ranking/ranked_plot.h"

#include <QFontMetricsF>
#include <QPainter>
#include <algorithm>
#include <cmath>

#include "core/report/number_format.h"
#include "ui/chart/series_drawing.h"
#include "ui/findings/tr.h"
#include "ui/style/data_palette.h"
#include "ui/style/text_font.h"
#include "ui/style/tokens.h"

namespace ui::findings {
namespace {

using core::publish::Axis;
using models::RankedMark;

constexpr int kRowPx = 32;
constexpr int kCompactRowPx = 22;
constexpr int kLanePx = 8;
constexpr double kOwnRadiusPx = 4.5;
constexpr double kSmallOwnRadiusPx = 3.2;
constexpr double kPointLane = 0.18;     // of the height of a row, from its edges
constexpr double kCapPx = 4.0;          // half the height of the bar at the end of an interval
constexpr double kTickRoomPx = 64.0;    // between two numbers of the axis, at the least
constexpr double kMostStepShare = 3.0;  // of what the rows take, that the step may ask for
constexpr double kRoomRoundStep = 1.1;
constexpr double kHeadGapPx = 6.0;

int mostTicks(double widthPx) {
    return static_cast<int>(widthPx / (kTickRoomPx * style::textScale()));
}

QColor translucent(QColor colour, double alpha) {
    colour.setAlphaF(static_cast<float>(alpha));
    return colour;
}

/// A bar from end to end of an interval. An end that lies outside the cell is an arrow.
void drawInterval(QPainter& painter, const Axis& axis, const QRectF& cell,
                  const core::Interval<double>& interval, double y, double capPx) {
    const auto end = [&](double value, double edge, double inward) {
        const double x = axis.at(value);
        const bool isOutside = inward > 0.0 ? x < edge : x > edge;
        if (isOutside) {
            const QPointF tip{edge + inward, y};
            painter.drawLine(tip, tip + QPointF{4.0 * inward, -3.0});
            painter.drawLine(tip, tip + QPointF{4.0 * inward, 3.0});
            return tip.x();
        }
        if (capPx > 0.0) {
            painter.drawLine(QPointF{x, y - capPx}, QPointF{x, y + capPx});
        }
        return x;
    };
    const double from = end(interval.low, cell.left(), 1.0);
    const double to = end(interval.high, cell.right(), -1.0);
    painter.drawLine(QPointF{from, y}, QPointF{to, y});
}

struct Span {
    double from{};
    double to{};
    [[nodiscard]] double width() const { return to - from; }
};

/// The part of a band that is in the cell.
Span bandIn(const core::findings::Band& band, const Axis& axis, const QRectF& cell) {
    return {band.low ? std::max(cell.left(), axis.at(band.low->rpm)) : cell.left(),
            band.high ? std::min(cell.right(), axis.at(band.high->rpm)) : cell.right()};
}

/// The ruler's line and its words in the upper line of the head.
void drawRuler(QPainter& painter, const RankedPlot& plot, const QRectF& cell,
               const QPalette& palette, const QFontMetricsF& metrics) {
    const QRectF ruler = rulerIn(plot, cell, metrics.height());
    const QString step = QString::fromStdString(core::report::shortest(plot.stepRpm));
    painter.setPen(palette.color(QPalette::Highlight));
    if (ruler.isEmpty()) {
        painter.drawText(QPointF{cell.left(), cell.top() + kHeadGapPx + metrics.ascent()},
                         tr("noticeable step %1 rpm: wider than this chart").arg(step));
        return;
    }
    const QString words = tr("noticeable step %1 rpm").arg(step);
    const double y = ruler.center().y();
    const double left = std::max(ruler.left(), cell.left());
    const double right = std::min(ruler.right(), cell.right());
    painter.setPen(QPen{palette.color(QPalette::Highlight), 2.5, Qt::SolidLine, Qt::FlatCap});
    painter.drawLine(QPointF{left, y}, QPointF{right, y});
    for (const double x : {ruler.left(), ruler.right()}) {
        if (cell.left() <= x && x <= cell.right()) {
            painter.drawLine(QPointF{x, y - 5.0}, QPointF{x, y + 5.0});
        }
    }
    painter.setPen(palette.color(QPalette::Highlight));
    const double width = metrics.horizontalAdvance(words);
    const bool isRight = right + kHeadGapPx + width <= cell.right();
    const bool isLeft = left - kHeadGapPx - width >= cell.left();
    if (isRight || isLeft) {
        const double at = isRight ? right + kHeadGapPx : left - kHeadGapPx - width;
        painter.drawText(QPointF{at, cell.top() + kHeadGapPx + metrics.ascent()}, words);
    }
}

}  // namespace

RankedLanes::RankedLanes(std::size_t hitters, bool isCompact, int lineHeight)
    : m_lanes{hitters + 1}, m_haveBars{!isCompact && hitters <= kMostWithBars} {
    const int usual =
        isCompact ? std::max(kCompactRowPx, lineHeight + 4) : std::max(kRowPx, lineHeight + 12);
    m_rowHeight = std::max(usual, m_haveBars ? kLanePx * static_cast<int>(m_lanes) : 0);
}

double RankedLanes::lane(std::size_t at) const noexcept {
    const auto lanes = static_cast<double>(m_lanes);
    const double pitch = m_rowHeight / std::max(4.0, lanes);
    return 0.5 * (m_rowHeight - lanes * pitch) + pitch * (static_cast<double>(at) + 0.5);
}

double RankedLanes::own() const noexcept {
    return m_haveBars ? lane((m_lanes - 1) / 2) : 0.5 * m_rowHeight;
}

double RankedLanes::hitter(std::size_t series) const noexcept {
    if (!m_haveBars) {  // in turn above and below
        return m_rowHeight * (series % 2 == 0 ? kPointLane : 1.0 - kPointLane);
    }
    return lane(series < (m_lanes - 1) / 2 ? series : series + 1);
}

double RankedLanes::ownRadius() const noexcept {
    return m_rowHeight < kRowPx ? kSmallOwnRadiusPx : kOwnRadiusPx;
}

Axis::Range rangeOf(const models::RankedTableModel& rows, bool areHittersApart, double stepRpm) {
    Axis::Range means = core::publish::emptyRange();
    Axis::Range all = core::publish::emptyRange();
    std::vector<double> halfWidths;
    const auto takeIn = [&](const RankedMark& mark) {
        take(means, mark.meanRpm);
        take(all, mark.meanRpm);
        if (mark.estimate != nullptr) {
            const auto& interval = mark.estimate->interval95;
            take(all, interval.low);
            take(all, interval.high);
            halfWidths.push_back(0.5 * (interval.high - interval.low));
        }
    };
    for (int row = 0; row < rows.rowCount(); ++row) {
        const auto& marks = rows.marksOf(row);
        if (marks.own) {
            takeIn(*marks.own);
        }
        if (areHittersApart) {
            std::for_each(marks.hitters.begin(), marks.hitters.end(), takeIn);
        }
    }
    if (isEmpty(all)) {
        return {0.0, 1.0};
    }
    double reach = 0.5 * (means.high - means.low);
    if (!halfWidths.empty()) {
        const auto middle = halfWidths.begin() + static_cast<std::ptrdiff_t>(halfWidths.size() / 2);
        std::nth_element(halfWidths.begin(), middle, halfWidths.end());
        reach = std::max(reach, 3.0 * *middle);
    }
    Axis::Range range{std::max(all.low, means.low - reach), std::min(all.high, means.high + reach)};
    const double lacking = kRoomRoundStep * stepRpm - (range.high - range.low);
    if (lacking > 0.0 && stepRpm <= kMostStepShare * (range.high - range.low)) {
        range = {range.low - 0.5 * lacking, range.high + 0.5 * lacking};
    }
    return range;
}

void drawPlotGround(QPainter& painter, const RankedPlot& plot, const QRectF& cell,
                    const QPalette& palette) {
    const Axis axis = plot.axisOver(cell.left(), cell.right());
    const QColor text = palette.color(QPalette::Text);
    bool isShaded = false;
    for (const auto& band : plot.bands) {
        const Span span = bandIn(band, axis, cell);
        if (isShaded && span.width() > 0.0) {
            painter.fillRect(QRectF{span.from, cell.top(), span.width(), cell.height()},
                             translucent(text, 0.07));
        }
        isShaded = !isShaded;
    }
    painter.setPen(QPen{translucent(text, 0.13), 1.0});
    for (const double tick : axis.ticks(mostTicks(cell.width()))) {
        const double x = std::floor(axis.at(tick)) + 0.5;
        painter.drawLine(QPointF{x, cell.top()}, QPointF{x, cell.bottom()});
    }
    if (!plot.rulerLow) {
        return;
    }
    painter.setPen(QPen{palette.color(QPalette::Highlight), 1.0, Qt::DotLine});
    for (const double value : {*plot.rulerLow, *plot.rulerLow + plot.stepRpm}) {
        const double x = std::floor(axis.at(value)) + 0.5;
        if (cell.left() <= x && x <= cell.right()) {
            painter.drawLine(QPointF{x, cell.top()}, QPointF{x, cell.bottom()});
        }
    }
}

void drawOwnMark(QPainter& painter, QPointF centre, double radius, const QPalette& palette) {
    painter.setPen(QPen{palette.color(QPalette::Text), 2.0});
    painter.setBrush(palette.color(QPalette::Base));
    painter.drawEllipse(centre, radius, radius);
}

void drawMarks(QPainter& painter, const RankedPlot& plot, const QRectF& cell,
               const models::RankedMarks& marks, const QPalette& palette) {
    const Axis axis = plot.axisOver(cell.left(), cell.right());
    painter.setRenderHint(QPainter::Antialiasing);
    if (plot.areHittersApart) {
        for (const RankedMark& mark : marks.hitters) {
            const auto look = core::report::seriesLook(mark.series);
            const QColor colour = chart::colourOf(look, palette);
            const double y = cell.top() + plot.lanes.hitter(mark.series);
            if (mark.estimate != nullptr && plot.lanes.haveBars()) {
                painter.setPen(QPen{colour, 1.5, Qt::SolidLine, Qt::FlatCap});
                drawInterval(painter, axis, cell, mark.estimate->interval95, y, 0.0);
            }
            style::drawShape(painter, chart::shapeOf(look), {axis.at(mark.meanRpm), y},
                             plot.lanes.hitterRadius(), colour);
        }
    }
    if (marks.own) {
        const double y = cell.top() + plot.lanes.own();
        if (marks.own->estimate != nullptr) {
            painter.setPen(QPen{palette.color(QPalette::Text), 2.0, Qt::SolidLine, Qt::FlatCap});
            drawInterval(painter, axis, cell, marks.own->estimate->interval95, y, kCapPx);
        }
        drawOwnMark(painter, {axis.at(marks.own->meanRpm), y}, plot.lanes.ownRadius(), palette);
    }
    painter.setRenderHint(QPainter::Antialiasing, false);
}

QRectF rulerIn(const RankedPlot& plot, const QRectF& cell, double lineHeight) {
    if (!plot.rulerLow) {
        return {};
    }
    const Axis axis = plot.axisOver(cell.left(), cell.right());
    const double left = axis.at(*plot.rulerLow);
    return {left, cell.top() + kHeadGapPx, axis.at(*plot.rulerLow + plot.stepRpm) - left,
            lineHeight};
}

int headHeight(const RankedPlot& plot, int lineHeight) {
    const int lines = 1 + (plot.stepRpm > 0.0 ? 1 : 0) + (plot.bands.empty() ? 0 : 1);
    return std::max(2, lines) * lineHeight + static_cast<int>(2.0 * kHeadGapPx);
}

void drawPlotHead(QPainter& painter, const RankedPlot& plot, const QRectF& cell,
                  const QPalette& palette, const QFont& font) {
    painter.setFont(font);
    const QFontMetricsF metrics{font};
    const Axis axis = plot.axisOver(cell.left(), cell.right());
    if (plot.stepRpm > 0.0) {
        painter.setRenderHint(QPainter::Antialiasing);
        drawRuler(painter, plot, cell, palette, metrics);
        painter.setRenderHint(QPainter::Antialiasing, false);
    }
    const double numbers = cell.bottom() - kHeadGapPx - metrics.height();
    painter.setPen(style::colour(style::Token::Quiet, palette));
    for (const auto& band : plot.bands) {
        const Span span = bandIn(band, axis, cell);
        const QString name =
            metrics.elidedText(QString::fromStdString(band.name), Qt::ElideRight, span.width());
        painter.drawText(
            QRectF{span.from, numbers - metrics.height(), span.width(), metrics.height()},
            Qt::AlignCenter, name);
    }
    const auto ticks = axis.ticks(mostTicks(cell.width()));
    const double step = ticks.size() > 1 ? ticks[1] - ticks[0] : 1.0;
    for (const double tick : ticks) {
        const QString number = QString::fromStdString(Axis::label(tick, step));
        const double width = metrics.horizontalAdvance(number);
        const double x = axis.at(tick) - 0.5 * width;
        if (cell.left() <= x && x + width <= cell.right()) {
            painter.drawText(QPointF{x, numbers + metrics.ascent()}, number);
        }
    }
}

}  // namespace ui::findings
