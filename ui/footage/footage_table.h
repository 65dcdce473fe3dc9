#pragma once

#include <QHeaderView>
#include <QTableView>

#include "ui/style/data_table.h"

namespace ui::footage {

/// A list of this screen: many rows may be chosen, one column takes the room that is left.
inline QTableView* makeFootageTable(QAbstractItemModel* model, int stretchColumn,
                                    const QString& name) {
    auto* view = style::makeDataTable(model);
    view->setAccessibleName(name);
    view->setSelectionMode(QAbstractItemView::ExtendedSelection);
    view->horizontalHeader()->setStretchLastSection(false);
    view->horizontalHeader()->setSectionResizeMode(stretchColumn, QHeaderView::Stretch);
    return view;
}

}  // namespace ui::footage
