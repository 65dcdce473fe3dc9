#include "ui/footage/clip_time_line.h"

#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>
#include <QPainterPath>
#include <algorithm>
#include <cmath>

#include "ui/style/tokens.h"

namespace ui::footage {
namespace {

constexpr double kMargin = 8.0;
constexpr double kGripPx = 6.0;
constexpr double kStrikeHandlePx = 7.0;  ///< above the block
constexpr double kHandlePx = 5.0;
constexpr double kBelowPx = 8.0;      ///< the line that posts stand on
constexpr double kLeastShotPx = 8.0;  ///< narrower: shots are drawn as one
constexpr double kDensePx = 4.0;      ///< between their lines

/// Distance between labelled frames: 1, 2 or 5 times a power of ten, at least minimumPx apart.
qint64 labelStep(double pxPerFrame, double minimumPx) {
    qint64 step = 1;
    while (true) {
        for (const qint64 factor : {1, 2, 5}) {
            if (static_cast<double>(step * factor) * pxPerFrame >= minimumPx) {
                return step * factor;
            }
        }
        step *= 10;
    }
}

}  // namespace

ClipTimeLine::ClipTimeLine(QWidget* parent) : QWidget{parent} {
    setFocusPolicy(Qt::StrongFocus);
    setMouseTracking(true);
    setAccessibleName(tr("Time line of the clip"));
    setToolTip(
        tr("Click to look at a frame; drag the edges of a shot, or the triangle of its "
           "strike.\n←/→ one frame, with Shift ten. N: new shot here. Of the chosen shot: F first "
           "frame here, E last frame here, T strike here, 2 splits it here, 1 joins it with the "
           "next, Delete removes it."));
}

void ClipTimeLine::showClip(qint64 frameCount, std::vector<Block> blocks) {
    m_frameCount = frameCount;
    m_blocks = std::move(blocks);
    m_frame = std::clamp<qint64>(m_frame, 0, std::max<qint64>(0, frameCount - 1));
    m_grip.reset();
    update();
}

void ClipTimeLine::setFrame(qint64 frame) {
    m_frame = std::clamp<qint64>(frame, 0, std::max<qint64>(0, m_frameCount - 1));
    update();
    Q_EMIT frameChosen(m_frame);
}

void ClipTimeLine::setChosenShot(std::optional<core::project::ShotId> shot) {
    m_chosen = shot;
    update();
    sayCurrent(*this);
}

std::vector<style::SpokenPart> ClipTimeLine::spokenParts() {
    std::vector<style::SpokenPart> parts;
    for (const Block& block : m_blocks) {
        const QString frames = tr("frames %1 to %2").arg(block.first).arg(block.last);
        const QString strike =
            block.strike ? tr("%1, strike at frame %2").arg(frames).arg(*block.strike) : frames;
        parts.push_back({block.label, strike, rectOf(block).toAlignedRect(), m_chosen == block.shot,
                         [this, shot = block.shot] { Q_EMIT shotChosen(shot); }});
    }
    return parts;
}

QSize ClipTimeLine::sizeHint() const {
    return {420, fontMetrics().height() * 2 + 34};
}
QSize ClipTimeLine::minimumSizeHint() const {
    return {160, sizeHint().height()};
}

double ClipTimeLine::xOf(double frame) const {
    const double share = m_frameCount > 0 ? frame / static_cast<double>(m_frameCount) : 0.0;
    return kMargin + share * (width() - 2.0 * kMargin);
}

qint64 ClipTimeLine::frameAt(double x) const {
    const double share = (x - kMargin) / (width() - 2.0 * kMargin);
    const auto frame = static_cast<qint64>(std::floor(share * static_cast<double>(m_frameCount)));
    return std::clamp<qint64>(frame, 0, std::max<qint64>(0, m_frameCount - 1));
}

QRectF ClipTimeLine::rectOf(const Block& block) const {
    const double left = xOf(static_cast<double>(block.first));
    const double right = xOf(static_cast<double>(block.last + 1));
    const double top = fontMetrics().height() + 10.0;
    return {left, top, std::max(3.0, right - left), height() - top - kBelowPx};
}

std::optional<ClipTimeLine::Grip> ClipTimeLine::gripAt(QPointF at) const {
    for (std::size_t i = 0; i < m_blocks.size(); ++i) {
        const QRectF rect = rectOf(m_blocks[i]);
        if (m_blocks[i].strike && at.y() < rect.top() && at.y() >= rect.top() - kStrikeHandlePx &&
            std::abs(at.x() - xOf(static_cast<double>(*m_blocks[i].strike))) <= kGripPx) {
            return Grip{i, Edge::Strike};
        }
        if (at.y() < rect.top() || at.y() > rect.bottom()) {
            continue;
        }
        if (std::abs(at.x() - rect.right()) <= kGripPx) {
            return Grip{i, Edge::Last};
        }
        if (std::abs(at.x() - rect.left()) <= kGripPx) {
            return Grip{i, Edge::First};
        }
    }
    return std::nullopt;
}

void ClipTimeLine::paintEvent(QPaintEvent* /*event*/) {
    QPainter painter{this};
    painter.setLayoutDirection(Qt::LeftToRight);  // places are not mirrored
    painter.setRenderHint(QPainter::Antialiasing);
    painter.fillRect(rect(), palette().base());
    if (m_frameCount <= 0) {
        return;
    }
    paintFrames(painter);
    const double here = xOf(static_cast<double>(m_frame) + 0.5);
    painter.setPen(QPen{style::colour(style::Token::Grave, palette()), 2.0});
    painter.drawLine(QPointF{here, fontMetrics().height() + 2.0}, QPointF{here, height() - 2.0});
    const bool isDense = static_cast<double>(m_blocks.size()) * kLeastShotPx > width();
    if (isDense) {
        paintDense(painter);
    }
    for (const Block& block : m_blocks) {
        if (!isDense || m_chosen == block.shot) {
            paintShot(painter, block);
        }
    }
    if (hasFocus()) {
        painter.setPen(palette().highlight().color());
        painter.setBrush(Qt::NoBrush);
        painter.drawRect(rect().adjusted(0, 0, -1, -1));
    }
}

void ClipTimeLine::paintFrames(QPainter& painter) const {
    const double pxPerFrame = xOf(1.0) - xOf(0.0);
    const qint64 step =
        labelStep(pxPerFrame, fontMetrics().horizontalAdvance(QStringLiteral("00000")) + 14);
    painter.setPen(style::colour(style::Token::Quiet, palette()));
    for (qint64 frame = 0; frame < m_frameCount; frame += step) {
        const double x = xOf(static_cast<double>(frame));
        painter.drawLine(QPointF{x, fontMetrics().height() + 3.0},
                         QPointF{x, fontMetrics().height() + 8.0});
        const QString number = QString::number(frame);
        const double rightmost = width() - fontMetrics().horizontalAdvance(number) - 1.0;
        painter.drawText(QPointF{std::min(x + 1.0, rightmost), fontMetrics().ascent() + 2.0},
                         number);
    }
    painter.setPen(style::colour(style::Token::Edge, palette()));
    const double base = height() - kBelowPx;
    painter.drawLine(QPointF{xOf(0.0), base},
                     QPointF{xOf(static_cast<double>(m_frameCount)), base});
}

/// A post at the strike and, dotted, the flight from its top to a handle at the last frame; a
/// smaller handle at the first one. The chosen one stands on a ground.
void ClipTimeLine::paintShot(QPainter& painter, const Block& block) const {
    const bool isChosen = m_chosen == block.shot;
    const QRectF rect = rectOf(block);
    const QColor words = palette().text().color();
    const QColor lines = isChosen ? style::colour(style::Token::Ink, palette()) : words;
    if (isChosen) {
        painter.fillRect(rect, style::colour(style::Token::Pale, palette()));
        painter.fillRect(QRectF{rect.left(), rect.bottom() - 1.0, rect.width(), 3.0}, lines);
    }
    const double strike = block.strike ? xOf(static_cast<double>(*block.strike)) : rect.left();
    const QPointF landing{rect.right(), rect.center().y()};
    QPainterPath flight{{strike, rect.top() + 4.0}};
    flight.quadTo({rect.center().x(), rect.top() - 2.0}, landing);
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen{style::colour(style::Token::Ink, palette()), 2.0, Qt::DotLine});
    painter.drawPath(flight);
    painter.setPen(QPen{lines, isChosen ? 2.0 : 1.0});
    if (block.strike) {
        painter.drawLine(QPointF{strike, rect.top()}, QPointF{strike, rect.bottom()});
        painter.setBrush(lines);
        const double top = rect.top() - kStrikeHandlePx;
        painter.drawPolygon(
            QPolygonF{{{strike - 4.0, top}, {strike + 4.0, top}, {strike, rect.top() - 1.0}}});
    }
    painter.setBrush(palette().base());
    painter.drawLine(rect.bottomLeft(), rect.bottomLeft() - QPointF{0.0, kHandlePx});
    painter.drawRect(
        QRectF{landing.x() - kHandlePx / 2.0, landing.y() - kHandlePx / 2.0, kHandlePx, kHandlePx});
    const double wide = fontMetrics().horizontalAdvance(block.label) + 6.0;
    if (rect.width() > wide) {
        // Words keep their ground where the line of the shown frame crosses them.
        const QRectF place{rect.center().x() - wide / 2.0,
                           rect.bottom() - fontMetrics().height() - 2.0, wide,
                           static_cast<double>(fontMetrics().height())};
        painter.fillRect(place, isChosen ? style::colour(style::Token::Pale, palette())
                                         : palette().base().color());
        painter.setPen(words);
        painter.drawText(place, Qt::AlignCenter, block.label);
    }
}

/// More shots than there is room for: where there are any, and no more.
void ClipTimeLine::paintDense(QPainter& painter) const {
    const QColor fill = style::colour(style::Token::Edge, palette());
    double from = -kLeastShotPx;
    for (const Block& block : m_blocks) {
        const QRectF rect = rectOf(block);
        if (rect.left() >= from) {
            painter.fillRect(QRectF{rect.left(), rect.center().y(), 1.0, rect.height() / 2.0},
                             fill);
            from = rect.left() + kDensePx;
        }
    }
}

void ClipTimeLine::choose(qint64 frame) {
    setFrame(frame);
    const auto at = std::find_if(m_blocks.begin(), m_blocks.end(), [this](const Block& block) {
        return m_frame >= block.first && m_frame <= block.last;
    });
    if (at != m_blocks.end() && m_chosen != at->shot) {
        Q_EMIT shotChosen(at->shot);
    }
}

void ClipTimeLine::mousePressEvent(QMouseEvent* event) {
    if (event->button() != Qt::LeftButton || m_frameCount <= 0) {
        return;
    }
    m_grip = gripAt(event->position());
    if (!m_grip) {
        choose(frameAt(event->position().x()));
    } else if (m_chosen != m_blocks[m_grip->block].shot) {
        Q_EMIT shotChosen(m_blocks[m_grip->block].shot);
    }
}

void ClipTimeLine::dragGrip(qint64 frame) {
    Block& block = m_blocks[m_grip->block];
    if (m_grip->edge == Edge::First) {
        block.first = std::min(frame, block.last);
        setFrame(block.first);
    } else if (m_grip->edge == Edge::Last) {
        block.last = std::max(frame, block.first);
        setFrame(block.last);
    } else {
        block.strike = std::clamp(frame, block.first, block.last);
        setFrame(*block.strike);
    }
}

void ClipTimeLine::setEdge(Edge edge) {
    const auto at = std::find_if(m_blocks.begin(), m_blocks.end(),
                                 [this](const Block& block) { return m_chosen == block.shot; });
    if (at == m_blocks.end()) {
        return;
    }
    const qint64 frame = m_frame;
    m_grip = Grip{static_cast<std::size_t>(at - m_blocks.begin()), edge};
    dragGrip(frame);
    m_grip.reset();
    const Block block = *at;
    Q_EMIT rangeChosen(block.shot, block.first, block.last, block.strike);
}

bool ClipTimeLine::editByKey(int key) {
    switch (key) {
        case Qt::Key_N:
            Q_EMIT shotWanted();
            return true;
        case Qt::Key_2:
            Q_EMIT splitWanted();
            return true;
        case Qt::Key_1:
            Q_EMIT joinWanted();
            return true;
        case Qt::Key_Delete:
            Q_EMIT dropWanted();
            return true;
        case Qt::Key_F:
            setEdge(Edge::First);
            return true;
        case Qt::Key_E:
            setEdge(Edge::Last);
            return true;
        case Qt::Key_T:
            setEdge(Edge::Strike);
            return true;
        default:
            return false;
    }
}

void ClipTimeLine::mouseMoveEvent(QMouseEvent* event) {
    if (!(event->buttons() & Qt::LeftButton)) {
        setCursor(gripAt(event->position()) ? Qt::SizeHorCursor : Qt::ArrowCursor);
    } else if (m_grip && m_grip->block < m_blocks.size()) {
        dragGrip(frameAt(event->position().x()));
    } else if (m_frameCount > 0) {
        choose(frameAt(event->position().x()));
    }
}

void ClipTimeLine::mouseReleaseEvent(QMouseEvent* /*event*/) {
    if (m_grip && m_grip->block < m_blocks.size()) {
        const Block block = m_blocks[m_grip->block];
        m_grip.reset();
        Q_EMIT rangeChosen(block.shot, block.first, block.last, block.strike);
    }
    m_grip.reset();
}

void ClipTimeLine::keyPressEvent(QKeyEvent* event) {
    const qint64 step = event->modifiers().testFlag(Qt::ShiftModifier) ? 10 : 1;
    if (event->key() == Qt::Key_Left) {
        choose(m_frame - step < 0 ? 0 : m_frame - step);
    } else if (event->key() == Qt::Key_Right) {
        choose(m_frame + step);
    } else if (event->key() == Qt::Key_Home) {
        choose(0);
    } else if (event->key() == Qt::Key_End) {
        choose(m_frameCount - 1);
    } else if (event->modifiers() != Qt::NoModifier || !editByKey(event->key())) {
        QWidget::keyPressEvent(event);
    }
}

}  // namespace ui::footage
