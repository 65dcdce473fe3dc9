#include "ui/style/rows_layout.h"

#include <gtest/gtest.h>

#include <QWidget>

namespace ui::style {
namespace {

/// Three items of 60, 80 and 40 by 20 pixels, 10 apart.
class RowsLayoutTest : public ::testing::Test {
protected:
    RowsLayoutTest() {
        rows->setContentsMargins(0, 0, 0, 0);
        rows->setSpacing(10);
        for (const int width : {60, 80, 40}) {
            items.push_back(new QWidget{&place});
            items.back()->setMinimumSize(width, 20);
            rows->addWidget(items.back());
        }
    }
    QWidget place;
    RowsLayout* rows{new RowsLayout{&place}};
    std::vector<QWidget*> items;
};

TEST_F(RowsLayoutTest, BreaksWhereTheNextHasNoRoom) {
    EXPECT_EQ(rows->heightForWidth(200), 20);  // 60 + 10 + 80 + 10 + 40
    EXPECT_EQ(rows->heightForWidth(199), 50);  // the third alone below
    EXPECT_EQ(rows->heightForWidth(100), 80);
    EXPECT_EQ(rows->sizeHint(), QSize(200, 20));
    EXPECT_EQ(rows->minimumSize(), QSize(80, 20));
}

TEST_F(RowsLayoutTest, ARowIsFilledAndAHiddenItemTakesNoPlace) {
    rows->setGeometry({0, 0, 160, 50});
    EXPECT_EQ(items[0]->geometry(), QRect(0, 0, 65, 20));  // ten pixels are left, five for each
    EXPECT_EQ(items[1]->geometry(), QRect(75, 0, 85, 20));
    EXPECT_EQ(items[2]->geometry(), QRect(0, 30, 160, 20));
    items[1]->hide();
    EXPECT_EQ(rows->heightForWidth(110), 20);  // 60 + 10 + 40
}

TEST_F(RowsLayoutTest, IsMirroredFromRightToLeft) {
    place.setLayoutDirection(Qt::RightToLeft);
    rows->setGeometry({0, 0, 200, 20});
    EXPECT_EQ(items[0]->geometry(), QRect(140, 0, 60, 20));
    EXPECT_EQ(items[2]->geometry(), QRect(0, 0, 40, 20));
}

}  // namespace
}  // namespace ui::style
