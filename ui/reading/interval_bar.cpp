#include "ui/reading/interval_bar.h"

#include <QPainter>
#include <algorithm>

#include "ui/reading/reading_look.h"
#include "ui/style/tabular_font.h"

namespace ui::reading {
namespace {

constexpr double kSidePx = 6.0;
constexpr double kLeastHalfRange = 0.10;  // of the estimate
constexpr double kAir = 1.12;

}  // namespace

IntervalBar::IntervalBar(QWidget* parent) : QWidget{parent} {
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
}

void IntervalBar::setContent(std::optional<Content> content) {
    m_content = content;
    setVisible(m_content.has_value());
    if (m_content) {
        setToolTip(
            tr("Thick: 95 % interval. Thin: what the marks allow at all. Diamond: estimate."));
    }
    updateGeometry();
    update();
}

QSize IntervalBar::sizeHint() const {
    const bool hasRuler = m_content && m_content->noticeableStep;
    return {160, 26 + fontMetrics().height() * (hasRuler ? 2 : 1)};
}

core::Interval<core::Rpm> IntervalBar::shownRange(const Content& content) {
    const double centre = content.estimate.rpm;
    double half = kLeastHalfRange * centre;
    for (const auto& wide : {std::optional{content.interval95}, content.bounds}) {
        if (wide) {
            half = std::max({half, centre - wide->low.rpm, wide->high.rpm - centre});
        }
    }
    if (content.noticeableStep) {
        half = std::max(half, content.noticeableStep->rpm / 2.0);  // the ruler must fit
    }
    return {{centre - kAir * half}, {centre + kAir * half}};
}

void IntervalBar::paintEvent(QPaintEvent*) {
    if (!m_content) {
        return;
    }
    QPainter painter{this};
    painter.setRenderHint(QPainter::Antialiasing);
    const auto range = shownRange(*m_content);
    const double pxPerRpm = (width() - 2.0 * kSidePx) / (range.high.rpm - range.low.rpm);
    const auto x = [&](core::Rpm rate) { return kSidePx + (rate.rpm - range.low.rpm) * pxPerRpm; };
    const double y = 12.0;
    const QColor text = palette().color(QPalette::WindowText);
    const QColor ink = style::dataColour(style::DataColour::Blue, palette());
    painter.setPen(QPen{style::mutedText(palette(), 0.25), 1.0});
    painter.drawLine(QPointF{kSidePx, y}, QPointF{width() - kSidePx, y});
    if (const auto& bounds = m_content->bounds) {
        painter.setPen(QPen{text, 1.5});
        painter.drawLine(QPointF{x(bounds->low), y}, QPointF{x(bounds->high), y});
        for (const core::Rpm end : {bounds->low, bounds->high}) {
            painter.drawLine(QPointF{x(end), y - 6.0}, QPointF{x(end), y + 6.0});
        }
    }
    painter.setPen(QPen{ink, 6.0, Qt::SolidLine, Qt::FlatCap});
    painter.drawLine(QPointF{x(m_content->interval95.low), y},
                     QPointF{x(m_content->interval95.high), y});
    style::drawShape(painter, style::Shape::Diamond, {x(m_content->estimate), y}, 7.5, text);

    painter.setFont(style::tabularFont(font()));
    painter.setPen(style::mutedText(palette(), 0.75));
    const QRectF labels{kSidePx, y + 9.0, width() - 2.0 * kSidePx, fontMetrics().height() + 2.0};
    painter.drawText(labels, Qt::AlignLeft, fixedText(range.low.rpm, 0));
    painter.drawText(labels, Qt::AlignRight, tr("%1 rpm").arg(range.high.rpm, 0, 'f', 0));
    if (const auto& step = m_content->noticeableStep) {
        const double length = step->rpm * pxPerRpm;
        const double rulerY = labels.bottom() + 4.0;
        const double left = (width() - length) / 2.0;
        painter.drawLine(QPointF{left, rulerY}, QPointF{left + length, rulerY});
        painter.drawLine(QPointF{left, rulerY - 3.0}, QPointF{left, rulerY + 3.0});
        painter.drawLine(QPointF{left + length, rulerY - 3.0},
                         QPointF{left + length, rulerY + 3.0});
        painter.drawText(
            QRectF{0.0, rulerY + 1.0, static_cast<double>(width()), fontMetrics().height() + 2.0},
            Qt::AlignHCenter, tr("noticeable step %1 rpm").arg(step->rpm, 0, 'f', 0));
    }
}

}  // namespace ui::reading
