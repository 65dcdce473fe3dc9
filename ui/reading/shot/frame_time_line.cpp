#include "ui/reading/shot/frame_time_line.h"

#include <QMouseEvent>
#include <QPainter>
#include <algorithm>
#include <array>
#include <cmath>

#include "ui/reading/reading_look.h"
#include "ui/reading/shot/spoken_frame.h"
#include "ui/style/tabular_font.h"

namespace ui::reading {

using core::timebase::FrameIndex;

namespace {

constexpr double kLineMarginPx = 22.0;
constexpr double kLabelSpacingPx = 70.0;

/// The smallest of 1, 2, 5 times a power of ten that is at least the wish.
double roundStep(double wish) {
    const double decade = std::pow(10.0, std::floor(std::log10(wish)));
    for (const double factor : {1.0, 2.0, 5.0}) {
        if (factor * decade >= wish) {
            return factor * decade;
        }
    }
    return 10.0 * decade;
}

}  // namespace

FrameTimeLine::FrameTimeLine(ReadingDesk& desk, QWidget* parent) : QWidget{parent}, m_desk{desk} {
    setAccessibleName(tr("Frame time line"));
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    setToolTip(tr("Frames of the shot, in milliseconds after the strike"));
    connect(&desk, &ReadingDesk::viewChanged, this, qOverload<>(&QWidget::update));
    connect(&desk, &ReadingDesk::frameChanged, this, [this] {
        update();
        sayCurrent(*this);
    });
    connect(&desk, &ReadingDesk::shotClosed, this, qOverload<>(&QWidget::update));
}

std::vector<style::SpokenPart> FrameTimeLine::spokenParts() {
    std::vector<style::SpokenPart> parts;
    if (!m_desk.hasShot()) {
        return parts;
    }
    const ShotView& view = m_desk.view();
    for (FrameIndex frame = view.firstFrame(); frame <= view.lastFrame(); ++frame.value) {
        const QRectF place{xOf(frame) - 3.0, 0.0, 6.0, static_cast<double>(height())};
        parts.push_back({spokenFrame(view, frame), spokenTime(view, frame), place.toAlignedRect(),
                         frame == m_desk.frame(), [this, frame] { m_desk.goToFrame(frame); }});
    }
    return parts;
}

QSize FrameTimeLine::sizeHint() const {
    return {240, fontMetrics().height() * 2 + 22};
}

double FrameTimeLine::xOfSeconds(double seconds) const {
    const auto& all = m_desk.view().seconds;
    const double span = std::max(all.back() - all.front(), 1e-9);
    return kLineMarginPx + (seconds - all.front()) / span * (width() - 2.0 * kLineMarginPx);
}

double FrameTimeLine::xOf(FrameIndex frame) const {
    return xOfSeconds(m_desk.view().secondsOf(frame));
}

void FrameTimeLine::goTo(double xPx) {
    if (m_desk.hasShot()) {
        const auto& all = m_desk.view().seconds;
        const double share = (xPx - kLineMarginPx) / std::max(1.0, width() - 2.0 * kLineMarginPx);
        m_desk.goToFrame(
            m_desk.view().frameNearest(all.front() + share * (all.back() - all.front())));
    }
}

void FrameTimeLine::mousePressEvent(QMouseEvent* event) {
    goTo(event->position().x());
}

void FrameTimeLine::mouseMoveEvent(QMouseEvent* event) {
    if ((event->buttons() & Qt::LeftButton) != 0) {
        goTo(event->position().x());
    }
}

void FrameTimeLine::paintEvent(QPaintEvent*) {
    if (!m_desk.hasShot()) {
        return;
    }
    QPainter painter{this};
    painter.setLayoutDirection(Qt::LeftToRight);  // places are not mirrored
    painter.setRenderHint(QPainter::Antialiasing);
    const double lineY = 18.0;
    const QColor text = palette().color(QPalette::WindowText);
    painter.setPen(QPen{text, 1.0});
    painter.drawLine(QPointF{kLineMarginPx, lineY}, QPointF{width() - kLineMarginPx, lineY});
    const ShotView& view = m_desk.view();
    QList<QLineF> ticks;
    for (const double seconds : view.seconds) {
        const double x = xOfSeconds(seconds);
        ticks.emplace_back(x, lineY - 3.0, x, lineY + 3.0);
    }
    painter.drawLines(ticks);
    paintScale(painter, lineY);
    const double now = xOf(m_desk.frame());
    painter.setPen(QPen{palette().color(QPalette::Highlight), 3.0, Qt::SolidLine, Qt::RoundCap});
    painter.drawLine(QPointF{now, 3.0}, QPointF{now, lineY + 8.0});
    paintMarks(painter, 8.0);
}

void FrameTimeLine::paintScale(QPainter& painter, double lineY) const {
    const ShotView& view = m_desk.view();
    const double firstMs = 1000.0 * (view.seconds.front() - view.zeroSeconds);
    const double lastMs = 1000.0 * (view.seconds.back() - view.zeroSeconds);
    if (lastMs <= firstMs) {
        return;
    }
    const double pxPerMs = (width() - 2.0 * kLineMarginPx) / (lastMs - firstMs);
    const double step = roundStep(kLabelSpacingPx / pxPerMs);
    painter.setFont(style::tabularFont(font()));
    painter.setPen(style::colour(style::Token::Quiet, palette()));
    bool isFirst = true;
    for (double ms = std::ceil(firstMs / step - 1e-9) * step; ms <= lastMs + 1e-9; ms += step) {
        const double x = xOfSeconds(view.zeroSeconds + ms / 1000.0);
        painter.drawLine(QPointF{x, lineY}, QPointF{x, lineY + 7.0});
        const bool isStrike = view.shot.strikeFrame && std::abs(ms) < step / 2.0;
        const QString number = isStrike ? tr("strike 0") : fixedText(ms, 0);
        const QString label = isFirst || isStrike ? tr("%1 ms").arg(number) : number;
        isFirst = false;
        const double labelWidth = painter.fontMetrics().horizontalAdvance(label) + 2.0;
        const double left = std::clamp(x - labelWidth / 2.0, 0.0, width() - labelWidth);
        painter.drawText(QRectF{left, lineY + 8.0, labelWidth, fontMetrics().height() + 2.0},
                         Qt::AlignHCenter | Qt::AlignTop, label);
    }
}

void FrameTimeLine::paintMarks(QPainter& painter, double y) const {
    const ShotView& view = m_desk.view();
    const auto draw = [&](double x, const MarkLook& look) {
        style::drawShape(painter, look.shape, {x, y}, 6.0,
                         style::dataColour(look.colour, palette()));
    };
    if (view.shot.strikeFrame && view.contains(*view.shot.strikeFrame)) {
        draw(xOf(*view.shot.strikeFrame), kStrikeLook);
    }
    for (const auto& mark : view.shot.marks.angles) {
        draw(xOf(mark.frame), kAngleLook);
    }
    if (view.shot.marks.start) {
        draw(xOf(view.shot.marks.start->frame), kStartLook);
    }
    for (const auto& mark : view.shot.marks.returns) {
        draw(0.5 * (xOf(mark.frame) + xOf(mark.frameAfter)), kReturnLook);
    }
}

}  // namespace ui::reading
