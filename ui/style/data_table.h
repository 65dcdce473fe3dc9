#pragma once

#include <vector>

class QAbstractItemModel;
class QTableView;

namespace ui::style {

/// A read-only table: rows are chosen whole, Enter activates, Tab leaves it.
[[nodiscard]] QTableView* makeDataTable(QAbstractItemModel* model);

/// Where the columns need more than the view is wide, this one gives way: its texts are cut short
/// rather than those of the last column, which takes what is left and at least a little.
void letColumnShrink(QTableView* view, int column);

/// Where the texts of all columns do not fit, these columns go, the first one first, and come back
/// when there is room.
void hideToMakeRoom(QTableView* view, std::vector<int> columns);

}  // namespace ui::style
