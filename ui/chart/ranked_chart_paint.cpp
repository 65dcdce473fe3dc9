#include <qcustomplot.h>

#include <algorithm>
#include <cmath>

#include "core/report/number_format.h"
#include "ui/chart/plot_look.h"
#include "ui/chart/ranked_chart.h"
#include "ui/chart/shot_strokes.h"
#include "ui/style/data_palette.h"

/// What the ranked chart draws.
namespace ui::chart {
namespace {

using core::findings::CellFinding;
using core::findings::Estimate;

constexpr double kMarkerPx = 9.0;      // size of a mean's marker
constexpr int kNamePx = 260;           // longest name beside the axis and in the legend
constexpr int kLettersPx = 64;         // room for letters at the right
constexpr double kBand = 0.30;         // hitters are drawn within ± this of their implement's line
constexpr double kRulerPlace = 0.955;  // of the height of the chart, from above
constexpr double kRulerGrabPx = 9.0;

QString chartText(const std::string& utf8) {
    return QString::fromStdString(utf8);
}

QString estimateText(const QString& who, const Estimate& mean) {
    const double sigma = mean.standardUncertainty;
    return QStringLiteral("%1: %2 rpm (%3)")
        .arg(who, chartText(core::report::withDigitsOf(mean.value, sigma)),
             chartText(
                 core::report::intervalText(mean.interval95.low, mean.interval95.high, sigma)));
}

}  // namespace

void RankedChart::makeLines() {
    m_lines.clear();
    if (!m_findings) {
        return;
    }
    const auto* comparison =
        m_hitter ? m_findings->comparisonOf(*m_hitter) : &m_findings->together();
    if (comparison == nullptr) {
        comparison = &m_findings->together();
    }
    for (const auto& row : comparison->ranked) {
        m_lines.push_back({row.implement, chartText(row.name), chartText(row.letters), row.mean,
                           std::nullopt, estimateText(chartText(row.name), row.mean)});
    }
    for (const auto& left : comparison->leftOut) {
        Line line{left.implement, chartText(left.name), {}, std::nullopt, std::nullopt, {}};
        const auto* found = m_findings->find(left.implement);
        if (found != nullptr && found->row.mean && !m_hitter) {
            line.bareMeanRpm = found->row.mean->meanRpm;
            line.text = QStringLiteral("%1: %2 rpm, no interval: %3")
                            .arg(line.name, chartText(core::report::fixed(*line.bareMeanRpm, 0)),
                                 chartText(left.whyNot));
        }
        m_lines.push_back(std::move(line));
    }
}

void RankedChart::rebuild() {
    m_marks.clear();
    m_tip = nullptr;
    m_rulerText = nullptr;
    m_rulerLines.clear();
    m_plot->clearItems();
    m_plot->clearPlottables();
    applyPalette();
    drawBands();
    m_strokes = new ShotStrokes{m_plot};
    m_strokes->setPen(QPen{style::mutedText(palette(), 0.55), 1.0});
    double y = static_cast<double>(m_lines.size());
    for (const Line& line : m_lines) {
        drawLine(line, y);
        drawCells(line, y);
        drawLetters(line, y);
        y -= 1.0;
    }
    placeAxes();
    drawRuler();
    drawLegend();
    m_tip = makePlotTip(*m_plot, palette(), font());
    m_plot->replot(QCustomPlot::rpQueuedReplot);
}

void RankedChart::applyPalette() {
    dressPlot(*m_plot, palette(), font());
    m_plot->yAxis->grid()->setVisible(false);
    m_plot->yAxis->setSubTicks(false);
    m_plot->xAxis->setLabel(QStringLiteral("spin rate, rpm"));
    m_plot->axisRect()->setMinimumMargins(QMargins{0, fontMetrics().height() + 6, kLettersPx, 0});
}

void RankedChart::drawBands() {
    if (!m_findings) {
        return;
    }
    bool isShaded = false;
    for (const auto& band : m_findings->bands.all()) {
        constexpr double kFar = 1e7;  // beyond every axis
        const double low = band.low ? band.low->rpm : -kFar;
        const double high = band.high ? band.high->rpm : kFar;
        auto* area = new QCPItemRect{m_plot};
        area->topLeft->setTypeY(QCPItemPosition::ptAxisRectRatio);
        area->bottomRight->setTypeY(QCPItemPosition::ptAxisRectRatio);
        area->topLeft->setCoords(low, 0.0);
        area->bottomRight->setCoords(high, 1.0);
        area->setBrush(isShaded ? QBrush{style::mutedText(palette(), 0.10)} : Qt::NoBrush);
        area->setPen(QPen{style::mutedText(palette(), 0.35), 0.0, Qt::DashLine});
        area->setSelectable(false);
        isShaded = !isShaded;
    }
}

void RankedChart::drawLine(const Line& line, double y) {
    if (m_chosen == line.implement) {
        auto* band = new QCPItemRect{m_plot};
        band->topLeft->setTypeX(QCPItemPosition::ptAxisRectRatio);
        band->bottomRight->setTypeX(QCPItemPosition::ptAxisRectRatio);
        band->topLeft->setCoords(0.0, y + 0.5);
        band->bottomRight->setCoords(1.0, y - 0.5);
        QColor fill = palette().highlight().color();
        fill.setAlphaF(0.18F);
        band->setBrush(fill);
        band->setPen(Qt::NoPen);
    }
    const QColor ink = palette().text().color();
    if (line.mean) {
        auto* bar = new QCPItemLine{m_plot};
        bar->start->setCoords(line.mean->interval95.low, y);
        bar->end->setCoords(line.mean->interval95.high, y);
        bar->setPen(QPen{ink, 2.4});
        bar->setHead({QCPLineEnding::esBar, 9.0});
        bar->setTail({QCPLineEnding::esBar, 9.0});
    }
    if (!line.mean && !line.bareMeanRpm) {
        return;
    }
    const double mean = line.mean ? line.mean->value : *line.bareMeanRpm;
    auto* graph = m_plot->addGraph();
    graph->setLineStyle(QCPGraph::lsNone);
    graph->setScatterStyle(
        {QCPScatterStyle::ssCircle, QPen{ink, 2.0}, palette().base(), kMarkerPx + 1.0});
    graph->addData(mean, y);
    m_marks.push_back({mean, y, line.text, line.implement, std::nullopt, std::nullopt});
}

std::vector<const CellFinding*> RankedChart::cellsOf(core::project::ImplementId implement) const {
    std::vector<const CellFinding*> cells;
    const auto* found = m_findings ? m_findings->find(implement) : nullptr;
    if (found == nullptr) {
        return cells;
    }
    for (const std::size_t at : found->cells) {
        const CellFinding& cell = m_findings->cells[at];
        if (!m_hitter || cell.row.hitter == *m_hitter) {
            cells.push_back(&cell);
        }
    }
    return cells;
}

void RankedChart::drawCells(const Line& line, double y) {
    const auto count = m_hitters.size();
    const bool areApart = m_areHittersApart && count > 1 && !m_hitter;
    for (const CellFinding* cell : cellsOf(line.implement)) {
        const auto k =
            std::find(m_hitters.begin(), m_hitters.end(), cell->row.hitter) - m_hitters.begin();
        const double at =
            areApart
                ? y + kBand - 2.0 * kBand * static_cast<double>(k) / static_cast<double>(count - 1)
                : y - kBand;
        drawShots(*cell, at);
        if (!areApart || cell->row.readings.empty()) {
            continue;
        }
        const auto look = core::report::seriesLook(static_cast<std::size_t>(k));
        const QString who =
            QStringLiteral("%1, hitter %2").arg(line.name, chartText(cell->row.hitterName));
        double mean = cell->row.readings.front().rate.value.rpm;
        if (cell->mean) {
            mean = cell->mean->value;
            auto* bar = new QCPItemLine{m_plot};
            bar->start->setCoords(cell->mean->interval95.low, at);
            bar->end->setCoords(cell->mean->interval95.high, at);
            bar->setPen(QPen{colourOf(look, palette()), 1.6});
        }
        auto* graph = m_plot->addGraph();
        graph->setLineStyle(QCPGraph::lsNone);
        graph->setScatterStyle(scatterOf(look, palette(), kMarkerPx));
        graph->addData(mean, at);
        m_marks.push_back(
            {mean, at, cell->mean ? estimateText(who, *cell->mean) : chartText(cell->mean.whyNot()),
             cell->row.implement, cell->row.hitter, std::nullopt});
    }
}

void RankedChart::drawShots(const CellFinding& cell, double y) {
    for (const auto& reading : cell.row.readings) {
        m_strokes->add(reading.rate.value.rpm, y);
        m_marks.push_back(
            {reading.rate.value.rpm, y, {}, cell.row.implement, cell.row.hitter, reading.shot});
    }
}

/// Of a mark that is pointed at: words for every shot of a season would take longer to write than
/// the chart to draw.
QString RankedChart::textOf(const Mark& mark) const {
    if (!mark.shot) {
        return mark.text;
    }
    for (const CellFinding* cell : cellsOf(mark.implement)) {
        for (const auto& reading : cell->row.readings) {
            if (reading.shot == *mark.shot) {
                return QStringLiteral("%1, hitter %2: one shot, %3 rpm")
                    .arg(chartText(cell->row.implementName), chartText(cell->row.hitterName),
                         chartText(core::report::plusMinus(reading.rate.value.rpm,
                                                           reading.rate.sigma.rpm)));
            }
        }
    }
    return {};
}

void RankedChart::drawLetters(const Line& line, double y) {
    if (line.letters.isEmpty()) {
        return;
    }
    auto* letters = new QCPItemText{m_plot};
    letters->setClipToAxisRect(false);
    letters->position->setTypeX(QCPItemPosition::ptAxisRectRatio);
    letters->position->setCoords(1.0, y);
    letters->setPositionAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    letters->setPadding(QMargins{8, 0, 0, 0});
    letters->setText(line.letters);
    letters->setFont(font());
    letters->setColor(palette().text().color());
}

void RankedChart::drawLegend() {
    m_plot->legend->setVisible(false);
    if (m_plot->axisRect()->insetLayout()->elementCount() > 0) {
        // Above the rows, where it hides none of them.
        m_plot->axisRect()->insetLayout()->take(m_plot->legend);
        auto* row = new QCPLayoutGrid;
        row->addElement(0, 0, m_plot->legend);
        row->addElement(0, 1, new QCPLayoutElement{m_plot});  // takes what the legend leaves
        row->setColumnStretchFactor(0, 0.001);
        m_plot->plotLayout()->insertRow(0);
        m_plot->plotLayout()->addElement(0, 0, row);
        m_plot->plotLayout()->setRowStretchFactor(0, 0.001);
        m_plot->legend->setFillOrder(QCPLayoutGrid::foColumnsFirst);
    }
    m_plot->legend->clearItems();
    if (m_marks.empty() || m_hitter || !m_areHittersApart || m_hitters.size() < 2) {
        return;
    }
    m_plot->legend->setFont(font());
    m_plot->legend->setTextColor(palette().text().color());
    m_plot->legend->setBrush(palette().base());
    m_plot->legend->setBorderPen(Qt::NoPen);
    const auto add = [this](const QString& name, const QCPScatterStyle& scatter) {
        auto* sample = m_plot->addGraph();
        sample->setName(fontMetrics().elidedText(name, Qt::ElideRight, kNamePx));
        sample->setLineStyle(QCPGraph::lsNone);
        sample->setScatterStyle(scatter);
        sample->addToLegend();
    };
    for (std::size_t k = 0; k < m_hitters.size(); ++k) {
        const auto cell =
            std::find_if(m_findings->cells.begin(), m_findings->cells.end(),
                         [&](const auto& found) { return found.row.hitter == m_hitters[k]; });
        add(QStringLiteral("hitter %1").arg(chartText(cell->row.hitterName)),
            scatterOf(core::report::seriesLook(k), palette(), kMarkerPx));
    }
    add(QStringLiteral("all hitters, 95 %"),
        {QCPScatterStyle::ssCircle, QPen{palette().text().color(), 2.0}, palette().base(),
         kMarkerPx});
    m_plot->legend->setVisible(true);
}

double RankedChart::stepRpm() const {
    return m_findings && m_findings->noticeableStep ? m_findings->noticeableStep->rpm : 0.0;
}

std::optional<double> RankedChart::rulerLowRpm() const {
    if (!(stepRpm() > 0.0) || m_lines.empty()) {
        return std::nullopt;
    }
    if (m_rulerLow) {
        return m_rulerLow;
    }
    // Until it is moved: beside the chosen line, reaching down from its mean.
    const auto chosenLine = std::find_if(m_lines.begin(), m_lines.end(), [this](const Line& line) {
        return m_chosen == line.implement && line.mean;
    });
    const Line& line = chosenLine == m_lines.end() ? m_lines.front() : *chosenLine;
    const double upper = line.mean ? line.mean->value : m_plot->xAxis->range().upper;
    return upper - stepRpm();
}

void RankedChart::drawRuler() {
    if (!rulerLowRpm()) {
        return;
    }
    const QColor colour = style::dataColour(style::DataColour::Vermilion, palette());
    for (int k = 0; k < 3; ++k) {  // the ruler, then what its ends point at
        auto* line = new QCPItemLine{m_plot};
        for (QCPItemPosition* end : {line->start, line->end}) {
            end->setTypeY(QCPItemPosition::ptAxisRectRatio);
        }
        line->setPen(k == 0 ? QPen{colour, 3.0} : QPen{colour, 1.0, Qt::DotLine});
        if (k == 0) {
            line->setHead({QCPLineEnding::esBar, 12.0});
            line->setTail({QCPLineEnding::esBar, 12.0});
        }
        m_rulerLines.push_back(line);
    }
    m_rulerText = new QCPItemText{m_plot};
    m_rulerText->position->setTypeY(QCPItemPosition::ptAxisRectRatio);
    m_rulerText->setPositionAlignment(Qt::AlignHCenter | Qt::AlignBottom);
    m_rulerText->setPadding(QMargins{4, 0, 4, 6});
    m_rulerText->setFont(font());
    m_rulerText->setColor(colour);
    m_rulerText->setText(QStringLiteral("noticeable step %1 rpm")
                             .arg(chartText(core::report::roundTrip(stepRpm()))));
    placeRuler();
}

void RankedChart::placeRuler() {
    const double low = *rulerLowRpm();
    const double high = low + stepRpm();
    m_rulerLines[0]->start->setCoords(low, kRulerPlace);
    m_rulerLines[0]->end->setCoords(high, kRulerPlace);
    m_rulerLines[1]->start->setCoords(low, 0.0);
    m_rulerLines[1]->end->setCoords(low, 1.0);
    m_rulerLines[2]->start->setCoords(high, 0.0);
    m_rulerLines[2]->end->setCoords(high, 1.0);
    m_rulerText->position->setCoords(0.5 * (low + high), kRulerPlace);
}

void RankedChart::moveRuler(double toRpm) {
    const QCPRange axis = m_plot->xAxis->range();
    m_rulerLow = std::clamp(toRpm, axis.lower - 0.5 * stepRpm(), axis.upper - 0.5 * stepRpm());
    placeRuler();
    m_plot->replot(QCustomPlot::rpQueuedReplot);
}

QPointF RankedChart::rulerCentre() const {
    const auto low = rulerLowRpm();
    const QCPAxisRect* rect = m_plot->axisRect();
    return {m_plot->xAxis->coordToPixel(low.value_or(0.0) + 0.5 * stepRpm()),
            rect->top() + kRulerPlace * rect->height()};
}

bool RankedChart::isOnRuler(QPointF at) const {
    const auto low = rulerLowRpm();
    if (!low) {
        return false;
    }
    const double left = m_plot->xAxis->coordToPixel(*low) - kRulerGrabPx;
    const double right = m_plot->xAxis->coordToPixel(*low + stepRpm()) + kRulerGrabPx;
    return std::abs(at.y() - rulerCentre().y()) <= kRulerGrabPx && left <= at.x() &&
           at.x() <= right;
}

void RankedChart::placeAxes() {
    auto ticker = QSharedPointer<QCPAxisTickerText>::create();
    double y = static_cast<double>(m_lines.size());
    for (const Line& line : m_lines) {
        ticker->addTick(y, fontMetrics().elidedText(line.name, Qt::ElideRight, kNamePx));
        y -= 1.0;
    }
    m_plot->yAxis->setTicker(ticker);
    const double room = stepRpm() > 0.0 ? 0.2 - 0.09 * static_cast<double>(m_lines.size()) : 0.4;
    m_plot->yAxis->setRange(std::min(0.4, room),
                            std::max(1.6, static_cast<double>(m_lines.size()) + 0.6));
    double low = 0.0;
    double high = 1.0;
    if (!m_marks.empty()) {
        const auto [least, most] = std::minmax_element(
            m_marks.begin(), m_marks.end(), [](const Mark& a, const Mark& b) { return a.x < b.x; });
        low = least->x;
        high = most->x;
    }
    for (const Line& line : m_lines) {
        low = line.mean ? std::min(low, line.mean->interval95.low) : low;
        high = line.mean ? std::max(high, line.mean->interval95.high) : high;
    }
    const double margin = std::max(20.0, 0.06 * (high - low));
    m_plot->xAxis->setRange(low - margin, high + margin);
    if (!m_findings) {
        return;
    }
    for (const auto& band : m_findings->bands.all()) {  // names above, where a part is in view
        const QCPRange axis = m_plot->xAxis->range();
        const double from = std::max(axis.lower, band.low ? band.low->rpm : axis.lower);
        const double to = std::min(axis.upper, band.high ? band.high->rpm : axis.upper);
        if (!(from < to)) {
            continue;
        }
        auto* name = new QCPItemText{m_plot};
        name->setClipToAxisRect(false);
        name->position->setTypeY(QCPItemPosition::ptAxisRectRatio);
        name->position->setCoords(0.5 * (from + to), 0.0);
        name->setPositionAlignment(Qt::AlignHCenter | Qt::AlignBottom);
        name->setText(chartText(band.name));
        name->setFont(font());
        name->setColor(style::mutedText(palette()));
    }
}

}  // namespace ui::chart
