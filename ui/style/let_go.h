#pragma once

class QLayout;
class QWidget;

namespace ui::style {

/// Hides a widget at once and deletes it when the present event is done. What is made again
/// because of a change in a project is let go so: a press takes the focus from a field, what was
/// typed there is kept, and the widget that was pressed has yet to get the focus from Qt.
void letGo(QWidget* widget);

/// Takes every item out of a layout and lets its widgets go.
void emptyLayout(QLayout& layout);

}  // namespace ui::style
