#pragma once

#include <QColor>
#include <QStyleOption>

#include "ui/style/rank.h"

class QPainter;
class QStyleOptionHeader;
class QStyleOptionProgressBar;
class QStyleOptionSlider;
class QStyleOptionTab;
class QWidget;

/// Single parts of the window's style. For the sources of this folder only.
namespace ui::style {

[[nodiscard]] Rank rankOf(const QWidget* button, const QStyleOption& option);
[[nodiscard]] bool isWrong(const QWidget* field);

[[nodiscard]] QColor buttonWords(const QStyleOption& option, Rank rank);
/// Ground, edge and focus of a button.
void drawButtonFace(QPainter& painter, const QStyleOption& option, Rank rank);

/// Ground and edge of a field that text, a number or a choice stands in.
void drawFieldFace(QPainter& painter, const QStyleOption& option, const QWidget* field,
                   bool isReadOnly);
void drawCheckBox(QPainter& painter, const QStyleOption& option);
void drawRadioButton(QPainter& painter, const QStyleOption& option);
/// A small arrow without a stem.
void drawChevron(QPainter& painter, QPointF centre, bool isUp, const QColor& colour);
void drawFocusRing(QPainter& painter, const QRect& rect, const QPalette& palette);

void drawTabShape(QPainter& painter, const QStyleOptionTab& option);
void drawHeadGround(QPainter& painter, const QStyleOption& option, Qt::Orientation orientation);
void drawItemGround(QPainter& painter, const QStyleOptionViewItem& option, const QWidget* view);
/// The hairline below a row of a table without a grid.
void drawRowLine(QPainter& painter, const QStyleOption& option, const QWidget* view);
void drawScrollBar(QPainter& painter, const QStyleOptionSlider& option, const QRect& handle);
void drawProgressGroove(QPainter& painter, const QStyleOption& option);
void drawProgressBar(QPainter& painter, const QStyleOptionProgressBar& option);

}  // namespace ui::style
