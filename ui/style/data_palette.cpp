#include "ui/style/data_palette.h"

#include <QPainter>
#include <QPen>

namespace ui::style {
namespace {

/// Corners in units of the radius, joined in order and closed.
QPainterPath polygon(QPointF centre, double radius, std::initializer_list<QPointF> unitCorners) {
    QPainterPath path;
    bool isFirst = true;
    for (const QPointF corner : unitCorners) {
        const QPointF at = centre + radius * corner;
        isFirst ? path.moveTo(at) : path.lineTo(at);
        isFirst = false;
    }
    path.closeSubpath();
    return path;
}

QPainterPath strokes(QPointF centre, double radius, Shape shape) {
    QPainterPath path;
    const auto line = [&](QPointF a, QPointF b) {
        path.moveTo(centre + radius * a);
        path.lineTo(centre + radius * b);
    };
    switch (shape) {
        case Shape::Ring:
            path.addEllipse(centre, radius * 0.85, radius * 0.85);
            break;
        case Shape::DoubleRing:
            path.addEllipse(centre, radius * 0.88, radius * 0.88);
            path.addEllipse(centre, radius * 0.40, radius * 0.40);
            break;
        case Shape::Cross:
            line({-0.7, -0.7}, {0.7, 0.7});
            line({-0.7, 0.7}, {0.7, -0.7});
            break;
        case Shape::Tick:
            line({-0.75, 0.05}, {-0.2, 0.6});
            line({-0.2, 0.6}, {0.8, -0.6});
            break;
        default:
            line({0.0, -0.9}, {0.0, 0.9});
            break;
    }
    return path;
}

QPainterPath filled(QPointF centre, double radius, Shape shape) {
    QPainterPath path;
    switch (shape) {
        case Shape::Disc:
            path.addEllipse(centre, radius * 0.85, radius * 0.85);
            return path;
        case Shape::Square:
            return polygon(centre, radius * 0.78, {{-1, -1}, {1, -1}, {1, 1}, {-1, 1}});
        case Shape::Diamond:
            return polygon(centre, radius, {{0, -1}, {1, 0}, {0, 1}, {-1, 0}});
        case Shape::TriangleUp:
            return polygon(centre, radius, {{0, -0.95}, {0.92, 0.7}, {-0.92, 0.7}});
        default:
            return polygon(centre, radius, {{0, 0.95}, {0.92, -0.7}, {-0.92, -0.7}});
    }
}

bool isStroked(Shape shape) {
    return shape == Shape::Ring || shape == Shape::DoubleRing || shape == Shape::Cross ||
           shape == Shape::Tick || shape == Shape::Bar;
}

}  // namespace

QColor publishedColour(DataColour colour) {
    switch (colour) {
        case DataColour::Black:
            return {0, 0, 0};
        case DataColour::Orange:
            return {230, 159, 0};
        case DataColour::SkyBlue:
            return {86, 180, 233};
        case DataColour::BluishGreen:
            return {0, 158, 115};
        case DataColour::Yellow:
            return {240, 228, 66};
        case DataColour::Blue:
            return {0, 114, 178};
        case DataColour::Vermilion:
            return {213, 94, 0};
        case DataColour::ReddishPurple:
            return {204, 121, 167};
    }
    return {};
}

QColor dataColour(DataColour colour, const QPalette& palette) {
    switch (colour) {
        case DataColour::Black:
            return palette.color(QPalette::Text);
        case DataColour::Orange:
            return style::colour(Token::Start, palette);
        case DataColour::SkyBlue:
            return style::colour(Token::Return, palette);
        case DataColour::BluishGreen:
            return style::colour(Token::Done, palette);
        case DataColour::Yellow:
            return style::colour(Token::Ochre, palette);
        case DataColour::Blue:
            return style::colour(Token::HitterA, palette);
        case DataColour::Vermilion:
            return style::colour(Token::HitterB, palette);
        case DataColour::ReddishPurple:
            return style::colour(Token::Question, palette);
    }
    return {};
}

void drawShape(QPainter& painter, Shape shape, QPointF centre, double radius,
               const QColor& colour) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    if (isStroked(shape)) {
        painter.setPen(QPen{colour, radius * 0.28, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin});
        painter.setBrush(Qt::NoBrush);
        painter.drawPath(strokes(centre, radius, shape));
    } else {
        painter.setPen(Qt::NoPen);
        painter.setBrush(colour);
        painter.drawPath(filled(centre, radius, shape));
    }
    painter.restore();
}

}  // namespace ui::style
