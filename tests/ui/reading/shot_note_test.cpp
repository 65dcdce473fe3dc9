#include "ui/reading/card/shot_note.h"

#include <gtest/gtest.h>

#include <QLineEdit>
#include <QMenu>
#include <QTest>

#include "tests/ui/reading/reading_project.h"
#include "ui/reading/reading_screen.h"
#include "ui/reading/shot/shot_batch.h"
#include "ui/reading/shot/shot_list_model.h"

namespace ui::reading {
namespace {

constexpr int kPatienceMs = 20000;

class ShotNoteTest : public ::testing::Test {
protected:
    void SetUp() override {
        screen.resize(1366, 690);
        screen.show();
        ASSERT_TRUE(QTest::qWaitForWindowActive(&screen, kPatienceMs));
        screen.openShot(project.shot(0));
    }
    QLineEdit& line() { return *screen.findChild<QLineEdit*>(QStringLiteral("shot_note")); }

    tests::ReadingProject project{{{.frames = 6}, {.frames = 6}}};
    ReadingScreen screen{project.store(), project.requester(), nullptr};
};

TEST_F(ShotNoteTest, IsWrittenWhereTheShotIsReadAndMarksNothing) {
    QTest::mouseClick(&line(), Qt::LeftButton);
    QTest::keyClicks(&line(), QStringLiteral("struck late, rs"));
    EXPECT_FALSE(project.shotNow(0).marks.start) << "letters are words, no marks";
    QTest::keyClick(&line(), Qt::Key_Return);
    EXPECT_EQ(project.shotNow(0).note, "struck late, rs");
    ASSERT_TRUE(project.store().undo());
    EXPECT_EQ(line().text(), QString{});
}

TEST_F(ShotNoteTest, IsKeptForItsShotWhenAnotherIsOpenedAndLeftByEscape) {
    QTest::mouseClick(&line(), Qt::LeftButton);
    QTest::keyClicks(&line(), QStringLiteral("windy"));
    screen.openShot(project.shot(1));
    EXPECT_EQ(project.shotNow(0).note, "windy");
    EXPECT_EQ(project.shotNow(1).note, "");
    EXPECT_EQ(line().text(), QString{});
    QTest::mouseClick(&line(), Qt::LeftButton);
    QTest::keyClicks(&line(), QStringLiteral("no"));
    QTest::keyClick(&line(), Qt::Key_Escape);
    EXPECT_EQ(project.shotNow(1).note, "");
    EXPECT_EQ(line().text(), QString{});
}

TEST_F(ShotNoteTest, IsFoundByTheSearchUnlessNamesAreHidden) {
    ASSERT_TRUE(project.store().setShotNote(project.shot(1), "touched the net"));
    ShotListModel model{project.store()};
    model.setNarrowing({.words = QStringLiteral("net")});
    ASSERT_EQ(model.rowCount(), 1);
    EXPECT_EQ(model.shotAt(0), project.shot(1));
    model.setNamesHidden(true);
    EXPECT_EQ(model.rowCount(), 0) << "a note may tell whose shot it is";
}

TEST_F(ShotNoteTest, TheStrokeOfAShotIsSaidInItsMenu) {
    QMenu menu;
    ShotBatch batch{project.store(), &screen};
    batch.fill(menu, {project.shot(0)}, false);
    for (QAction* action : menu.actions()) {
        if (action->text() == QStringLiteral("Stroke")) {
            action->menu()->actions().at(2)->trigger();
        }
    }
    EXPECT_EQ(project.shotNow(0).stroke, core::project::Stroke::Backspin);
}

}  // namespace
}  // namespace ui::reading
