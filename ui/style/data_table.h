#pragma once

#include <vector>

class QAbstractItemModel;
class QTableView;

namespace ui::style {

/// A table whose rows are as high as its text asks for, also when that gets larger, unless somebody
/// else decides on it. With `fewestRows` it asks for its heads and so many rows, and no more.
[[nodiscard]] QTableView* makeTable(QAbstractItemModel* model, double fewestRows = 0.0);

/// The same, read-only: rows are chosen whole, Enter activates, Tab leaves it.
[[nodiscard]] QTableView* makeDataTable(QAbstractItemModel* model, double fewestRows = 0.0);

/// Where the columns need more than the view is wide, this one gives way: its texts are cut short
/// rather than those of the last column, which takes what is left and at least a little.
void letColumnShrink(QTableView* view, int column);

/// Where the texts of all columns do not fit, these columns go, the first one first, and come back
/// when there is room.
void hideToMakeRoom(QTableView* view, std::vector<int> columns);

}  // namespace ui::style
