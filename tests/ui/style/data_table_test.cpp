#include "ui/style/data_table.h"

#include <gtest/gtest.h>

#include <QHeaderView>
#include <QStandardItemModel>
#include <QTableView>
#include <QTest>
#include <memory>

#include "ui/style/text_font.h"

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
    const int row = view->verticalHeader()->defaultSectionSize();
    QFont large = view->font();
    large.setPointSizeF(2.5 * large.pointSizeF());
    view->setFont(large);
    EXPECT_TRUE(QTest::qWaitFor([&] { return view->isColumnHidden(1) && view->isColumnHidden(2); }))
        << "larger text asks for more room";
    EXPECT_GT(view->verticalHeader()->defaultSectionSize(), row);
}

TEST(DataTable, HomeAndEndGoToTheFirstAndTheLastRow) {
    QStandardItemModel model{5, 3};
    const std::unique_ptr<QTableView> view{ui::style::makeDataTable(&model)};
    view->setCurrentIndex(model.index(2, 1));
    QTest::keyClick(view.get(), Qt::Key_End);
    EXPECT_EQ(view->currentIndex(), model.index(4, 1));
    EXPECT_TRUE(view->selectionModel()->isRowSelected(4));
    QTest::keyClick(view.get(), Qt::Key_Home);
    EXPECT_EQ(view->currentIndex(), model.index(0, 1));
}

/// Counts how often a viewport gets another size, and hides it before it does so for ever.
class ResizeCount : public QObject {
public:
    explicit ResizeCount(QTableView& view) : m_view{view} {
        view.viewport()->installEventFilter(this);
    }
    [[nodiscard]] int count() const { return m_count; }

    bool eventFilter(QObject* watched, QEvent* event) override {
        constexpr int kTooOften = 100;
        if (event->type() == QEvent::Resize && ++m_count == kTooOften) {
            m_view.hide();
        }
        return QObject::eventFilter(watched, event);
    }

private:
    QTableView& m_view;
    int m_count{0};
};

// The window stood still for ever: the head of a hidden column was taken for nothing, so that there
// was room for it, and none once it was shown.
TEST(DataTable, SettlesWhereHeadsAreWiderThanWhatStandsBelow) {
    QStandardItemModel model{6, 4};
    for (int column = 0; column < 4; ++column) {
        model.setHorizontalHeaderItem(column, new QStandardItem{QString(16, QLatin1Char{'n'})});
        for (int row = 0; row < 6; ++row) {
            model.setItem(row, column, new QStandardItem{QString(4, QLatin1Char{'n'})});
        }
    }
    const std::unique_ptr<QTableView> view{ui::style::makeDataTable(&model)};
    ui::style::hideToMakeRoom(view.get(), {3, 2});
    view->show();
    const auto hidden = [&] { return std::pair{view->isColumnHidden(2), view->isColumnHidden(3)}; };
    for (int width = 300; width < 900; width += 7) {
        for (const int height : {200, 230, 260}) {
            const ResizeCount resizes{*view};
            view->resize(width, height);
            QCoreApplication::processEvents();
            ASSERT_TRUE(view->isVisible()) << width << " x " << height;
            ASSERT_LT(resizes.count(), 10) << width << " x " << height;
            const auto before = hidden();
            view->resize(width + 1, height);
            view->resize(width, height);
            QCoreApplication::processEvents();
            ASSERT_EQ(hidden(), before) << width << " x " << height;
        }
    }
}

// Columns with short texts below long heads took more than was reckoned, and pressed the one that
// has what is left.
TEST(DataTable, TheColumnThatTakesWhatIsLeftHasRoomForItsWords) {
    QStandardItemModel model{1, 6};
    for (int column = 0; column < 6; ++column) {
        const auto head =
            column == 0 ? QStringLiteral("Shot") : QStringLiteral("Launch angle, rpm");
        model.setHorizontalHeaderItem(column, new QStandardItem{head});
        model.setItem(0, column, new QStandardItem{QStringLiteral("–")});
    }
    model.setItem(0, 1, new QStandardItem{QString(24, QLatin1Char{'n'})});
    const std::unique_ptr<QTableView> view{ui::style::makeDataTable(&model)};
    view->horizontalHeader()->setFont(QFont{ui::style::loadFonts(), 10});  // wider when bold
    view->horizontalHeader()->setStretchLastSection(false);
    view->horizontalHeader()->setSectionResizeMode(1, QHeaderView::Stretch);
    ui::style::hideToMakeRoom(view.get(), {5, 4, 3});
    view->show();
    const int words = static_cast<const QAbstractItemView&>(*view).sizeHintForColumn(1);
    for (int width = 600; width < 1200; width += 7) {
        view->resize(width, 200);
        QCoreApplication::processEvents();
        ASSERT_GE(view->columnWidth(1), words) << width;
    }
}

}  // namespace
