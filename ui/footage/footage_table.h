#pragma once

#include <QHeaderView>
#include <QTableView>

namespace ui::footage {

/// A list of this screen: whole rows are chosen, one column takes the room that is left.
inline QTableView* makeFootageTable(QAbstractItemModel* model, int stretchColumn,
                                    const QString& name) {
    auto* view = new QTableView;
    view->setModel(model);
    view->setAccessibleName(name);
    view->setSelectionBehavior(QAbstractItemView::SelectRows);
    view->setAlternatingRowColors(true);
    view->setShowGrid(false);
    view->setTabKeyNavigation(false);
    view->verticalHeader()->hide();
    view->verticalHeader()->setDefaultSectionSize(view->fontMetrics().height() + 8);
    view->horizontalHeader()->setHighlightSections(false);
    view->horizontalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
    view->horizontalHeader()->setSectionResizeMode(stretchColumn, QHeaderView::Stretch);
    return view;
}

}  // namespace ui::footage
