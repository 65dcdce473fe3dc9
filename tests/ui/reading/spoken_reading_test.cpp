#include <gtest/gtest.h>

#include <QAccessible>
#include <QAccessibleActionInterface>
#include <QTest>

#include "tests/ui/reading/reading_project.h"
#include "ui/reading/grid/turn_grid_panel.h"
#include "ui/reading/reading_screen.h"
#include "ui/reading/shot/frame_time_line.h"
#include "ui/reading/shot/scene_view.h"

namespace ui::reading {
namespace {

constexpr int kPictureMilliseconds = 60000;

/// The shot read without looking at it: by what a screen reader finds, and by keys.
class SpokenReading : public ::testing::Test {
protected:
    void SetUp() override {
        project.clickBall(0, tests::BallFilm{}.frames);
        screen.resize(1366, 690);
        screen.show();
        ASSERT_TRUE(QTest::qWaitForWindowActive(&screen, kPictureMilliseconds));
        screen.openShot(project.shot(0));
        ASSERT_TRUE(QTest::qWaitFor(
            [this] { return screen.scene().pictureFrame() == screen.desk().frame(); },
            kPictureMilliseconds));
    }
    static QAccessibleInterface& spoken(QWidget& widget) {
        return *QAccessible::queryAccessibleInterface(&widget);
    }

    tests::ReadingProject project{{{}}};
    ReadingScreen screen{project.store(), project.requester(), nullptr};
};

TEST_F(SpokenReading, TheGridSaysFramesMarksAndTurns) {
    QTest::keyClick(&screen, Qt::Key_S);
    QTest::keyClick(&screen, Qt::Key_Right, Qt::NoModifier);
    auto& grid = spoken(screen.gridPanel().grid());
    const auto frames = static_cast<int>(screen.desk().view().seconds.size());
    ASSERT_EQ(grid.childCount(), frames);
    const auto first = screen.desk().view().firstFrame().value;
    EXPECT_EQ(grid.child(0)->text(QAccessible::Name), u"Frame %1, start"_qs.arg(first));
    EXPECT_TRUE(grid.child(0)->text(QAccessible::Value).endsWith(u"turn 0.00"_qs))
        << qPrintable(grid.child(0)->text(QAccessible::Value));
    EXPECT_EQ(grid.focusChild(), grid.child(1));
    grid.child(3)->actionInterface()->doAction(QAccessibleActionInterface::pressAction());
    EXPECT_EQ(screen.desk().frame().value, first + 3);
    auto* line = screen.findChild<FrameTimeLine*>();
    ASSERT_NE(line, nullptr);
    EXPECT_EQ(spoken(*line).childCount(), frames);
    EXPECT_EQ(spoken(*line).focusChild(), spoken(*line).child(3));
}

TEST_F(SpokenReading, TheBallIsShownByKeys) {
    auto& scene = screen.scene();
    scene.setFocus(Qt::TabFocusReason);
    ASSERT_TRUE(scene.hasFocus());
    const auto frame = screen.desk().frame();
    const auto before = screen.desk().ballNow();
    ASSERT_TRUE(before);
    const auto press = [&scene](Qt::Key key, Qt::KeyboardModifiers held = Qt::NoModifier) {
        QTest::keyClick(&scene, key, held);
    };
    // The ring is moved and given up: nothing has changed.
    press(Qt::Key_Right);
    press(Qt::Key_Escape);
    EXPECT_EQ(screen.desk().frame(), frame);
    EXPECT_EQ(screen.desk().ballNow()->centrePx, before->centrePx);

    press(Qt::Key_Right, Qt::ShiftModifier);
    press(Qt::Key_Right, Qt::ShiftModifier);
    press(Qt::Key_Up, Qt::ShiftModifier);
    press(Qt::Key_Plus);
    EXPECT_EQ(screen.desk().ballNow()->centrePx, before->centrePx) << "only Enter sets it";
    press(Qt::Key_Return);
    ASSERT_TRUE(screen.desk().ballNow());
    EXPECT_NEAR(screen.desk().ballNow()->centrePx.x(), before->centrePx.x() + 2.0, 1e-9);
    EXPECT_NEAR(screen.desk().ballNow()->centrePx.y(), before->centrePx.y() - 1.0, 1e-9);
    EXPECT_NEAR(screen.desk().ballNow()->radiusPx, before->radiusPx + 0.5, 1e-9);
    EXPECT_EQ(project.shotNow(0).standing, core::project::ShotStanding::Open)
        << "Enter in the scene keeps nothing";
    const QString said = spoken(scene).child(0)->text(QAccessible::Value);
    EXPECT_TRUE(said.startsWith(u"ball at "_qs)) << qPrintable(said);
}

}  // namespace
}  // namespace ui::reading
