#pragma once

#include <QColor>
#include <QPainterPath>
#include <QPalette>
#include <QPointF>

#include "ui/style/tokens.h"

class QPainter;

/// Colours and shapes that stand for data on every screen. A colour never carries a meaning alone:
/// whoever draws data takes a shape with it.
namespace ui::style {

/// The palette of Okabe and Ito, "Color Universal Design" (2008), told apart with the common kinds
/// of colour-blindness.
enum class DataColour {
    Black,
    Orange,
    SkyBlue,
    BluishGreen,
    Yellow,
    Blue,
    Vermilion,
    ReddishPurple,
};

/// The colour as published.
[[nodiscard]] QColor publishedColour(DataColour colour);

/// The colour of the same name for drawing on the base of this palette: black is the text colour,
/// and the others are shaded until a mark stands out (three to one) from each ground.
[[nodiscard]] QColor dataColour(DataColour colour, const QPalette& palette);

enum class Shape {
    Disc,
    Ring,
    DoubleRing,
    Square,
    Diamond,
    TriangleUp,
    TriangleDown,
    Cross,
    Tick,  ///< a check mark
    Bar,   ///< an upright stroke
};

/// Draws the shape within a circle of the given radius. Closed shapes are filled, rings and strokes
/// are drawn with a line of about a quarter of the radius.
void drawShape(QPainter& painter, Shape shape, QPointF centre, double radius, const QColor& colour);

}  // namespace ui::style
