#include <QPainter>
#include <QStyle>
#include <QWidget>
#include <algorithm>

#include "ui/style/tokens.h"
#include "ui/style/window_parts.h"

namespace ui::style {
namespace {

constexpr double kBoxRadiusPx = 3.0;

struct Edge {
    QColor colour;
    double widthPx;
};

Edge fieldEdge(const QStyleOption& option, const QWidget* field) {
    const QPalette& palette = option.palette;
    if (!option.state.testFlag(QStyle::State_Enabled)) {
        return {colour(Token::Line, palette), kHairlinePx};
    }
    if (isWrong(field)) {
        return {colour(Token::Grave, palette), kFocusPx};
    }
    if (option.state.testFlag(QStyle::State_HasFocus)) {
        return {colour(Token::Ink, palette), kFocusPx};
    }
    const bool isPointedAt = option.state.testFlag(QStyle::State_MouseOver);
    return {colour(isPointedAt ? Token::Text : Token::Edge, palette), kHairlinePx};
}

/// The square or circle of a box that is on or off.
struct Box {
    QRectF rect;
    QColor ground;
    QColor edge;
    QColor sign;
};

Box boxOf(const QStyleOption& option, bool isOn) {
    const QPalette& palette = option.palette;
    const double side = std::min(option.rect.width(), option.rect.height()) - 1.0;
    QRectF rect{0.0, 0.0, side, side};
    rect.moveCenter(QRectF{option.rect}.center());
    const bool isEnabled = option.state.testFlag(QStyle::State_Enabled);
    if (!isEnabled) {
        return {rect, colour(Token::Ground, palette), colour(Token::Line, palette),
                colour(Token::Off, palette)};
    }
    const bool isPointedAt = option.state.testFlag(QStyle::State_MouseOver);
    if (isOn) {
        const QColor ink = colour(isPointedAt ? Token::InkHover : Token::Ink, palette);
        return {rect, ink, ink, colour(Token::OnInk, palette)};
    }
    return {rect, colour(Token::Surface, palette),
            colour(isPointedAt ? Token::Text : Token::Edge, palette),
            colour(Token::OnInk, palette)};
}

}  // namespace

void drawFieldFace(QPainter& painter, const QStyleOption& option, const QWidget* field,
                   bool isReadOnly) {
    if (isReadOnly) {
        return;  // words that can be chosen and copied, without an edge
    }
    const Edge edge = fieldEdge(option, field);
    const double inset = edge.widthPx / 2.0;
    const bool isEnabled = option.state.testFlag(QStyle::State_Enabled);
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen{edge.colour, edge.widthPx});
    painter.setBrush(colour(isEnabled ? Token::Surface : Token::Ground, option.palette));
    painter.drawRoundedRect(QRectF{option.rect}.adjusted(inset, inset, -inset, -inset),
                            kControlRadiusPx, kControlRadiusPx);
    painter.restore();
}

void drawCheckBox(QPainter& painter, const QStyleOption& option) {
    const bool isOn = option.state.testFlag(QStyle::State_On);
    const bool isPartly = option.state.testFlag(QStyle::State_NoChange);
    const Box box = boxOf(option, isOn || isPartly);
    const QPointF centre = box.rect.center();
    const double unit = box.rect.width() / 16.0;
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen{box.edge, kHairlinePx});
    painter.setBrush(box.ground);
    painter.drawRoundedRect(box.rect, kBoxRadiusPx, kBoxRadiusPx);
    painter.setPen(QPen{box.sign, 2.0 * unit, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin});
    const auto at = [&](double x, double y) { return centre + unit * QPointF{x, y}; };
    if (isPartly) {
        painter.drawLine(at(-4, 0), at(4, 0));
    } else if (isOn) {
        painter.drawPolyline(QPolygonF{{at(-4, 0.3), at(-1.3, 3), at(4, -3)}});
    }
    painter.restore();
}

void drawRadioButton(QPainter& painter, const QStyleOption& option) {
    const bool isOn = option.state.testFlag(QStyle::State_On);
    const Box box = boxOf(option, isOn);
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen{box.edge, isOn ? kFocusPx : kHairlinePx});
    painter.setBrush(isOn ? colour(Token::Surface, option.palette) : box.ground);
    painter.drawEllipse(box.rect.adjusted(0.5, 0.5, -0.5, -0.5));
    if (isOn) {
        painter.setPen(Qt::NoPen);
        painter.setBrush(box.edge);
        const double radius = box.rect.width() / 4.0;
        painter.drawEllipse(box.rect.center(), radius, radius);
    }
    painter.restore();
}

void drawChevron(QPainter& painter, QPointF centre, bool isUp, const QColor& colour) {
    constexpr double kHalfWidthPx = 3.5;
    constexpr double kHalfHeightPx = 1.75;
    const double tip = isUp ? -kHalfHeightPx : kHalfHeightPx;
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen{colour, 1.5, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin});
    painter.drawPolyline(QPolygonF{{centre + QPointF{-kHalfWidthPx, -tip}, centre + QPointF{0, tip},
                                    centre + QPointF{kHalfWidthPx, -tip}}});
    painter.restore();
}

}  // namespace ui::style
