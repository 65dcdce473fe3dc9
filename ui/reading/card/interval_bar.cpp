#include "ui/reading/card/interval_bar.h"

#include <QPainter>
#include <algorithm>

#include "ui/reading/reading_look.h"
#include "ui/style/tabular_font.h"

namespace ui::reading {
namespace {

constexpr double kBarMarginPx = 6.0;
constexpr double kLineY = 12.0;
constexpr double kLeastHalfRange = 0.10;  // of the estimate
constexpr double kAir = 1.12;

}  // namespace

IntervalBar::IntervalBar(QWidget* parent) : QWidget{parent} {
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    setAccessibleName(tr("Spin rate and its interval"));
}

void IntervalBar::setContent(std::optional<Content> content,
                             std::optional<core::Interval<core::Rpm>> range, bool hasScale) {
    m_content = content;
    m_hasScale = hasScale;
    m_range = range ? *range : content ? shownRange(*content) : core::Interval<core::Rpm>{};
    setVisible(m_content.has_value());
    if (m_content) {
        setToolTip(
            tr("Thick: 95 % interval. Thin: what the marks allow at all. Diamond: estimate."));
    }
    updateGeometry();
    update();
}

std::vector<style::SpokenPart> IntervalBar::spokenParts() {
    std::vector<style::SpokenPart> parts;
    if (!m_content) {
        return parts;
    }
    const auto between = [](const core::Interval<core::Rpm>& wide) {
        return tr("%1 to %2 rpm").arg(fixedText(wide.low.rpm, 0), fixedText(wide.high.rpm, 0));
    };
    parts.push_back(
        {tr("Spin rate"), tr("%1 rpm").arg(fixedText(m_content->estimate.rpm, 0)), rect(), true});
    parts.push_back({tr("95 % interval"), between(m_content->interval95), rect()});
    if (m_content->bounds) {
        parts.push_back({tr("What the marks allow at all"), between(*m_content->bounds), rect()});
    }
    if (m_content->noticeableStep) {
        parts.push_back({tr("Noticeable step"),
                         tr("%1 rpm").arg(fixedText(m_content->noticeableStep->rpm, 0)), rect()});
    }
    return parts;
}

QSize IntervalBar::sizeHint() const {
    if (!m_hasScale) {
        return {160, static_cast<int>(2.0 * kLineY)};
    }
    const bool hasRuler = m_content && m_content->noticeableStep;
    return {160, 26 + (fontMetrics().height() + 4) * (hasRuler ? 2 : 1)};
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
    painter.setLayoutDirection(Qt::LeftToRight);  // places are not mirrored
    painter.setRenderHint(QPainter::Antialiasing);
    const auto& range = m_range;
    const double pxPerRpm = (width() - 2.0 * kBarMarginPx) / (range.high.rpm - range.low.rpm);
    const auto x = [&](core::Rpm rate) {
        return kBarMarginPx + (rate.rpm - range.low.rpm) * pxPerRpm;
    };
    const QColor text = palette().color(QPalette::WindowText);
    painter.setPen(QPen{style::colour(style::Token::Line, palette()), 1.0});
    painter.drawLine(QPointF{kBarMarginPx, kLineY}, QPointF{width() - kBarMarginPx, kLineY});
    painter.setPen(QPen{text, 4.0, Qt::SolidLine, Qt::FlatCap});
    painter.drawLine(QPointF{x(m_content->interval95.low), kLineY},
                     QPointF{x(m_content->interval95.high), kLineY});
    if (const auto& bounds = m_content->bounds) {
        painter.setPen(QPen{text, 1.5});
        painter.drawLine(QPointF{x(bounds->low), kLineY}, QPointF{x(bounds->high), kLineY});
        for (const core::Rpm end : {bounds->low, bounds->high}) {
            painter.drawLine(QPointF{x(end), kLineY - 6.0}, QPointF{x(end), kLineY + 6.0});
        }
    }
    style::drawShape(painter, style::Shape::Diamond, {x(m_content->estimate), kLineY}, 6.0, text);
    if (m_hasScale) {
        paintScale(painter, pxPerRpm);
    }
}

void IntervalBar::paintScale(QPainter& painter, double pxPerRpm) const {
    const auto& range = m_range;
    const int line = fontMetrics().height() + 2;
    painter.setFont(style::tabularFont(font()));
    painter.setPen(style::colour(style::Token::Quiet, palette()));
    const QRectF labels{kBarMarginPx, kLineY + 9.0, width() - 2.0 * kBarMarginPx,
                        static_cast<double>(line)};
    painter.drawText(labels, Qt::AlignLeft, fixedText(range.low.rpm, 0));
    painter.drawText(labels, Qt::AlignRight, tr("%1 rpm").arg(fixedText(range.high.rpm, 0)));
    if (const auto& step = m_content->noticeableStep) {
        const double half = step->rpm * pxPerRpm / 2.0;
        const double y = labels.bottom() + 4.0;
        const double middle = width() / 2.0;
        painter.drawLine(QPointF{middle - half, y}, QPointF{middle + half, y});
        for (const double end : {middle - half, middle + half}) {
            painter.drawLine(QPointF{end, y - 3.0}, QPointF{end, y + 3.0});
        }
        painter.drawText(
            QRectF{0.0, y + 1.0, static_cast<double>(width()), static_cast<double>(line)},
            Qt::AlignHCenter, tr("noticeable step %1 rpm").arg(fixedText(step->rpm, 0)));
    }
}

}  // namespace ui::reading
