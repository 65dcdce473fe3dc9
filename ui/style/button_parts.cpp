#include <QCoreApplication>
#include <QEvent>
#include <QPainter>
#include <QStyle>
#include <QVariant>
#include <QWidget>

#include "ui/style/tokens.h"
#include "ui/style/window_parts.h"

namespace ui::style {
namespace {

constexpr const char* kRankProperty = "rank";
constexpr const char* kWrongProperty = "isWrong";
constexpr double kOnLinePx = 2.0;  // below a switch that is on

struct Face {
    QColor ground;
    QColor edge;
    QColor words;
    bool isOn{false};
};

Face disabledFace(Rank rank, const QPalette& palette) {
    const QColor line = colour(Token::Line, palette);
    switch (rank) {
        case Rank::Primary:
            return {line, line, colour(Token::Quiet, palette)};
        case Rank::Quiet:
            return {{}, {}, colour(Token::Off, palette)};
        case Rank::Secondary:
            break;
    }
    return {colour(Token::Surface, palette), line, colour(Token::Off, palette)};
}

Face faceOf(const QStyleOption& option, Rank rank) {
    const QPalette& palette = option.palette;
    if (!option.state.testFlag(QStyle::State_Enabled)) {
        return disabledFace(rank, palette);
    }
    const bool isDown = option.state.testFlag(QStyle::State_Sunken);
    const bool isPointedAt = option.state.testFlag(QStyle::State_MouseOver);
    const bool isOn = option.state.testFlag(QStyle::State_On);
    const auto pick = [&](Token rest, Token hover, Token pressed) {
        return colour(isDown ? pressed : isPointedAt ? hover : rest, palette);
    };
    const QColor ink = colour(Token::Ink, palette);
    if (rank == Rank::Primary) {
        const QColor ground = pick(Token::Ink, Token::InkHover, Token::InkPressed);
        return {ground, ground, colour(Token::OnInk, palette)};
    }
    if (isOn) {
        return {pick(Token::Pale, Token::Pale, Token::Pressed), ink, colour(Token::Text, palette),
                true};
    }
    if (rank == Rank::Quiet) {
        const bool isPlain = !isDown && !isPointedAt;
        return {isPlain ? QColor{} : pick(Token::Hover, Token::Hover, Token::Pressed), {}, ink};
    }
    return {pick(Token::Surface, Token::Hover, Token::Pressed), colour(Token::Edge, palette),
            colour(Token::Text, palette)};
}

}  // namespace

void setRank(QWidget* button, Rank rank) {
    if (button->property(kRankProperty) != QVariant{static_cast<int>(rank)}) {
        button->setProperty(kRankProperty, static_cast<int>(rank));
        QEvent asked{QEvent::StyleChange};  // Qt keeps the size that it asked the style for
        QCoreApplication::sendEvent(button, &asked);
        button->updateGeometry();
        button->update();
    }
}

Rank rankOf(const QWidget* button, const QStyleOption& option) {
    const QVariant stated = button != nullptr ? button->property(kRankProperty) : QVariant{};
    if (stated.isValid()) {
        return static_cast<Rank>(stated.toInt());
    }
    return option.state.testFlag(QStyle::State_AutoRaise) ? Rank::Quiet : Rank::Secondary;
}

void setWrong(QWidget* field, bool isWrong) {
    field->setProperty(kWrongProperty, isWrong);
    field->update();
}

bool isWrong(const QWidget* field) {
    return field != nullptr && field->property(kWrongProperty).toBool();
}

QColor buttonWords(const QStyleOption& option, Rank rank) {
    return faceOf(option, rank).words;
}

void drawButtonFace(QPainter& painter, const QStyleOption& option, Rank rank) {
    const Face face = faceOf(option, rank);
    const QRectF all = QRectF{option.rect}.adjusted(0.5, 0.5, -0.5, -0.5);
    const bool hasFocus = option.state.testFlag(QStyle::State_HasFocus) &&
                          option.state.testFlag(QStyle::State_KeyboardFocusChange);
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(face.edge.isValid() ? QPen{face.edge, kHairlinePx} : QPen{Qt::NoPen});
    painter.setBrush(face.ground.isValid() ? QBrush{face.ground} : QBrush{Qt::NoBrush});
    painter.drawRoundedRect(all, kControlRadiusPx, kControlRadiusPx);
    if (face.isOn) {
        painter.fillRect(QRectF{all.left() + kControlRadiusPx / 2, all.bottom() - kOnLinePx + 0.5,
                                all.width() - kControlRadiusPx, kOnLinePx},
                         face.edge);
    }
    if (hasFocus) {
        // A gap in the colour of the ground sets the ring off from a face that is ink as well.
        painter.setBrush(Qt::NoBrush);
        painter.setPen(QPen{colour(Token::Ground, option.palette), 2.0 * kFocusPx + 1.5});
        painter.drawRoundedRect(all, kControlRadiusPx, kControlRadiusPx);
        painter.setPen(QPen{colour(Token::Ink, option.palette), kFocusPx});
        painter.drawRoundedRect(all.adjusted(0.5, 0.5, -0.5, -0.5), kControlRadiusPx,
                                kControlRadiusPx);
    }
    painter.restore();
}

void drawFocusRing(QPainter& painter, const QRect& rect, const QPalette& palette) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen{colour(Token::Ink, palette), kFocusPx});
    painter.setBrush(Qt::NoBrush);
    painter.drawRoundedRect(QRectF{rect}.adjusted(1.0, 1.0, -1.0, -1.0), kControlRadiusPx / 2,
                            kControlRadiusPx / 2);
    painter.restore();
}

}  // namespace ui::style
