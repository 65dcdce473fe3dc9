#include "ui/style/spoken_parts.h"

#include <gtest/gtest.h>

#include <QAccessible>
#include <QAccessibleActionInterface>

#include "ui/style/remark_line.h"

namespace ui::style {
namespace {

/// Three painted things, of which the second is the current one.
class Painted : public QWidget, public SpokenParts {
public:
    std::vector<SpokenPart> spokenParts() override {
        return {{u"first"_qs, u"1 rpm"_qs, QRect{0, 0, 10, 10}, false, [this] { ++pressed; }},
                {u"second"_qs, u"2 rpm"_qs, QRect{10, 0, 10, 10}, true},
                {u"third"_qs, u"3 rpm"_qs, QRect{20, 0, 10, 10}}};
    }
    int pressed{0};
};

TEST(SpokenParts, APaintedWidgetIsAListForAScreenReader) {
    Painted painted;
    painted.resize(40, 20);
    QAccessibleInterface* list = QAccessible::queryAccessibleInterface(&painted);
    ASSERT_NE(list, nullptr);
    EXPECT_EQ(list->role(), QAccessible::List);
    ASSERT_EQ(list->childCount(), 3);
    QAccessibleInterface* first = list->child(0);
    EXPECT_EQ(first->text(QAccessible::Name), u"first"_qs);
    EXPECT_EQ(first->text(QAccessible::Value), u"1 rpm"_qs);
    EXPECT_EQ(first->role(), QAccessible::ListItem);
    EXPECT_EQ(first->parent(), list);
    EXPECT_EQ(list->indexOfChild(list->child(2)), 2);
    EXPECT_EQ(list->focusChild(), list->child(1));
    EXPECT_TRUE(list->child(1)->state().selected);
    const QPoint inThird = painted.mapToGlobal(QPoint{25, 5});
    EXPECT_EQ(list->childAt(inThird.x(), inThird.y()), list->child(2));
    EXPECT_EQ(list->child(3), nullptr);

    QAccessibleActionInterface* action = first->actionInterface();
    ASSERT_NE(action, nullptr);
    action->doAction(QAccessibleActionInterface::pressAction());
    EXPECT_EQ(painted.pressed, 1);
    EXPECT_TRUE(list->child(2)->actionInterface()->actionNames().isEmpty());
}

TEST(SpokenParts, ARemarkSaysItsKind) {
    const RemarkLine grave{RemarkKind::Grave, u"Two clocks."_qs, u"Settle them first."_qs};
    EXPECT_EQ(grave.accessibleName(), u"Grave: Two clocks. Settle them first."_qs);
    const RemarkLine note{RemarkKind::Note, {}, u"Nothing to do."_qs};
    EXPECT_EQ(note.accessibleName(), u"Note: Nothing to do."_qs);
}

}  // namespace
}  // namespace ui::style
