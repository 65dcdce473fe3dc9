#include "ui/findings/ranking/ranking_in_small.h"

#include <QContextMenuEvent>
#include <QHeaderView>
#include <QMouseEvent>
#include <QPainter>
#include <QToolTip>
#include <algorithm>
#include <cmath>

#include "ui/findings/ranking/ranked_look.h"
#include "ui/findings/ranking/ranked_view.h"
#include "ui/models/plain_tip.h"
#include "ui/style/data_palette.h"
#include "ui/style/tokens.h"

namespace ui::findings {
namespace {

constexpr int kWidthPx = 42;
constexpr double kMostPitchPx = 16.0;  // of the lines
constexpr double kEdgePx = 5.0;
constexpr double kLeastFramePx = 6.0;

}  // namespace

RankingInSmall::RankingInSmall(RankedView& view) : QScrollBar{Qt::Vertical, &view}, m_view{view} {
    setAccessibleName(tr("The whole ranking in small"));
    setMouseTracking(true);
}

QSize RankingInSmall::sizeHint() const {
    return {kWidthPx, 80};
}

QRectF RankingInSmall::ground() const {
    const double top = m_view.horizontalHeader()->height() + 2.0;
    const double most = std::max(1.0, height() - top - 2.0);
    const int rows = std::max(1, m_view.model()->rowCount());
    return {0.0, top, static_cast<double>(width()), std::min(most, kMostPitchPx * rows)};
}

double RankingInSmall::heightOf(int row) const {
    const QRectF room = ground();
    return room.top() + (row + 0.5) * room.height() / std::max(1, m_view.model()->rowCount());
}

QRectF RankingInSmall::frame() const {
    const QRectF room = ground();
    const double all = maximum() - minimum() + pageStep();
    const double share = room.height() / std::max(1.0, all);
    const double high = maximum() == minimum() ? room.height() : share * pageStep();
    return {1.0, room.top() + share * (value() - minimum()), width() - 2.0,
            std::max(kLeastFramePx, high)};
}

void RankingInSmall::redraw() {
    m_lines = {};
    update();
}

void RankingInSmall::resizeEvent(QResizeEvent* event) {
    QScrollBar::resizeEvent(event);
    redraw();
}

void RankingInSmall::changeEvent(QEvent* event) {
    QScrollBar::changeEvent(event);
    redraw();
}

void RankingInSmall::drawLine(QPainter& painter, int row, Stroke stroke) const {
    const auto& own = m_view.rows().marksOf(m_view.modelRow(row)).own;
    if (!own) {
        return;
    }
    const auto axis = m_view.plot().axisOver(kEdgePx, this->width() - kEdgePx);
    const QPointF end{axis.at(own->meanRpm), heightOf(row)};
    painter.setPen(QPen{painter.brush().color(), stroke.widthPx, Qt::SolidLine, Qt::FlatCap});
    painter.drawLine(QPointF{kEdgePx, end.y()}, end);
    painter.setPen(Qt::NoPen);
    painter.drawEllipse(end, stroke.discRadiusPx, stroke.discRadiusPx);
}

void RankingInSmall::drawLines(QPainter& painter) const {
    const QPalette& colours = m_view.palette();
    painter.setPen(style::colour(style::Token::Line, colours));
    painter.drawLine(0, 0, 0, height());
    painter.setRenderHint(QPainter::Antialiasing);
    const int rows = m_view.model()->rowCount();
    const double pitch = ground().height() / std::max(1, rows);
    painter.setBrush(style::colour(style::Token::Edge, colours));
    for (int row = 0; row < rows; ++row) {
        drawLine(painter, row, {std::min(1.0, 0.7 * pitch), std::min(2.0, 0.4 * pitch)});
    }
}

void RankingInSmall::paintEvent(QPaintEvent*) {
    const QPalette& colours = m_view.palette();
    if (m_lines.isNull()) {
        m_lines = QPixmap{size() * devicePixelRatioF()};
        m_lines.setDevicePixelRatio(devicePixelRatioF());
        m_lines.fill(colours.color(QPalette::Base));
        QPainter painter{&m_lines};
        drawLines(painter);
    }
    QPainter painter{this};
    painter.drawPixmap(0, 0, m_lines);
    painter.setRenderHint(QPainter::Antialiasing);
    const QModelIndex chosen = m_view.currentIndex();
    if (chosen.isValid()) {
        painter.setBrush(colours.color(QPalette::Highlight));
        drawLine(painter, chosen.row(), {2.5, 3.0});
    }
    painter.setPen(QPen{colours.color(QPalette::Highlight), 2.0});
    painter.setBrush(Qt::NoBrush);
    painter.drawRoundedRect(frame(), 3.0, 3.0);
}

void RankingInSmall::jumpTo(double frameTop) {
    const QRectF room = ground();
    const double all = maximum() - minimum() + pageStep();
    setValue(minimum() +
             static_cast<int>(std::lround((frameTop - room.top()) / room.height() * all)));
}

void RankingInSmall::mousePressEvent(QMouseEvent* event) {
    if (event->button() != Qt::LeftButton) {
        return;
    }
    const QRectF now = frame();
    const double y = event->position().y();
    if (!now.contains(now.center().x(), y)) {
        jumpTo(y - 0.5 * now.height());
    }
    m_grip = y - frame().top();
}

void RankingInSmall::mouseMoveEvent(QMouseEvent* event) {
    if (m_grip) {
        jumpTo(event->position().y() - *m_grip);
    }
}

void RankingInSmall::mouseReleaseEvent(QMouseEvent*) {
    m_grip.reset();
}

void RankingInSmall::contextMenuEvent(QContextMenuEvent* event) {
    event->accept();  // the usual menu of a scroll bar says nothing here
}

bool RankingInSmall::event(QEvent* event) {
    if (event->type() == QEvent::ToolTip) {
        const auto* help = static_cast<QHelpEvent*>(event);
        const QRectF room = ground();
        const int rows = m_view.model()->rowCount();
        const auto row =
            static_cast<int>(std::floor((help->pos().y() - room.top()) / room.height() * rows));
        const QModelIndex at = m_view.model()->index(row, models::RankedTableModel::kImplement);
        QToolTip::showText(help->globalPos(),
                           at.isValid() ? models::plainTip(at.data().toString()) : QString{}, this);
        return true;
    }
    return QScrollBar::event(event);
}

}  // namespace ui::findings
