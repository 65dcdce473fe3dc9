#include "ui/chart/ranked_chart.h"

#include <qcustomplot.h>

#include <QEvent>
#include <QKeyEvent>
#include <QVBoxLayout>
#include <algorithm>
#include <cmath>

#include "core/report/number_format.h"
#include "ui/style/data_palette.h"

namespace ui::chart {
namespace {

using core::project::HitterId;
using core::report::GroupMean;

constexpr double kTextMarkers = 9.0;  // size of a mean's marker, px
constexpr double kPointingPx = 9.0;   // how near is near enough to be pointed at
constexpr int kNamePx = 260;          // longest name beside the axis
constexpr double kBand = 0.30;        // hitters are drawn within ± this of their implement's line

QString text(const std::string& utf8) {
    return QString::fromStdString(utf8);
}

QString meanText(const QString& who, const GroupMean& mean) {
    if (!mean.interval95 || !mean.standardUncertaintyRpm) {
        return QStringLiteral("%1: %2 rpm, no interval")
            .arg(who, text(core::report::fixed(mean.meanRpm, 0)));
    }
    const double sigma = *mean.standardUncertaintyRpm;
    return QStringLiteral("%1: %2 rpm (%3)")
        .arg(who, text(core::report::withDigitsOf(mean.meanRpm, sigma)),
             text(core::report::intervalText(mean.interval95->low.rpm, mean.interval95->high.rpm,
                                             sigma)));
}

QCPScatterStyle scatterOf(const style::SeriesLook& look, const QPalette& palette) {
    const QColor colour = style::dataColour(look.colour, palette);
    QCPScatterStyle::ScatterShape shape = QCPScatterStyle::ssDisc;
    switch (look.shape) {
        case style::Shape::Square:
            shape = QCPScatterStyle::ssSquare;
            break;
        case style::Shape::Diamond:
            shape = QCPScatterStyle::ssDiamond;
            break;
        case style::Shape::TriangleUp:
            shape = QCPScatterStyle::ssTriangle;
            break;
        case style::Shape::TriangleDown:
            shape = QCPScatterStyle::ssTriangleInverted;
            break;
        case style::Shape::Cross:
            shape = QCPScatterStyle::ssCross;
            break;
        case style::Shape::Ring:
        case style::Shape::DoubleRing:
            shape = QCPScatterStyle::ssCircle;
            break;
        default:
            break;
    }
    return {shape, QPen{colour, 1.6}, QBrush{colour}, kTextMarkers};
}

}  // namespace

RankedChart::RankedChart(QWidget* parent) : QWidget{parent}, m_plot{new QCustomPlot} {
    auto* layout = new QVBoxLayout{this};
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(m_plot);
    setFocusPolicy(Qt::StrongFocus);
    setFocusProxy(nullptr);
    m_plot->setFocusPolicy(Qt::NoFocus);
    m_plot->setMouseTracking(true);
    m_plot->installEventFilter(this);
    installEventFilter(this);
    setAccessibleName(QStringLiteral("Ranked chart of the implements"));
    m_plot->setInteractions({});
    m_plot->setAutoAddPlottableToLegend(false);
    m_plot->plotLayout()->setMargins(QMargins{6, 6, 10, 4});
    rebuild();
}

RankedChart::~RankedChart() = default;

void RankedChart::show(const core::report::Summary& summary) {
    m_summary = summary;
    m_hitters.clear();
    for (const auto& cell : m_summary.cells) {
        if (std::find(m_hitters.begin(), m_hitters.end(), cell.hitter) == m_hitters.end()) {
            m_hitters.push_back(cell.hitter);
        }
    }
    std::sort(m_hitters.begin(), m_hitters.end());
    rebuild();
}

void RankedChart::setChosen(std::optional<core::project::ImplementId> implement) {
    if (m_chosen != implement) {
        m_chosen = implement;
        rebuild();
    }
}

void RankedChart::rebuild() {
    m_marks.clear();
    m_tip = nullptr;
    m_plot->clearItems();
    m_plot->clearPlottables();
    applyPalette();
    double y = static_cast<double>(m_summary.implements.size());
    for (const auto& row : m_summary.implements) {
        drawImplement(row, y);
        drawHitters(row, y);
        y -= 1.0;
    }
    placeAxes();
    drawLegend();
    m_tip = new QCPItemText{m_plot};
    m_tip->setVisible(false);
    m_tip->setPadding(QMargins{6, 3, 6, 3});
    m_tip->setBrush(palette().toolTipBase());
    m_tip->setColor(palette().toolTipText().color());
    m_tip->setPen(QPen{style::mutedText(palette())});
    m_tip->setFont(font());
    m_plot->replot(QCustomPlot::rpQueuedReplot);
}

void RankedChart::applyPalette() {
    const QColor ink = palette().text().color();
    const QColor quiet = style::mutedText(palette());
    QColor grid = quiet;
    grid.setAlphaF(0.25F);
    m_plot->setBackground(palette().base());
    for (QCPAxis* axis : {m_plot->xAxis, m_plot->yAxis}) {
        axis->setBasePen(QPen{quiet});
        axis->setTickPen(QPen{quiet});
        axis->setSubTickPen(QPen{quiet});
        axis->setTickLabelColor(ink);
        axis->setLabelColor(ink);
        axis->setTickLabelFont(font());
        axis->setLabelFont(font());
        axis->grid()->setPen(QPen{grid, 0.0, Qt::DotLine});
        axis->grid()->setZeroLinePen(Qt::NoPen);
    }
    m_plot->yAxis->grid()->setVisible(false);
    m_plot->yAxis->setSubTicks(false);
    m_plot->xAxis->setLabel(QStringLiteral("spin rate, rpm"));
}

void RankedChart::drawImplement(const core::report::ImplementRow& row, double y) {
    if (m_chosen == row.implement) {
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
    if (!row.mean) {
        return;
    }
    const QColor ink = palette().text().color();
    if (row.mean->interval95) {
        auto* bar = new QCPItemLine{m_plot};
        bar->start->setCoords(row.mean->interval95->low.rpm, y);
        bar->end->setCoords(row.mean->interval95->high.rpm, y);
        bar->setPen(QPen{ink, 2.4});
        bar->setHead({QCPLineEnding::esBar, 9.0});
        bar->setTail({QCPLineEnding::esBar, 9.0});
    }
    auto* graph = m_plot->addGraph();
    graph->setLineStyle(QCPGraph::lsNone);
    graph->setScatterStyle(
        {QCPScatterStyle::ssCircle, QPen{ink, 2.0}, palette().base(), kTextMarkers + 1.0});
    graph->addData(row.mean->meanRpm, y);
    m_marks.push_back(
        {row.mean->meanRpm, y,
         meanText(text(row.implementName) + QStringLiteral(", all hitters"), *row.mean),
         row.implement, std::nullopt, std::nullopt});
}

void RankedChart::drawHitters(const core::report::ImplementRow& row, double y) {
    const auto count = m_hitters.size();
    for (const auto& cell : m_summary.cells) {
        if (cell.implement != row.implement || !cell.mean) {
            continue;
        }
        const auto k =
            std::find(m_hitters.begin(), m_hitters.end(), cell.hitter) - m_hitters.begin();
        const double offset = count < 2 ? -kBand
                                        : kBand - 2.0 * kBand * static_cast<double>(k) /
                                                      static_cast<double>(count - 1);
        const double at = y + offset;
        const auto look = style::seriesLook(static_cast<int>(k));
        const QColor colour = style::dataColour(look.colour, palette());
        drawShots(cell, at);
        if (cell.mean->interval95) {
            auto* bar = new QCPItemLine{m_plot};
            bar->start->setCoords(cell.mean->interval95->low.rpm, at);
            bar->end->setCoords(cell.mean->interval95->high.rpm, at);
            bar->setPen(QPen{colour, 1.6});
        }
        auto* graph = m_plot->addGraph();
        graph->setLineStyle(QCPGraph::lsNone);
        graph->setScatterStyle(scatterOf(look, palette()));
        graph->addData(cell.mean->meanRpm, at);
        m_marks.push_back({cell.mean->meanRpm, at,
                           meanText(QStringLiteral("%1, hitter %2")
                                        .arg(text(cell.implementName), text(cell.hitterName)),
                                    *cell.mean),
                           cell.implement, cell.hitter, std::nullopt});
    }
}

void RankedChart::drawShots(const core::report::CellRow& cell, double y) {
    QColor quiet = style::mutedText(palette(), 0.55);
    auto* graph = m_plot->addGraph();
    graph->setLineStyle(QCPGraph::lsNone);
    QPainterPath stroke;
    stroke.moveTo(0.0, -3.5);
    stroke.lineTo(0.0, 3.5);
    graph->setScatterStyle({stroke, QPen{quiet, 1.2}, Qt::NoBrush, 7.0});
    for (const auto& reading : cell.readings) {
        graph->addData(reading.rate.value.rpm, y);
        m_marks.push_back({reading.rate.value.rpm, y,
                           QStringLiteral("%1, hitter %2: one shot, %3 rpm")
                               .arg(text(cell.implementName), text(cell.hitterName),
                                    text(core::report::plusMinus(reading.rate.value.rpm,
                                                                 reading.rate.sigma.rpm))),
                           cell.implement, cell.hitter, reading.shot});
    }
}

void RankedChart::drawLegend() {
    m_plot->legend->setVisible(false);
    if (m_plot->axisRect()->insetLayout()->elementCount() > 0) {
        m_plot->axisRect()->insetLayout()->setInsetAlignment(0, Qt::AlignRight | Qt::AlignBottom);
    }
    m_plot->legend->clearItems();
    if (m_marks.empty()) {
        return;
    }
    m_plot->legend->setFont(font());
    m_plot->legend->setTextColor(palette().text().color());
    m_plot->legend->setBrush(palette().base());
    m_plot->legend->setBorderPen(QPen{style::mutedText(palette(), 0.3)});
    auto add = [this](const QString& name, const QCPScatterStyle& scatter) {
        auto* sample = m_plot->addGraph();
        sample->setName(name);
        sample->setLineStyle(QCPGraph::lsNone);
        sample->setScatterStyle(scatter);
        sample->addToLegend();
    };
    for (std::size_t k = 0; k < m_hitters.size(); ++k) {
        const auto cell = std::find_if(m_summary.cells.begin(), m_summary.cells.end(),
                                       [&](const auto& row) { return row.hitter == m_hitters[k]; });
        add(QStringLiteral("hitter %1").arg(text(cell->hitterName)),
            scatterOf(style::seriesLook(static_cast<int>(k)), palette()));
    }
    add(QStringLiteral("all hitters, 95 %"),
        {QCPScatterStyle::ssCircle, QPen{palette().text().color(), 2.0}, palette().base(),
         kTextMarkers});
    m_plot->legend->setVisible(true);
}

void RankedChart::placeAxes() {
    auto ticker = QSharedPointer<QCPAxisTickerText>::create();
    double y = static_cast<double>(m_summary.implements.size());
    for (const auto& row : m_summary.implements) {
        const QString name = text(row.implementName);
        ticker->addTick(y, fontMetrics().elidedText(name, Qt::ElideRight, kNamePx));
        y -= 1.0;
    }
    m_plot->yAxis->setTicker(ticker);
    m_plot->yAxis->setRange(0.4,
                            std::max(1.6, static_cast<double>(m_summary.implements.size()) + 0.6));
    double low = 0.0;
    double high = 1.0;
    if (!m_marks.empty()) {
        const auto [least, most] = std::minmax_element(
            m_marks.begin(), m_marks.end(), [](const Mark& a, const Mark& b) { return a.x < b.x; });
        low = least->x;
        high = most->x;
    }
    const double margin = std::max(20.0, 0.06 * (high - low));
    m_plot->xAxis->setRange(low - margin, high + margin);
}

const RankedChart::Mark* RankedChart::markNear(QPointF at) const {
    const Mark* nearest = nullptr;
    double best = kPointingPx;
    for (const Mark& mark : m_marks) {
        const double dx = m_plot->xAxis->coordToPixel(mark.x) - at.x();
        const double dy = m_plot->yAxis->coordToPixel(mark.y) - at.y();
        const double distance = std::hypot(dx, dy);
        if (distance <= best) {
            best = distance;
            nearest = &mark;
        }
    }
    return nearest;
}

void RankedChart::point(const Mark* mark) {
    if (m_tip == nullptr) {
        return;
    }
    m_tip->setVisible(mark != nullptr);
    if (mark != nullptr) {
        m_tip->setText(mark->text);
        const bool isRight = m_plot->xAxis->coordToPixel(mark->x) > m_plot->width() * 0.6;
        m_tip->setPositionAlignment((isRight ? Qt::AlignRight : Qt::AlignLeft) | Qt::AlignBottom);
        m_tip->position->setCoords(mark->x, mark->y + 0.16);
    }
    m_plot->setCursor(mark != nullptr ? Qt::PointingHandCursor : Qt::ArrowCursor);
    m_plot->replot(QCustomPlot::rpQueuedReplot);
}

void RankedChart::stepChosen(int step) {
    const auto& rows = m_summary.implements;
    if (rows.empty()) {
        return;
    }
    const auto at = std::find_if(rows.begin(), rows.end(),
                                 [this](const auto& row) { return m_chosen == row.implement; });
    auto index = at == rows.end() ? std::ptrdiff_t{0} : (at - rows.begin()) + step;
    index = std::clamp<std::ptrdiff_t>(index, 0, static_cast<std::ptrdiff_t>(rows.size()) - 1);
    setChosen(rows[static_cast<std::size_t>(index)].implement);
    Q_EMIT chosen(*m_chosen, std::nullopt);
}

bool RankedChart::eventFilter(QObject* watched, QEvent* event) {
    if (watched == this && event->type() == QEvent::KeyPress) {
        const int key = static_cast<QKeyEvent*>(event)->key();
        if (key == Qt::Key_Up || key == Qt::Key_Down) {
            stepChosen(key == Qt::Key_Down ? 1 : -1);
            return true;
        }
        return false;
    }
    if (watched != m_plot) {
        return false;
    }
    if (event->type() == QEvent::MouseMove) {
        point(markNear(static_cast<QMouseEvent*>(event)->position()));
    } else if (event->type() == QEvent::Leave) {
        point(nullptr);
    } else if (event->type() == QEvent::MouseButtonPress) {
        setFocus(Qt::MouseFocusReason);
        const Mark* mark = markNear(static_cast<QMouseEvent*>(event)->position());
        if (mark != nullptr) {
            const Mark copy = *mark;
            setChosen(copy.implement);
            Q_EMIT chosen(copy.implement, copy.hitter);
        }
    } else if (event->type() == QEvent::MouseButtonDblClick) {
        const Mark* mark = markNear(static_cast<QMouseEvent*>(event)->position());
        if (mark != nullptr && mark->shot) {
            Q_EMIT shotActivated(*mark->shot);
        }
    }
    return false;
}

void RankedChart::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    if (event->type() == QEvent::PaletteChange || event->type() == QEvent::FontChange) {
        rebuild();
    }
}

}  // namespace ui::chart
