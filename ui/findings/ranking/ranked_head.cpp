#include "ui/findings/ranking/ranked_head.h"

#include <QMouseEvent>
#include <QPainter>

#include "ui/findings/ranking/ranked_look.h"
#include "ui/findings/ranking/ranked_view.h"
#include "ui/style/data_palette.h"
#include "ui/style/tokens.h"

namespace ui::findings {
namespace {

using models::RankedTableModel;

constexpr int kBelowWordsPx = 6;
constexpr double kGrabPx = 8.0;  // round the ruler

/// Points up for the smallest first.
void drawArrow(QPainter& painter, QPointF centre, bool isUp, const QColor& colour) {
    style::drawShape(painter, isUp ? style::Shape::TriangleUp : style::Shape::TriangleDown, centre,
                     3.5, colour);
}

}  // namespace

RankedHead::RankedHead(RankedView& view) : QHeaderView{Qt::Horizontal, &view}, m_view{view} {
    setSectionsClickable(true);
    setHighlightSections(false);
    setSectionResizeMode(QHeaderView::Fixed);
    setMinimumSectionSize(8);
    viewport()->setMouseTracking(true);
}

QSize RankedHead::sizeHint() const {
    return {QHeaderView::sizeHint().width(),
            headHeight(m_view.plot(), QFontMetrics{smallFont(m_view.font())}.height())};
}

QRectF RankedHead::chartRoom() const {
    return {static_cast<double>(sectionViewportPosition(RankedTableModel::kChart)), 0.0,
            static_cast<double>(sectionSize(RankedTableModel::kChart)),
            static_cast<double>(height())};
}

QRectF RankedHead::ruler() const {
    return rulerIn(m_view.plot(), chartRoom(), QFontMetricsF{smallFont(m_view.font())}.height());
}

void RankedHead::paintSection(QPainter* painter, const QRect& rect, int section) const {
    painter->setLayoutDirection(Qt::LeftToRight);
    const QPalette& palette = m_view.palette();
    painter->fillRect(rect, palette.color(QPalette::Base));
    painter->setPen(style::colour(style::Token::Edge, palette));
    painter->drawLine(rect.bottomLeft(), rect.bottomRight());
    const QFont& small = smallFont(m_view.font());
    if (section == RankedTableModel::kChart) {
        painter->save();
        painter->setClipRect(rect);
        drawPlotGround(*painter, m_view.plot(), QRectF{rect}, palette);
        drawPlotHead(*painter, m_view.plot(), QRectF{rect}, palette, small);
        painter->restore();
        return;
    }
    const QRect words =
        rect.adjusted(kCellSidePx + (section == 0 ? 3 : 0), 0, -kCellSidePx, -kBelowWordsPx);
    QString text = model()->headerData(section, Qt::Horizontal).toString();
    painter->setFont(small);
    painter->setPen(style::colour(style::Token::Quiet, palette));
    if (section == RankedTableModel::kRemarks &&
        words.width() < QFontMetrics{small}.horizontalAdvance(text)) {
        text.clear();
    }
    const bool isRight =
        section == RankedTableModel::kMean || section == RankedTableModel::kInterval ||
        section == RankedTableModel::kCount || section == RankedTableModel::kDeviation;
    painter->drawText(words,
                      static_cast<int>(Qt::AlignBottom) |
                          static_cast<int>(isRight ? Qt::AlignRight : Qt::AlignLeft),
                      text);
    if (section == RankedTableModel::kImplement) {
        QRect count = words;
        count.setLeft(words.left() +
                      QFontMetrics{small}.horizontalAdvance(text + QLatin1Char{' '}));
        painter->setFont(boldFont(small));
        painter->setPen(palette.color(QPalette::Text));
        const int shown = model()->rowCount();
        const int all = m_view.rows().rowCount();
        painter->drawText(count, Qt::AlignLeft | Qt::AlignBottom,
                          shown == all ? QString::number(all) : tr("%1 of %2").arg(shown).arg(all));
    }
    if (isSortIndicatorShown() && sortIndicatorSection() == section) {
        const double width = QFontMetrics{small}.horizontalAdvance(text);
        const double x = isRight ? words.right() - 0.5 * width : words.left() + 0.5 * width;
        const double y = words.bottom() - QFontMetrics{small}.height() - 5.0;
        drawArrow(*painter, {x, y}, sortIndicatorOrder() == Qt::AscendingOrder,
                  style::colour(style::Token::Quiet, palette));
    }
}

double RankedHead::rpmAt(double x) const {
    const QRectF room = chartRoom();
    const auto axis = m_view.plot().axisOver(room.left(), room.right());
    return axis.low() + (x - room.left()) / room.width() * (axis.high() - axis.low());
}

void RankedHead::mousePressEvent(QMouseEvent* event) {
    const QRectF at = ruler();
    if (event->button() == Qt::LeftButton && !at.isEmpty() &&
        at.adjusted(-kGrabPx, -kGrabPx, kGrabPx, kGrabPx).contains(event->position())) {
        m_dragOffset = rpmAt(event->position().x()) - *m_view.rulerLowRpm();
        return;
    }
    QHeaderView::mousePressEvent(event);
}

void RankedHead::mouseMoveEvent(QMouseEvent* event) {
    if (m_dragOffset) {
        m_view.moveRuler(rpmAt(event->position().x()) - *m_dragOffset);
        return;
    }
    const QRectF at = ruler();
    const bool isOn = !at.isEmpty() &&
                      at.adjusted(-kGrabPx, -kGrabPx, kGrabPx, kGrabPx).contains(event->position());
    viewport()->setCursor(isOn ? Qt::SizeHorCursor : Qt::ArrowCursor);
    QHeaderView::mouseMoveEvent(event);
}

void RankedHead::mouseReleaseEvent(QMouseEvent* event) {
    if (m_dragOffset) {
        m_dragOffset.reset();
        return;
    }
    QHeaderView::mouseReleaseEvent(event);
}

}  // namespace ui::findings
