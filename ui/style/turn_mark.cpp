#include "ui/style/turn_mark.h"

#include <QCoreApplication>
#include <QPainter>
#include <QPainterPath>
#include <QRadialGradient>
#include <array>
#include <cmath>

#include "ui/style/data_palette.h"
#include "ui/style/text_font.h"
#include "ui/style/tokens.h"

namespace ui::style {
namespace {

/// What is drawn on the band is the same in light and in dark but for its ground.
QColor bandColour(Token token) {
    return colour(token, false);
}

QPainterPath quarter(QPointF centre, double radius, double turn) {
    QPainterPath path;
    path.moveTo(centre);
    path.arcTo(QRectF{centre.x() - radius, centre.y() - radius, 2 * radius, 2 * radius},
               45.0 - 360.0 * turn, 90.0);
    path.closeSubpath();
    return path;
}

void drawRings(QPainter& painter, QPointF centre, double radius, bool isReturn) {
    const double width = std::max(1.5, radius * 0.08);
    painter.setBrush(Qt::NoBrush);
    painter.setPen(
        QPen{publishedColour(isReturn ? DataColour::SkyBlue : DataColour::Orange), width});
    painter.drawEllipse(centre, radius * 1.25, radius * 1.25);
    if (isReturn) {
        painter.drawEllipse(centre, radius * 1.41, radius * 1.41);
    }
}

}  // namespace

void drawBall(QPainter& painter, QPointF centre, double radiusPx, double turn, BallLook look,
              const QPalette& palette) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    if (look == BallLook::Outline) {
        painter.setPen(QPen{colour(Token::Edge, palette), 1.5});
        painter.setBrush(Qt::NoBrush);
        painter.drawEllipse(centre, radiusPx, radiusPx);
        painter.setBrush(colour(Token::Line, palette));
        painter.drawPath(quarter(centre, radiusPx, turn));
    } else {
        painter.setPen(QPen{bandColour(Token::BandQuiet), 1.0});
        painter.setBrush(bandColour(Token::Text));
        painter.drawEllipse(centre, radiusPx, radiusPx);
        painter.setPen(Qt::NoPen);
        painter.setBrush(bandColour(Token::Chalk));
        painter.drawPath(quarter(centre, radiusPx - 0.5, turn));
    }
    painter.restore();
}

void drawRoundBall(QPainter& painter, const QRectF& place, const QImage& ball,
                   const QPalette& palette) {
    if (ball.isNull()) {
        drawBall(painter, place.center(), place.width() / 2.0 - 1.0, 0.0, BallLook::Outline,
                 palette);
        return;
    }
    QPainterPath round;
    round.addEllipse(place);
    painter.save();
    painter.setRenderHints(QPainter::Antialiasing | QPainter::SmoothPixmapTransform);
    painter.setClipPath(round);
    painter.drawImage(place, ball);
    painter.restore();
}

void drawTurnMark(QPainter& painter, const QRectF& place, bool hasWords, const QPalette& palette) {
    constexpr std::array kWords{QT_TRANSLATE_NOOP("ui::style", "start"), "¼", "½", "¾",
                                QT_TRANSLATE_NOOP("ui::style", "one turn")};
    constexpr std::array kHeights{0.72, 0.53, 0.38, 0.34, 0.46};  // of the place, a flight
    const double line = hasWords ? painter.fontMetrics().height() + 8.0 : 0.0;
    const double step = place.width() / 4.9;
    const double radius = std::min({step * 0.3, (place.height() - line) * 0.24, 44.0});
    std::array<QPointF, 5> centres;
    for (std::size_t i = 0; i < centres.size(); ++i) {
        centres.at(i) = {place.left() + step * (0.45 + static_cast<double>(i)),
                         place.top() + kHeights.at(i) * (place.height() - line)};
    }
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    QPainterPath flight{{place.left(), place.top() + 0.85 * (place.height() - line)}};
    flight.cubicTo(centres[1], centres[2] - QPointF{0.0, radius * 0.4}, centres[3]);
    flight.quadTo(centres[4] - QPointF{step * 0.4, radius * 0.4},
                  {place.right(), place.top() + 0.6 * (place.height() - line)});
    QPen dots{bandColour(Token::BandQuiet), 2.0, Qt::CustomDashLine, Qt::RoundCap};
    dots.setDashPattern({0.1, 4.0});
    painter.setPen(dots);
    painter.setBrush(Qt::NoBrush);
    painter.drawPath(flight);
    for (std::size_t i = 0; i < centres.size(); ++i) {
        const double turn = static_cast<double>(i) / 4.0;
        drawBall(painter, centres.at(i), radius, turn, BallLook::Whole, palette);
        if (i == 0 || i == 4) {
            drawRings(painter, centres.at(i), radius, i == 4);
        }
        if (hasWords) {
            painter.setPen(bandColour(Token::BandQuiet));
            painter.drawText(
                QRectF{centres.at(i).x() - step / 2, centres.at(i).y() + radius * 1.5, step, line},
                Qt::AlignHCenter | Qt::AlignTop,
                QCoreApplication::translate("ui::style", kWords.at(i)));
        }
    }
    painter.restore();
}

void drawProgramIcon(QPainter& painter, const QRectF& square) {
    constexpr double kSide = 256.0;  // of the drawing
    const QPointF middle{128.0, 128.0};
    const QColor dark = bandColour(Token::Band);
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.translate(square.topLeft());
    painter.scale(square.width() / kSide, square.height() / kSide);
    painter.setPen(Qt::NoPen);
    painter.setBrush(bandColour(Token::Chalk));
    painter.drawRoundedRect(QRectF{8, 8, 240, 240}, 52, 52);
    painter.setBrush(Qt::NoBrush);
    const auto ring = [&](double radius, const QColor& of, double width) {
        painter.setPen(QPen{of, width});
        painter.drawEllipse(middle, radius, radius);
    };
    ring(101, dark, 8);
    ring(101, publishedColour(DataColour::SkyBlue), 4);
    const QRectF turn{42, 42, 172, 172};
    const auto arc = [&](const QColor& of, double width) {
        painter.setPen(QPen{of, width, Qt::SolidLine, Qt::RoundCap});
        painter.drawArc(turn, 90 * 16, -315 * 16);
    };
    arc(dark, 15);
    arc(publishedColour(DataColour::Orange), 8);
    painter.setPen(Qt::NoPen);
    painter.setBrush(dark);
    painter.drawEllipse(middle, 66, 66);
    painter.setBrush(bandColour(Token::Pale));
    painter.drawPath(quarter(middle, 66, 0.0));
    painter.restore();
}

QPixmap programIcon(int sidePx) {
    QPixmap picture{sidePx, sidePx};
    picture.fill(Qt::transparent);
    QPainter painter{&picture};
    drawProgramIcon(painter, picture.rect());
    return picture;
}

}  // namespace ui::style
