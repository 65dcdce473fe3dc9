#include <QPaintEvent>
#include <QPainter>
#include <QPainterPath>
#include <algorithm>

#include "ui/reading/grid/turn_grid.h"
#include "ui/reading/reading_look.h"
#include "ui/reading/shot/shot_marks.h"
#include "ui/style/text_font.h"

namespace ui::reading {

using core::timebase::FrameIndex;

namespace {

constexpr double kRingPx = 2.5;
constexpr double kCornerPx = 4.0;

const QFont& smallFont(const QFont& font, style::Weight weight = style::Weight::Regular) {
    return style::textFont(font, style::TextSize::Small, weight);
}

/// A ring that stands out from any picture: a dark line below a coloured one.
void ring(QPainter& painter, const QRectF& around, const QColor& colour, Qt::PenStyle style) {
    for (const QPen& pen : {QPen{style::casing(), kRingPx + 2.0}, QPen{colour, kRingPx, style}}) {
        painter.setPen(pen);
        painter.drawEllipse(around);
    }
}

}  // namespace

void TurnGrid::paintEvent(QPaintEvent* event) {
    QPainter painter{viewport()};
    painter.setLayoutDirection(Qt::LeftToRight);  // places are not mirrored
    painter.setRenderHints(QPainter::Antialiasing | QPainter::SmoothPixmapTransform);
    if (!m_desk.hasShot()) {
        painter.fillRect(viewport()->rect(), palette().color(QPalette::Window));
        paintHint(painter,
                  tr("No shot is open. Choose one in the list at the left, or add clips on "
                     "the Footage screen."));
        return;
    }
    painter.fillRect(viewport()->rect(), style::colour(style::Token::Sunken, palette()));
    painter.translate(-scrollOffset());
    paintRows(painter, QRectF{event->rect()}.translated(scrollOffset()));
    for (const GridCell& cell : m_layout.cells()) {
        if (placeOf(cell).intersects(event->rect())) {
            paintCell(painter, cell);
        }
    }
    paintOtherRates(painter);
    painter.resetTransform();
    paintHandle(painter);
    paintChips(painter);
}

void TurnGrid::paintRows(QPainter& painter, const QRectF& wanted) {
    const QColor faint = style::colour(style::Token::Edge, palette());
    const QColor muted = style::colour(style::Token::Quiet, palette());
    painter.setFont(smallFont(font()));
    const double bottom = m_layout.rowTopPx(m_layout.lastRow() + 1);
    painter.setPen(QPen{faint, 1.0});
    painter.drawLine(QPointF{m_layout.referenceXPx(), 0.0},
                     QPointF{m_layout.referenceXPx(), bottom});
    for (int row = m_layout.firstRow(); row <= m_layout.lastRow(); ++row) {
        const double height = std::max(m_layout.cellPx(), 2.0 * painter.fontMetrics().height());
        const QRectF label{4.0, m_layout.rowTopPx(row),
                           fontMetrics().horizontalAdvance(tr("turn")) + 4.0, height};
        if (!label.intersects(wanted)) {
            continue;
        }
        painter.setPen(muted);
        painter.drawText(label, Qt::AlignVCenter | Qt::AlignLeft, tr("turn\n%1").arg(row));
    }
    for (const GridHole& hole : m_layout.holes()) {
        const double radius = std::max(5.0, m_layout.cellPx() * 0.16);
        if (!wanted.adjusted(-radius, -radius, radius, radius).contains(hole.centre)) {
            continue;
        }
        painter.setPen(QPen{muted, 1.2, Qt::DotLine});
        painter.setBrush(Qt::NoBrush);
        painter.drawEllipse(hole.centre, radius, radius);
        style::drawShape(painter, style::Shape::Disc, hole.centre, 2.5, muted);
    }
}

/// Where the mark would be back by readings that were kept and by the pictures: a tick with its
/// letter above the pictures of every turn. Ticks that stay in one column agree with the row.
void TurnGrid::paintOtherRates(QPainter& painter) {
    const ShotView& view = m_desk.view();
    if (!m_areOtherRatesShown) {
        return;
    }
    constexpr double kTickPx = 5.0;
    const double reference = view.secondsOf(view.referenceFrame());
    const double end = view.secondsOf(view.lastFrame()) - reference;
    painter.setFont(smallFont(font()));
    painter.setPen(QPen{palette().color(QPalette::Text), 1.4});
    double shift = 0.0;  // letters of equal rates stand side by side
    for (const auto& other : view.otherRates) {
        const double turnSeconds = 60.0 / other.rpm;
        for (int turn = 1; turn * turnSeconds <= end; ++turn) {
            const QPointF at = m_layout.placeAt(turn * turnSeconds) +
                               QPointF{0.0, -0.5 * m_layout.cellPx() - kTickPx};
            painter.drawLine(at, at + QPointF{0.0, kTickPx});
            painter.drawText(at + QPointF{2.0 + shift, 2.0}, other.letter);
        }
        shift += painter.fontMetrics().horizontalAdvance(other.letter) + 1.0;
    }
}

void TurnGrid::paintCell(QPainter& painter, const GridCell& cell) {
    paintPicture(painter, cell);
    paintMarks(painter, cell);
    paintCaption(painter, cell);
    if (cell.frame == m_desk.frame()) {
        painter.setBrush(Qt::NoBrush);
        painter.setPen(QPen{palette().color(QPalette::Highlight), 2.5});
        painter.drawRoundedRect(cell.rect.adjusted(-2.5, -2.5, 2.5, 2.5), 5.0, 5.0);
    }
}

QPixmap TurnGrid::scaledPicture(FrameIndex frame) {
    const auto known = m_scaled.constFind(frame.value);
    if (known != m_scaled.constEnd()) {
        return *known;
    }
    const QImage picture = m_pictures.picture(frame);
    if (picture.isNull()) {
        return {};
    }
    const double ratio = devicePixelRatioF();
    const int side = std::max(1, static_cast<int>(m_layout.cellPx() * ratio));
    // Cut to its outline once: clipping at every painting would take most of the time.
    QPixmap scaled{side, side};
    scaled.fill(Qt::transparent);
    QPainter painter{&scaled};
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(Qt::NoPen);
    painter.setBrush(picture.scaled(side, side, Qt::IgnoreAspectRatio, Qt::SmoothTransformation));
    painter.drawPath(outlineOf(QRectF{QPointF{}, QSizeF{scaled.size()}}, ratio));
    painter.end();
    scaled.setDevicePixelRatio(ratio);
    m_scaled.insert(frame.value, scaled);
    return scaled;
}

QPainterPath TurnGrid::outlineOf(const QRectF& rect, double pxPerPoint) const {
    QPainterPath outline;
    if (m_isHeldStill) {
        outline.addEllipse(rect);
    } else {
        outline.addRoundedRect(rect, kCornerPx * pxPerPoint, kCornerPx * pxPerPoint);
    }
    return outline;
}

void TurnGrid::paintPicture(QPainter& painter, const GridCell& cell) {
    const QPixmap picture = scaledPicture(cell.frame);
    if (picture.isNull()) {
        painter.fillPath(outlineOf(cell.rect, 1.0), style::colour(style::Token::Line, palette()));
        if (!m_pictures.failure(cell.frame).isEmpty()) {
            style::drawShape(painter, kWarningLook.shape, cell.rect.center(), 7.0,
                             style::colour(style::Token::Grave, palette()));
        }
        return;
    }
    if (!m_isHeldStill) {
        painter.drawPixmap(cell.rect.topLeft(), picture);
        return;
    }
    painter.save();
    painter.translate(cell.rect.center());
    painter.rotate(shownTurnDegrees(cell.frame));
    const double half = m_layout.cellPx() / 2.0;
    painter.drawPixmap(QRectF{-half, -half, 2.0 * half, 2.0 * half}, picture,
                       QRectF{picture.rect()});
    painter.restore();
}

void TurnGrid::paintMarks(QPainter& painter, const GridCell& cell) {
    const auto& marks = m_desk.view().shot.marks;
    const double inset = kRingPx;
    const QRectF around = cell.rect.adjusted(inset, inset, -inset, -inset);
    painter.setBrush(Qt::NoBrush);
    if (marks.start && marks.start->frame == cell.frame) {
        ring(painter, around, style::publishedColour(kStartLook.colour), Qt::SolidLine);
    }
    if (const auto* mark = returnAt(marks, cell.frame)) {
        const bool isBracket = mark->kind == core::spin::ReturnMark::Kind::Bracket;
        const Qt::PenStyle line = isBracket ? Qt::DashLine : Qt::SolidLine;
        const QColor colour = style::publishedColour(kReturnLook.colour);
        ring(painter, around, colour, line);
        const double gap = kRingPx * 2.0;
        ring(painter, around.adjusted(gap, gap, -gap, -gap), colour, line);
    }
}

void TurnGrid::paintCaption(QPainter& painter, const GridCell& cell) {
    const auto& marks = m_desk.view().shot.marks;
    QString text = QString::number(cell.frame.value);
    QColor colour = style::colour(style::Token::Quiet, palette());
    auto weight = style::Weight::Regular;
    if (marks.start && marks.start->frame == cell.frame) {
        text = tr("%1 start").arg(text);
        colour = palette().color(QPalette::Text);
        weight = style::Weight::Strong;
    } else if (const auto* mark = returnAt(marks, cell.frame)) {
        text =
            mark->turns ? tr("%1 turn %2").arg(text).arg(*mark->turns) : tr("%1 return").arg(text);
        colour = palette().color(QPalette::Text);
        weight = style::Weight::Strong;
    }
    if (const auto* angle = angleAt(marks, cell.frame)) {
        text += QStringLiteral(" %1°").arg(core::toDegrees(angle->angle), 0, 'f', 0);
    }
    const QFont& captionFont = smallFont(font(), weight);
    const QFontMetricsF metrics{captionFont};
    constexpr double kAroundPx = 10.0;
    if (metrics.horizontalAdvance(text) > cell.rect.width() + kAroundPx) {
        if (weight == style::Weight::Regular) {
            return;  // numbers that would run into each other help nobody
        }
        text = QString::number(cell.frame.value);  // what it is, the ring says
    }
    painter.setFont(captionFont);
    painter.setPen(colour);
    const QRectF below{cell.rect.center().x() - kCaptionHalfWidthPx, cell.rect.bottom() + 4.0,
                       2.0 * kCaptionHalfWidthPx, metrics.height()};
    painter.drawText(below, Qt::AlignHCenter | Qt::AlignTop, text);
}

void TurnGrid::paintChips(QPainter& painter) {
    const auto chip = [&](const QRectF& rect, const QString& letter, const MarkLook& look) {
        if (rect.isNull()) {
            return;
        }
        painter.setPen(QPen{style::casing(), 1.0});
        painter.setBrush(style::publishedColour(look.colour));
        painter.drawRoundedRect(rect, 3.0, 3.0);
        painter.setFont(style::drawnFont(font(), static_cast<int>(rect.height() * 0.72)));
        painter.setPen(style::casing());
        painter.drawText(rect, Qt::AlignCenter, letter);
    };
    chip(startChipRect(), tr("S", "letter on the chip that marks the start"), kStartLook);
    chip(returnChipRect(), tr("R", "letter on the chip that marks a return"), kReturnLook);
}

void TurnGrid::paintHandle(QPainter& painter) {
    const QRectF handle = handleRect();
    if (handle.isNull()) {
        return;
    }
    const QColor colour = style::colour(m_drag ? style::Token::Ink : style::Token::Edge, palette());
    const double x = handle.center().x();
    painter.setPen(QPen{colour, 1.5, Qt::DashLine});
    painter.drawLine(QPointF{x, handle.top()}, QPointF{x, handle.bottom()});
    const QPointF grip{x, std::min(handle.bottom(), 40.0 + handle.top()) - 20.0};
    painter.setPen(Qt::NoPen);
    painter.setBrush(palette().color(QPalette::Button));
    painter.drawRoundedRect(QRectF{grip.x() - 12.0, grip.y() - 9.0, 24.0, 18.0}, 5.0, 5.0);
    painter.setBrush(palette().color(QPalette::ButtonText));
    painter.drawPolygon(
        QPolygonF{{grip + QPointF{-9, 0}, grip + QPointF{-3, -5}, grip + QPointF{-3, 5}}});
    painter.drawPolygon(
        QPolygonF{{grip + QPointF{9, 0}, grip + QPointF{3, -5}, grip + QPointF{3, 5}}});
}

void TurnGrid::paintHint(QPainter& painter, const QString& hint) {
    painter.setPen(style::colour(style::Token::Quiet, palette()));
    painter.drawText(viewport()->rect().adjusted(16, 16, -16, -16),
                     Qt::AlignCenter | Qt::TextWordWrap, hint);
}

}  // namespace ui::reading
