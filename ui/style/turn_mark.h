#pragma once

#include <QImage>
#include <QPixmap>
#include <QPointF>

class QPainter;
class QPalette;

namespace ui::style {

/// The ball of the program, one quarter light: turned by this share of a turn, clockwise. For
/// empty pages in the colour of edges, else as on the band.
enum class BallLook { Whole, Outline };
void drawBall(QPainter& painter, QPointF centre, double radiusPx, double turn, BallLook look,
              const QPalette& palette);

/// A picture of a ball, round; while there is none, the outline.
void drawRoundBall(QPainter& painter, const QRectF& place, const QImage& ball,
                   const QPalette& palette);

/// The turn mark: the ball at 0, 1/4, 1/2, 3/4 and 1 turn on a dotted flight from left to right,
/// with one ring at the start and two at the return; words below where asked for.
void drawTurnMark(QPainter& painter, const QRectF& place, bool hasWords, const QPalette& palette);

/// The ball inside of its marks, on chalk.
void drawProgramIcon(QPainter& painter, const QRectF& square);
[[nodiscard]] QPixmap programIcon(int sidePx);

}  // namespace ui::style
