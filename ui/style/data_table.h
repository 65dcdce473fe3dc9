#pragma once

class QAbstractItemModel;
class QTableView;

namespace ui::style {

/// A read-only table: rows are chosen whole, Enter activates, Tab leaves it.
[[nodiscard]] QTableView* makeDataTable(QAbstractItemModel* model);

/// Where the columns need more than the view is wide, this one gives way: its texts are cut short
/// rather than those of the last column, which takes what is left and at least a little.
void letColumnShrink(QTableView* view, int column);

}  // namespace ui::style
