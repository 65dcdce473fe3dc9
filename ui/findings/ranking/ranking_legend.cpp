#include "ui/findings/ranking/ranking_legend.h"

#include <QPainter>
#include <QTextDocument>

#include "ui/chart/series_drawing.h"
#include "ui/findings/ranking/ranked_look.h"
#include "ui/findings/ranking/ranked_plot.h"
#include "ui/models/plain_tip.h"

namespace ui::findings {
namespace {

constexpr int kSignRoomPx = 16;
constexpr int kBarRoomPx = 30;  // of the ring with its interval
constexpr int kGapPx = 14;

}  // namespace

RankingLegend::RankingLegend(QWidget* parent) : QWidget{parent} {
    setSizePolicy(QSizePolicy::Preferred, QSizePolicy::Fixed);
}

void RankingLegend::show(const QStringList& hitters, const QString& whose) {
    m_hitters = hitters;
    m_whose = whose;
    const QString all =
        tr("%1; ≈ no difference shown from the chosen row").arg(words().join(QStringLiteral(", ")));
    setToolTip(models::plainTip(all));
    setAccessibleName(all);
    updateGeometry();
    update();
}

QStringList RankingLegend::words() const {
    QStringList words;
    for (const QString& hitter : m_hitters) {
        words.append(tr("hitter %1").arg(hitter));
    }
    words.append(m_whose);
    return words;
}

QSize RankingLegend::sizeHint() const {
    const QFontMetrics metrics{smallFont(font())};
    int width = kBarRoomPx - kSignRoomPx;
    for (const QString& word : words()) {
        width += kSignRoomPx + metrics.horizontalAdvance(word) + kGapPx;
    }
    return {width, metrics.height() + 4};
}

QSize RankingLegend::minimumSizeHint() const {
    return {60, sizeHint().height()};
}

void RankingLegend::paintEvent(QPaintEvent*) {
    QPainter painter{this};
    painter.setLayoutDirection(Qt::LeftToRight);  // places are not mirrored
    const QFont& small = smallFont(font());
    const QFontMetrics metrics{small};
    painter.setFont(small);
    painter.setRenderHint(QPainter::Antialiasing);
    double x = std::max(0, width() - sizeHint().width());
    const double y = 0.5 * height();
    const QStringList all = words();
    for (int k = 0; k < all.size(); ++k) {
        const bool isOwn = k == all.size() - 1;
        const int signRoom = isOwn ? kBarRoomPx : kSignRoomPx;
        const int wordWidth = metrics.horizontalAdvance(all[k]);
        if (x + signRoom + wordWidth > width()) {
            painter.setPen(palette().color(QPalette::WindowText));
            painter.drawText(QPointF{x, y + 0.35 * metrics.ascent()}, QStringLiteral("…"));
            return;
        }
        if (isOwn) {
            painter.setPen(QPen{palette().color(QPalette::Text), 2.0});
            painter.drawLine(QPointF{x + 2.0, y}, QPointF{x + 22.0, y});
            drawOwnMark(painter, {x + 12.0, y}, RankedLanes{0, false, 0}.ownRadius(), palette());
        } else {
            const auto look = core::report::seriesLook(static_cast<std::size_t>(k));
            style::drawShape(painter, chart::shapeOf(look), {x + 6.0, y}, 4.5,
                             chart::colourOf(look, palette()));
        }
        painter.setPen(palette().color(QPalette::WindowText));
        painter.drawText(QRectF{x + signRoom, 0.0, wordWidth + 2.0, static_cast<double>(height())},
                         Qt::AlignVCenter | Qt::AlignLeft, all[k]);
        x += signRoom + wordWidth + kGapPx;
    }
}

}  // namespace ui::findings
