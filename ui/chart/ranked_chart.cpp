#include "ui/chart/ranked_chart.h"

#include <qcustomplot.h>

#include <QEvent>
#include <QKeyEvent>
#include <QVBoxLayout>
#include <algorithm>
#include <cmath>

namespace ui::chart {
namespace {

constexpr double kPointingPx = 9.0;  // how near is near enough to be pointed at
constexpr double kFineShare = 0.01;  // of the axis, one key press of the ruler
constexpr double kCoarseShare = 0.1;

}  // namespace

RankedChart::RankedChart(QWidget* parent) : QWidget{parent}, m_plot{new QCustomPlot} {
    auto* layout = new QVBoxLayout{this};
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(m_plot);
    setFocusPolicy(Qt::StrongFocus);
    m_plot->setFocusPolicy(Qt::NoFocus);
    m_plot->setMouseTracking(true);
    m_plot->installEventFilter(this);
    installEventFilter(this);
    setAccessibleName(QStringLiteral("Ranked chart of the implements"));
    setToolTip(
        QStringLiteral("↑ ↓ choose an implement; ← → move the noticeable step (Shift: "
                       "coarser); double click on a stroke opens its shot"));
    m_plot->setInteractions({});
    m_plot->setAutoAddPlottableToLegend(false);
    m_plot->plotLayout()->setMargins(QMargins{6, 6, 10, 4});
    rebuild();
}

RankedChart::~RankedChart() = default;

void RankedChart::show(const core::findings::FindingsPtr& findings,
                       std::optional<core::project::HitterId> hitter) {
    m_findings = findings;
    m_hitter = hitter;
    m_hitters.clear();
    if (m_findings) {
        for (const auto& cell : m_findings->cells) {
            if (std::find(m_hitters.begin(), m_hitters.end(), cell.row.hitter) == m_hitters.end()) {
                m_hitters.push_back(cell.row.hitter);
            }
        }
    }
    std::sort(m_hitters.begin(), m_hitters.end());
    makeLines();
    rebuild();
}

void RankedChart::setHittersApart(bool areApart) {
    if (m_areHittersApart != areApart) {
        m_areHittersApart = areApart;
        rebuild();
    }
}

void RankedChart::setChosen(std::optional<core::project::ImplementId> implement) {
    if (m_chosen != implement) {
        m_chosen = implement;
        rebuild();
    }
}

QWidget* RankedChart::plot() const {
    return m_plot;
}

QString RankedChart::pointedText() const {
    return m_tip != nullptr && m_tip->visible() ? m_tip->text() : QString{};
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
        m_tip->setText(textOf(*mark));
        const bool isRight = m_plot->xAxis->coordToPixel(mark->x) > m_plot->width() * 0.6;
        m_tip->setPositionAlignment((isRight ? Qt::AlignRight : Qt::AlignLeft) | Qt::AlignBottom);
        m_tip->position->setCoords(mark->x, mark->y + 0.16);
    }
    m_plot->setCursor(mark != nullptr ? Qt::PointingHandCursor : Qt::ArrowCursor);
    m_plot->replot(QCustomPlot::rpQueuedReplot);
}

void RankedChart::stepChosen(int step) {
    if (m_lines.empty()) {
        return;
    }
    const auto at = std::find_if(m_lines.begin(), m_lines.end(),
                                 [this](const Line& line) { return m_chosen == line.implement; });
    auto index = at == m_lines.end() ? std::ptrdiff_t{0} : (at - m_lines.begin()) + step;
    index = std::clamp<std::ptrdiff_t>(index, 0, static_cast<std::ptrdiff_t>(m_lines.size()) - 1);
    setChosen(m_lines[static_cast<std::size_t>(index)].implement);
    const auto mark = std::find_if(m_marks.begin(), m_marks.end(), [this](const Mark& candidate) {
        return m_chosen == candidate.implement && !candidate.hitter;
    });
    point(mark == m_marks.end() ? nullptr : &*mark);
    Q_EMIT chosen(*m_chosen, std::nullopt);
}

bool RankedChart::onKey(int key, Qt::KeyboardModifiers modifiers) {
    if (key == Qt::Key_Up || key == Qt::Key_Down) {
        stepChosen(key == Qt::Key_Down ? 1 : -1);
        return true;
    }
    const auto low = rulerLowRpm();
    if (low && (key == Qt::Key_Left || key == Qt::Key_Right)) {
        const double share = modifiers.testFlag(Qt::ShiftModifier) ? kCoarseShare : kFineShare;
        const double way = share * m_plot->xAxis->range().size();
        moveRuler(*low + (key == Qt::Key_Left ? -way : way));
        return true;
    }
    return false;
}

void RankedChart::onPress(QPointF at) {
    setFocus(Qt::MouseFocusReason);
    if (isOnRuler(at)) {
        m_dragOffset = m_plot->xAxis->pixelToCoord(at.x()) - *rulerLowRpm();
        return;
    }
    if (const Mark* mark = markNear(at)) {
        const Mark copy = *mark;
        setChosen(copy.implement);
        Q_EMIT chosen(copy.implement, copy.hitter);
    }
}

void RankedChart::onMove(QPointF at) {
    if (m_dragOffset) {
        moveRuler(m_plot->xAxis->pixelToCoord(at.x()) - *m_dragOffset);
        return;
    }
    point(markNear(at));
    if (isOnRuler(at)) {
        m_plot->setCursor(Qt::SizeHorCursor);
    }
}

bool RankedChart::eventFilter(QObject* watched, QEvent* event) {
    if (watched == this && event->type() == QEvent::KeyPress) {
        const auto* key = static_cast<QKeyEvent*>(event);
        return onKey(key->key(), key->modifiers());
    }
    if (watched == this && event->type() == QEvent::FocusOut) {
        point(nullptr);
    }
    if (watched != m_plot) {
        return false;
    }
    switch (event->type()) {
        case QEvent::MouseMove:
            onMove(static_cast<QMouseEvent*>(event)->position());
            break;
        case QEvent::Leave:
            point(nullptr);
            break;
        case QEvent::MouseButtonPress:
            onPress(static_cast<QMouseEvent*>(event)->position());
            break;
        case QEvent::MouseButtonRelease:
            m_dragOffset.reset();
            break;
        case QEvent::MouseButtonDblClick: {
            const Mark* mark = markNear(static_cast<QMouseEvent*>(event)->position());
            if (mark != nullptr && mark->shot) {
                Q_EMIT shotActivated(*mark->shot);
            }
            break;
        }
        default:
            break;
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
