#include "ui/findings/ranking/ranked_look.h"

#include <QPainter>

#include "ui/style/data_palette.h"
#include "ui/style/text_font.h"

namespace ui::findings {
namespace {

constexpr double kSignRadiusPx = 6.0;

/// A sheet with a folded corner.
void drawSheet(QPainter& painter, QPointF centre, const QColor& colour) {
    const QPointF corner = centre - QPointF{4.5, 5.5};
    const auto at = [&](double x, double y) { return corner + QPointF{x, y}; };
    painter.setPen(QPen{colour, 1.2});
    painter.setBrush(Qt::NoBrush);
    painter.drawPolygon(QPolygonF{{at(0, 0), at(9, 0), at(9, 7.5), at(5.5, 11), at(0, 11)}});
    painter.drawPolyline(QPolygonF{{at(9, 7.5), at(5.5, 7.5), at(5.5, 11)}});
}

}  // namespace

const QFont& smallFont(const QFont& font) {
    return style::textFont(font, style::TextSize::Small);
}

const QFont& boldFont(const QFont& font) {
    return style::textFont(font, style::TextSize::Body, style::Weight::Strong);
}

const QFont& smallBoldFont(const QFont& font) {
    return style::textFont(font, style::TextSize::Small, style::Weight::Strong);
}

void drawRemarkSign(QPainter& painter, models::RemarkKind kind, QPointF centre,
                    const QPalette& palette) {
    painter.setRenderHint(QPainter::Antialiasing);
    switch (kind) {
        case models::RemarkKind::None:
            break;
        case models::RemarkKind::Note:
            drawSheet(painter, centre, style::colour(style::Token::Quiet, palette));
            break;
        case models::RemarkKind::Question:
            style::drawShape(painter, style::Shape::Diamond, centre, kSignRadiusPx,
                             style::colour(style::Token::Question, palette));
            break;
        case models::RemarkKind::Grave:
            style::drawShape(painter, style::Shape::TriangleUp, centre, kSignRadiusPx,
                             style::colour(style::Token::Grave, palette));
            break;
    }
    painter.setRenderHint(QPainter::Antialiasing, false);
}

}  // namespace ui::findings
