#include "ui/style/data_table.h"

#include <gtest/gtest.h>

#include <QStandardItemModel>
#include <QTableView>
#include <QTest>
#include <memory>

namespace {

// Four columns of texts of some 150 pixels each.
TEST(DataTable, ColumnsGoInTheirOrderWhereThereIsNoRoomAndComeBack) {
    QStandardItemModel model{1, 4};
    for (int column = 0; column < 4; ++column) {
        model.setItem(0, column, new QStandardItem{QString(20, QLatin1Char{'n'})});
    }
    const std::unique_ptr<QTableView> view{ui::style::makeDataTable(&model)};
    ui::style::hideToMakeRoom(view.get(), {2, 1});
    int wanted = 0;
    for (int column = 0; column < 4; ++column) {
        wanted += static_cast<const QAbstractItemView&>(*view).sizeHintForColumn(column);
    }
    const auto hidden = [&](double share) {
        view->resize(static_cast<int>(share * wanted) + 40, 200);
        view->show();
        EXPECT_TRUE(QTest::qWaitForWindowExposed(view.get()));
        return std::pair{view->isColumnHidden(1), view->isColumnHidden(2)};
    };
    EXPECT_EQ(hidden(1.2), (std::pair{false, false}));
    EXPECT_EQ(hidden(0.8), (std::pair{false, true}));
    EXPECT_EQ(hidden(0.5), (std::pair{true, true}));
    EXPECT_EQ(hidden(1.2), (std::pair{false, false}));
}

}  // namespace
