#include <gtest/gtest.h>

#include <QLabel>
#include <QListView>
#include <QMenu>
#include <QPushButton>
#include <QScrollBar>
#include <QTest>
#include <cmath>

#include "tests/support/named_widget.h"
#include "tests/ui/reading/reading_project.h"
#include "ui/reading/grid/beside_view.h"
#include "ui/reading/grid/other_shot.h"
#include "ui/reading/grid/turn_grid_panel.h"
#include "ui/reading/reading_screen.h"
#include "ui/reading/shot/scene_view.h"
#include "ui/reading/shot/shot_strip.h"

/// The turn grids of two shots beside each other, by keys and the pointer. Film 0: 24 frames at 120
/// a second, film 1: 40 at 120, film 2: 24 at 60; five frames a turn.
namespace ui::reading {
namespace {

using core::timebase::FrameIndex;

constexpr int kDecodeMilliseconds = 10000;  // for decoding on a busy machine
constexpr double kSamePlacePx = 1e-6;

class BesideTest : public ::testing::Test {
protected:
    void SetUp() override {
        screen.resize(1366, 690);
        screen.show();
        ASSERT_TRUE(QTest::qWaitForWindowActive(&screen, kDecodeMilliseconds));
        screen.openShot(project.shot(0));
    }
    [[nodiscard]] QPoint rowCentre(std::size_t film) {
        auto& list = screen.strip().list();
        const auto& rows = screen.strip().rows();
        return list.visualRect(rows.index(rows.rowOf(project.shot(film)))).center();
    }
    /// Film 1 is chosen too and then open; film 0 is the other one.
    [[nodiscard]] QMenu& menuOfTwo() {
        auto& list = screen.strip().list();
        QTest::mouseClick(list.viewport(), Qt::LeftButton, Qt::ControlModifier, rowCentre(1));
        QContextMenuEvent event{QContextMenuEvent::Keyboard, {}, screen.mapToGlobal(QPoint{})};
        QApplication::sendEvent(&screen, &event);
        return tests::namedWidget<QMenu>(screen, "shots_menu");
    }
    [[nodiscard]] OtherShot* other() { return screen.beside().other(); }
    [[nodiscard]] TurnGrid& grid() { return screen.gridPanel().grid(); }
    /// Where a frame's picture is on the screen.
    static QPointF placeOf(TurnGrid& grid, FrameIndex frame) {
        return grid.cellRect(frame).center();
    }

    tests::ReadingProject project{{{}, {.frames = 40}, {.framesPerSecond = 60}}};
    ReadingScreen screen{project.store(), project.requester(), nullptr};
};

TEST_F(BesideTest, TwoChosenShotsAreShownByTheMenuOfTheList) {
    QMenu& menu = menuOfTwo();
    ASSERT_EQ(screen.desk().view().shot.id, project.shot(1));
    QAction* show = menu.actions().front();
    EXPECT_EQ(show->text(), QStringLiteral("Show beside"));
    ASSERT_TRUE(show->isEnabled());
    menu.setActiveAction(show);
    QTest::keyClick(&menu, Qt::Key_Return);
    ASSERT_NE(other(), nullptr);
    EXPECT_TRUE(other()->grid().isVisible());
    EXPECT_EQ(other()->desk().view().shot.id, project.shot(0));
    EXPECT_FALSE(screen.scene().isVisible());
    EXPECT_TRUE(
        QTest::qWaitFor([&] { return other()->pictures().areComplete(); }, kDecodeMilliseconds));
    EXPECT_TRUE(
        screen.pictures().areComplete() ||
        QTest::qWaitFor([&] { return screen.pictures().areComplete(); }, kDecodeMilliseconds))
        << "the pictures of the one do not take those of the other away";
    QTest::keyClick(&screen, Qt::Key_Escape);
    EXPECT_EQ(other(), nullptr);
    EXPECT_TRUE(screen.scene().isVisible());
}

TEST_F(BesideTest, OneIsNotEnough) {
    auto& list = screen.strip().list();
    QTest::mouseClick(list.viewport(), Qt::LeftButton, {}, rowCentre(1));
    QContextMenuEvent event{QContextMenuEvent::Keyboard, {}, screen.mapToGlobal(QPoint{})};
    QApplication::sendEvent(&screen, &event);
    EXPECT_FALSE(tests::namedWidget<QMenu>(screen, "shots_menu").actions().front()->isEnabled());
}

// 120 frames a second and 60: frame 2k of the one is as long after its start as frame k of the
// other.
TEST_F(BesideTest, EqualTimesAfterTheStartLieAtEqualPlacesAtEveryRowLength) {
    screen.beside().showOther(project.shot(2));
    ASSERT_NE(other(), nullptr);
    for (int step = 0; step < 3; ++step) {
        for (const std::int64_t k : {0, 1, 4, 11}) {
            const QPointF own = placeOf(grid(), {2 * k});
            const QPointF beside = placeOf(other()->grid(), {k});
            EXPECT_NEAR(own.x(), beside.x(), kSamePlacePx) << k << " after step " << step;
            EXPECT_NEAR(own.y(), beside.y(), kSamePlacePx) << k << " after step " << step;
        }
        QTest::keyClick(&screen, Qt::Key_Plus, Qt::ShiftModifier);
    }
    grid().verticalScrollBar()->setValue(grid().verticalScrollBar()->maximum());
    EXPECT_EQ(other()->grid().verticalScrollBar()->value(), grid().verticalScrollBar()->value());
    QTest::keyClick(&screen, Qt::Key_Right);
    QTest::keyClick(&screen, Qt::Key_Right);
    EXPECT_EQ(other()->desk().frame(), FrameIndex{1});
}

TEST_F(BesideTest, NothingOfTheOtherShotIsMarked) {
    screen.beside().showOther(project.shot(1));
    ASSERT_NE(other(), nullptr);
    auto& grid = other()->grid();
    const QPoint at = grid.cellRect({5}).center().toPoint();
    QTest::mouseClick(grid.viewport(), Qt::LeftButton, {}, at);
    EXPECT_EQ(other()->desk().frame(), FrameIndex{5});
    QTest::mouseDClick(grid.viewport(), Qt::LeftButton, {}, at);
    EXPECT_TRUE(grid.startChipRect().isNull());
    EXPECT_TRUE(grid.handleRect().isNull());
    QTest::keyClick(&screen, Qt::Key_S);
    EXPECT_FALSE(project.shotNow(1).marks.start.has_value());
    EXPECT_TRUE(project.shotNow(0).marks.start.has_value()) << "keys are for the open shot";
}

TEST_F(BesideTest, AKeyShowsTheShotBeforeAndTakesItAway) {
    screen.openShot(project.shot(1));
    QTest::keyClick(&screen, Qt::Key_C, Qt::ShiftModifier);
    ASSERT_NE(other(), nullptr);
    EXPECT_EQ(other()->desk().view().shot.id, project.shot(0));
    EXPECT_TRUE(tests::namedWidget<QLabel>(*other(), "other_words")
                    .text()
                    .contains(QStringLiteral("Shot 1")));
    screen.openShot(project.shot(2));
    ASSERT_NE(other(), nullptr) << "the next shot is held against the same one";
    screen.openShot(project.shot(0));
    EXPECT_EQ(other(), nullptr) << "there is nothing to compare";
    QTest::keyClick(&screen, Qt::Key_C, Qt::ShiftModifier);
    ASSERT_NE(other(), nullptr);
    QTest::mouseClick(&tests::namedWidget<QPushButton>(*other(), "close_other"), Qt::LeftButton);
    EXPECT_EQ(other(), nullptr);
    EXPECT_FALSE(screen.actionSet().beside->isChecked());
}

TEST_F(BesideTest, WhileNamesAreHiddenTheOtherHasNoneEither) {
    screen.beside().showOther(project.shot(1));
    screen.actionSet().hideNames->trigger();
    EXPECT_TRUE(other()->desk().view().areNamesHidden);
    EXPECT_EQ(other()->desk().view().cellName, QString{});
    screen.actionSet().hideNames->trigger();
}

}  // namespace
}  // namespace ui::reading
