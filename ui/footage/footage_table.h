#pragma once

#include <QHeaderView>
#include <QTableView>

#include "ui/style/data_table.h"

namespace ui::footage {

/// A list of this screen: many rows may be chosen, one column takes the room that is left. It asks
/// for a few rows, the last one seen in part, so that there is more below.
inline QTableView* makeFootageTable(QAbstractItemModel* model, int stretchColumn,
                                    const QString& name) {
    constexpr double kFewestRows = 2.6;
    auto* view = style::makeDataTable(model, kFewestRows);
    view->setAccessibleName(name);
    view->setSelectionMode(QAbstractItemView::ExtendedSelection);
    view->horizontalHeader()->setStretchLastSection(false);
    view->horizontalHeader()->setSectionResizeMode(stretchColumn, QHeaderView::Stretch);
    return view;
}

}  // namespace ui::footage
