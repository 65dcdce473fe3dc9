#pragma once

class QPainter;
class QPalette;
class QRect;

namespace ui::style {

enum class RowBar { None, Focused, Unfocused };

/// Ground of a chosen row: pale, with a bar at its left that is ink where the keys go to.
void paintChosenRow(QPainter& painter, const QRect& rect, const QPalette& palette, RowBar bar);

}  // namespace ui::style
