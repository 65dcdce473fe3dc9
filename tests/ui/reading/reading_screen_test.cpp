#include "ui/reading/reading_screen.h"

#include <gtest/gtest.h>

#include <QAbstractButton>
#include <QLabel>
#include <QLineEdit>
#include <QScrollBar>
#include <QSignalSpy>
#include <QTest>
#include <cmath>

#include "tests/ui/reading/reading_project.h"
#include "ui/reading/card/reading_card.h"
#include "ui/reading/grid/compare_view.h"
#include "ui/reading/grid/turn_grid_panel.h"
#include "ui/reading/shot/scene_view.h"
#include "ui/reading/shot/shot_strip.h"

namespace ui::reading {
namespace {

using core::project::ShotStanding;
using core::timebase::FrameIndex;

constexpr int kDecodeMilliseconds = 10000;  // for decoding on a busy machine
constexpr double kRateRpm = 1e-6;           // exact stamps, a few operations on doubles

/// The screen on a project with films of 5 frames a turn at 120 frames per second.
class ReadingScreenTest : public ::testing::Test {
protected:
    void SetUp() override {
        screen.resize(1366, 690);
        screen.show();
        ASSERT_TRUE(QTest::qWaitForWindowActive(&screen, kDecodeMilliseconds));
        screen.openShot(project.shot(0));
    }

    void press(Qt::Key key, Qt::KeyboardModifiers modifiers = Qt::NoModifier, int times = 1) {
        for (int k = 0; k < times; ++k) {
            QTest::keyClick(&screen, key, modifiers);
        }
    }
    TurnGrid& grid() { return screen.gridPanel().grid(); }
    void clickGrid(const QRectF& rect) {
        QTest::mouseClick(grid().viewport(), Qt::LeftButton, {}, rect.center().toPoint());
    }
    /// A press and release where the picture has this point, once the picture is there.
    void clickScene(const QPointF& picturePx) {
        ASSERT_TRUE(QTest::qWaitFor(
            [this] { return screen.scene().pictureFrame() == screen.desk().frame(); },
            kDecodeMilliseconds));
        QTest::mouseClick(&screen.scene(), Qt::LeftButton, {},
                          screen.scene().toWidget(picturePx).toPoint());
    }
    void keepByMarks(std::size_t film) {
        screen.openShot(project.shot(film));
        press(Qt::Key_S);
        press(Qt::Key_Right, Qt::NoModifier, 5);
        press(Qt::Key_R);
        press(Qt::Key_Return);
        ASSERT_EQ(project.shotNow(film).standing, ShotStanding::Kept);
        screen.openShot(project.shot(film));
    }
    bool waitForPictures() {
        QSignalSpy done{&screen.pictures(), &BallPictures::completed};
        return screen.pictures().areComplete() || done.wait(kDecodeMilliseconds);
    }

    tests::ReadingProject project{{{}, {}, {.frames = 20, .dropped = 7}}};
    ReadingScreen screen{project.store(), project.requester(), nullptr};
};

TEST_F(ReadingScreenTest, StartAndReturnByKeyGiveTheRate) {
    press(Qt::Key_S);
    press(Qt::Key_Right, Qt::NoModifier, 5);
    press(Qt::Key_R);
    const auto& marks = project.shotNow(0).marks;
    ASSERT_TRUE(marks.start.has_value());
    EXPECT_EQ(marks.start->frame, FrameIndex{0});
    ASSERT_EQ(marks.returns.size(), 1U);
    EXPECT_EQ(marks.returns[0], core::spin::ReturnMark::nearest({5}, 1));
    const auto& reading = screen.desk().view().reading;
    ASSERT_TRUE(reading.has_value());
    // Five frames a turn at 120 frames per second are 1440 rpm (common practice, no source); half a
    // frame less and more are 60·120/5.5 and 60·120/4.5.
    EXPECT_NEAR(reading->marked.rpm, 1440.0, kRateRpm);
    EXPECT_NEAR(reading->bounds->low.rpm, 7200.0 / 5.5, kRateRpm);
    EXPECT_NEAR(reading->bounds->high.rpm, 7200.0 / 4.5, kRateRpm);
    // Expectation of 60/T for T rectangular (JCGM 101:2008, 6.4.2): 60·ln(b/a)/(b-a).
    const long expected = std::lround(7200.0 * std::log(5.5 / 4.5));
    EXPECT_EQ(screen.card().rateText(), QStringLiteral("%1 rpm").arg(expected));
    EXPECT_EQ(screen.card().findChild<QLabel*>(QStringLiteral("rate"))->text(),
              QString::number(expected));
}

TEST_F(ReadingScreenTest, StartAndReturnByClicksInTheGridGiveTheSame) {
    clickGrid(grid().cellRect({2}));
    EXPECT_EQ(screen.desk().frame(), FrameIndex{2});
    clickGrid(grid().startChipRect());
    clickGrid(grid().cellRect({7}));
    clickGrid(grid().returnChipRect());
    ASSERT_TRUE(screen.desk().view().reading.has_value());
    EXPECT_NEAR(screen.desk().view().reading->marked.rpm, 1440.0, kRateRpm);
    EXPECT_EQ(project.shotNow(0).marks.start->frame, FrameIndex{2});
}

TEST_F(ReadingScreenTest, DoubleClicksMarkTheStartThenReturns) {
    const auto doubleClick = [this](FrameIndex frame) {
        const QPoint at = (grid().cellRect(frame).topLeft() + QPointF{8.0, 8.0}).toPoint();
        QTest::mouseDClick(grid().viewport(), Qt::LeftButton, {}, at);
    };
    doubleClick({1});
    doubleClick({6});
    const auto& marks = project.shotNow(0).marks;
    EXPECT_EQ(marks.start->frame, FrameIndex{1});
    ASSERT_EQ(marks.returns.size(), 1U);
    EXPECT_EQ(marks.returns[0].frame, FrameIndex{6});
}

TEST_F(ReadingScreenTest, TheCurrentPictureStaysWholeWhenTheScreenIsMadeSmaller) {
    press(Qt::Key_S);
    press(Qt::Key_Right, Qt::NoModifier, 5);
    press(Qt::Key_R);
    const auto cell = [this] { return grid().cellRect(screen.desk().frame()); };
    auto& bar = *grid().verticalScrollBar();
    bar.setValue(bar.value() + static_cast<int>(cell().top()) -
                 4);  // its row is the first one seen
    ASSERT_NEAR(cell().top(), 4.0, 1.0);
    screen.resize(1000, 520);
    QCoreApplication::processEvents();
    EXPECT_GE(cell().top(), 0.0);
    EXPECT_LE(cell().bottom(), grid().viewport()->height());
}

TEST_F(ReadingScreenTest, LaterReturnsTakeTheirTurnsFromTheGrid) {
    press(Qt::Key_S);
    press(Qt::Key_Right, Qt::NoModifier, 5);
    press(Qt::Key_R);
    press(Qt::Key_Down, Qt::NoModifier, 2);  // two turns of 5.02 frames: to frame 15
    EXPECT_EQ(screen.desk().frame(), FrameIndex{15});
    press(Qt::Key_R);
    const auto& returns = project.shotNow(0).marks.returns;
    ASSERT_EQ(returns.size(), 2U);
    EXPECT_EQ(returns[1], core::spin::ReturnMark::nearest({15}, 3));
    // The third return alone allows 60·120·3/15.5 to 60·120·3/14.5.
    EXPECT_NEAR(screen.desk().view().reading->bounds->low.rpm, 21600.0 / 15.5, kRateRpm);
    EXPECT_NEAR(screen.desk().view().reading->bounds->high.rpm, 21600.0 / 14.5, kRateRpm);
}

TEST_F(ReadingScreenTest, DigitsChangeTheTurnsOfTheReturn) {
    press(Qt::Key_S);
    press(Qt::Key_Right, Qt::NoModifier, 10);
    press(Qt::Key_R);
    EXPECT_EQ(project.shotNow(0).marks.returns.at(0).turns, 1);
    press(Qt::Key_2);
    EXPECT_EQ(project.shotNow(0).marks.returns.at(0).turns, 2);
    EXPECT_NEAR(screen.desk().view().reading->marked.rpm, 1440.0, kRateRpm);
    press(Qt::Key_0);  // quickly after the 2: twenty, which is more than frames allow
    EXPECT_EQ(project.shotNow(0).marks.returns.at(0).turns, 20);
    EXPECT_FALSE(screen.desk().view().reading.has_value());
    EXPECT_FALSE(screen.desk().view().trouble.isEmpty());
}

TEST_F(ReadingScreenTest, UndoInTheStoreClearsMarkAndRate) {
    press(Qt::Key_S);
    press(Qt::Key_Right, Qt::NoModifier, 5);
    press(Qt::Key_R);
    ASSERT_TRUE(screen.desk().view().reading.has_value());
    ASSERT_TRUE(project.store().undo());
    EXPECT_FALSE(screen.desk().view().reading.has_value());
    EXPECT_EQ(screen.card().rateText(), QStringLiteral("No reading"));
    EXPECT_TRUE(project.shotNow(0).marks.returns.empty());
    ASSERT_TRUE(project.store().redo());
    EXPECT_TRUE(screen.desk().view().reading.has_value());
}

TEST_F(ReadingScreenTest, EnterKeepsTheReadingAndOpensTheNextShot) {
    press(Qt::Key_S);
    press(Qt::Key_Right, Qt::NoModifier, 5);
    press(Qt::Key_R);
    press(Qt::Key_Return);
    const auto& shot = project.shotNow(0);
    EXPECT_EQ(shot.standing, ShotStanding::Kept);
    ASSERT_TRUE(shot.counting.has_value());
    const auto snapshot = project.store().snapshot();
    const auto* kept = snapshot->readings.find(*shot.counting);
    EXPECT_NEAR(kept->bounds->high.rpm, 1600.0, kRateRpm);
    EXPECT_EQ(screen.desk().view().shot.id, project.shot(1));
}

// Eight frames a row say nothing of a rate; the films have 120 frames per second.
TEST_F(ReadingScreenTest, TheGridNeverHasTheRowLengthOfAnotherShot) {
    press(Qt::Key_S);
    press(Qt::Key_Right, Qt::NoModifier, 5);
    press(Qt::Key_R);
    EXPECT_NEAR(screen.desk().rowSeconds(), 5.0 / 120.0, 0.002);
    press(Qt::Key_Return);
    ASSERT_EQ(screen.desk().view().shot.id, project.shot(1));
    EXPECT_NEAR(screen.desk().rowSeconds(), 8.0 / 120.0, 1e-9);
    press(Qt::Key_Plus);
    screen.openShot(project.shot(0));
    EXPECT_NEAR(screen.desk().rowSeconds(), 5.0 / 120.0, 0.002) << "its own marks";
    screen.openShot(project.shot(1));
    EXPECT_NEAR(screen.desk().rowSeconds(), 8.0 / 120.0, 1e-9) << "the turned row is forgotten";
}

TEST_F(ReadingScreenTest, AfterTheLastShotItIsSaidWhatIsOpen) {
    screen.openShot(project.shot(2));
    press(Qt::Key_S);
    press(Qt::Key_Right, Qt::NoModifier, 5);
    press(Qt::Key_R);
    press(Qt::Key_Return);
    ASSERT_EQ(project.shotNow(2).standing, ShotStanding::Kept);
    EXPECT_EQ(screen.card().noticeText(),
              QStringLiteral("That was the last shot of the list. Still open: 2 shots to read."));
}

TEST_F(ReadingScreenTest, NothingToKeepIsSaidInTheCard) {
    press(Qt::Key_Return);
    EXPECT_EQ(project.shotNow(0).standing, ShotStanding::Open);
    EXPECT_FALSE(screen.card().noticeText().isEmpty());
    EXPECT_EQ(screen.desk().view().shot.id, project.shot(0));
}

TEST_F(ReadingScreenTest, AReturnBeforeTheStartIsRefusedInWords) {
    press(Qt::Key_Right, Qt::NoModifier, 4);
    press(Qt::Key_S);
    press(Qt::Key_Left);
    press(Qt::Key_R);
    EXPECT_TRUE(project.shotNow(0).marks.returns.empty());
    EXPECT_FALSE(screen.card().noticeText().isEmpty());
}

TEST_F(ReadingScreenTest, SettingAsideTakesAReasonTypedInTheCard) {
    press(Qt::Key_O);
    auto* reason = screen.card().findChild<QLineEdit*>(QStringLiteral("reason"));
    ASSERT_TRUE(reason->isVisible());
    ASSERT_TRUE(reason->hasFocus());
    QTest::keyClicks(reason, QStringLiteral("mishits, bars"));  // full of keys that mark
    EXPECT_EQ(project.shotNow(0).marks, core::spin::MarkSet{});
    QTest::keyClick(reason, Qt::Key_Return);
    EXPECT_EQ(project.shotNow(0).standing, ShotStanding::SetAside);
    EXPECT_EQ(project.shotNow(0).reason, "mishits, bars");
    EXPECT_FALSE(reason->isVisible());
    EXPECT_EQ(screen.desk().view().shot.id, project.shot(1));
}

// S, five times Right, R and Enter: 8 keys; 12 are allowed.
TEST_F(ReadingScreenTest, AShotReadByMarksTakesTwelveKeysAtMost) {
    press(Qt::Key_S);
    press(Qt::Key_Right, Qt::NoModifier, 5);
    press(Qt::Key_R);
    press(Qt::Key_Return);
    ASSERT_EQ(screen.desk().view().shot.id, project.shot(1));
    screen.hide();
    const auto efforts = project.store().snapshot()->efforts;
    ASSERT_FALSE(efforts.isEmpty());
    const auto& visit = *efforts.begin();
    EXPECT_EQ(visit.shot, project.shot(0));
    EXPECT_EQ(visit.outcome, core::project::VisitOutcome::Kept);
    EXPECT_FALSE(visit.namesHidden);
    EXPECT_EQ(visit.keys, 8);
    EXPECT_LE(visit.keys, 12);
    EXPECT_EQ(visit.clicks, 0);
    EXPECT_GT(visit.activeSeconds, 0.0);
}

TEST_F(ReadingScreenTest, ClicksAndAReasonCountToTheShotTheyWereFor) {
    clickGrid(grid().cellRect({2}));
    clickGrid(grid().startChipRect());
    press(Qt::Key_O);
    auto* reason = screen.card().findChild<QLineEdit*>(QStringLiteral("reason"));
    QTest::keyClicks(reason, QStringLiteral("bars"));
    QTest::keyClick(reason, Qt::Key_Return);
    ASSERT_EQ(screen.desk().view().shot.id, project.shot(1));
    press(Qt::Key_PageDown);
    screen.hide();
    const auto efforts = project.store().snapshot()->efforts;
    ASSERT_GE(efforts.size(), 2U);
    EXPECT_EQ(efforts.begin()[0].shot, project.shot(0));
    EXPECT_EQ(efforts.begin()[0].clicks, 2);
    EXPECT_EQ(efforts.begin()[0].keys, 1 + 4 + 1);
    EXPECT_EQ(efforts.begin()[0].outcome, core::project::VisitOutcome::SetAside);
    EXPECT_EQ(efforts.begin()[1].shot, project.shot(1));
    EXPECT_EQ(efforts.begin()[1].keys, 1);
    EXPECT_EQ(efforts.begin()[1].outcome, core::project::VisitOutcome::Left);
}

TEST_F(ReadingScreenTest, ASecondReadingCountsToItsShotAndHidesTheNames) {
    ASSERT_TRUE(project.store().orderSecondReadings(std::vector{project.shot(1)}));
    screen.readBlind();
    press(Qt::Key_S);
    press(Qt::Key_Right, Qt::NoModifier, 5);
    press(Qt::Key_R);
    press(Qt::Key_Return);
    screen.hide();
    const auto efforts = project.store().snapshot()->efforts;
    ASSERT_FALSE(efforts.isEmpty());
    EXPECT_EQ(efforts.begin()->shot, project.shot(1));
    EXPECT_EQ(efforts.begin()->keys, 8);
    EXPECT_TRUE(efforts.begin()->namesHidden);
    EXPECT_EQ(efforts.begin()->outcome, core::project::VisitOutcome::Kept);
}

TEST_F(ReadingScreenTest, NoReasonSetsNothingAside) {
    press(Qt::Key_O);
    auto* reason = screen.card().findChild<QLineEdit*>(QStringLiteral("reason"));
    QTest::keyClick(reason, Qt::Key_Return);
    EXPECT_EQ(project.shotNow(0).standing, ShotStanding::Open);
    EXPECT_FALSE(screen.card().noticeText().isEmpty());
    QTest::keyClick(reason, Qt::Key_Escape);
    EXPECT_FALSE(reason->isVisible());
    press(Qt::Key_S);  // the keys of the loop work again
    EXPECT_TRUE(project.shotNow(0).marks.start.has_value());
}

TEST_F(ReadingScreenTest, QMarksAsDoubtful) {
    press(Qt::Key_Q);
    EXPECT_TRUE(project.shotNow(0).doubtful);
    press(Qt::Key_Q);
    EXPECT_FALSE(project.shotNow(0).doubtful);
}

TEST_F(ReadingScreenTest, BracketsThisFrameAndTheNext) {
    press(Qt::Key_S);
    press(Qt::Key_Right, Qt::NoModifier, 4);
    press(Qt::Key_B);
    ASSERT_EQ(project.shotNow(0).marks.returns.size(), 1U);
    EXPECT_EQ(project.shotNow(0).marks.returns[0], core::spin::ReturnMark::between({4}, {5}, 1));
    // Between 4 and 5 frames a turn.
    EXPECT_NEAR(screen.desk().view().reading->bounds->low.rpm, 1440.0, kRateRpm);
    EXPECT_NEAR(screen.desk().view().reading->bounds->high.rpm, 1800.0, kRateRpm);
}

TEST_F(ReadingScreenTest, PlusAndMinusChangeTheRowInFineAndCoarseSteps) {
    const double before = screen.desk().rowSeconds();
    press(Qt::Key_Plus);
    EXPECT_NEAR(screen.desk().rowSeconds() / before, 1.001, 1e-12);
    press(Qt::Key_Minus);
    EXPECT_NEAR(screen.desk().rowSeconds() / before, 1.0, 1e-12);
    press(Qt::Key_Plus, Qt::ShiftModifier);
    EXPECT_NEAR(screen.desk().rowSeconds() / before, 1.01, 1e-12);
    press(Qt::Key_Minus, Qt::ShiftModifier);
    EXPECT_NEAR(screen.desk().rowSeconds() / before, 1.0, 1e-12);
}

TEST_F(ReadingScreenTest, TheRowSaysFramesAndRate) {
    screen.desk().setRowSeconds(4.83 / 120.0);
    // 60·120/4.83 = 1490.68
    EXPECT_EQ(screen.gridPanel().rowText(),
              QStringLiteral("row = one turn of 4.83 frames (1491 rpm)"));
}

TEST_F(ReadingScreenTest, DraggingTheHandleChangesTheRowByTheDistance) {
    screen.desk().setRowSeconds(5.0 / 120.0);
    const double pxPerSecond = grid().gridLayout().scale().pxPerSecond;
    // Between two rows of pictures, so that the press is on the handle alone.
    const QPointF from{grid().handleRect().center().x(), 3.0};
    QTest::mousePress(grid().viewport(), Qt::LeftButton, {}, from.toPoint());
    QTest::mouseMove(grid().viewport(), from.toPoint() + QPoint{12, 0});
    QTest::mouseRelease(grid().viewport(), Qt::LeftButton, {}, from.toPoint() + QPoint{12, 0});
    EXPECT_NEAR(screen.desk().rowSeconds(), 5.0 / 120.0 + 12.0 / pxPerSecond,
                1.0 / pxPerSecond);  // mouse positions are whole pixels
}

TEST_F(ReadingScreenTest, ATunedRowStaysWhileTheMarksAllowIt) {
    screen.desk().setRowSeconds(4.9 / 120.0);
    press(Qt::Key_S);
    press(Qt::Key_Right, Qt::NoModifier, 5);
    press(Qt::Key_R);  // 4.5 to 5.5 frames
    EXPECT_NEAR(screen.desk().rowSeconds() * 120.0, 4.9, 1e-9);
    press(Qt::Key_M);
    EXPECT_NEAR(screen.desk().rowSeconds(), screen.desk().view().reading->period.seconds, 1e-12);
}

TEST_F(ReadingScreenTest, CompareGoesThroughItsModes) {
    press(Qt::Key_S);
    press(Qt::Key_Right, Qt::NoModifier, 5);
    press(Qt::Key_R);
    press(Qt::Key_Left);
    press(Qt::Key_C);
    EXPECT_EQ(screen.compareView().mode(), CompareView::Mode::SideBySide);
    EXPECT_TRUE(screen.compareView().isVisible());
    EXPECT_EQ(screen.compareView().startFrame(), FrameIndex{0});
    EXPECT_EQ(screen.compareView().otherFrame(), FrameIndex{5});
    press(Qt::Key_C);
    EXPECT_EQ(screen.compareView().mode(), CompareView::Mode::Blink);
    press(Qt::Key_C);
    EXPECT_TRUE(screen.scene().isVisible());
}

TEST_F(ReadingScreenTest, ClickingTheBallInTheSceneGoesToTheStore) {
    const auto ball = tests::ballOf(0, 0);
    const QPoint centre = screen.scene().toWidget({ball.xPx, ball.yPx}).toPoint();
    const QPoint edge = screen.scene().toWidget({ball.xPx + ball.radiusPx, ball.yPx}).toPoint();
    QTest::mousePress(&screen.scene(), Qt::LeftButton, {}, centre);
    QTest::mouseMove(&screen.scene(), edge);
    QTest::mouseRelease(&screen.scene(), Qt::LeftButton, {}, edge);
    ASSERT_EQ(project.shotNow(0).clicks.size(), 1U);
    const auto& click = project.shotNow(0).clicks[0];
    // A widget pixel is the resolution of a mouse.
    const double pixel =
        1.0 / (screen.scene().toWidget({1.0, 0.0}).x() - screen.scene().toWidget({0.0, 0.0}).x());
    EXPECT_NEAR(click.xPx, ball.xPx, pixel);
    EXPECT_NEAR(click.yPx, ball.yPx, pixel);
    EXPECT_NEAR(click.radiusPx, ball.radiusPx, 2.0 * pixel);
}

// A stray click moved the ball by half the picture and changed the number, without a word.
TEST_F(ReadingScreenTest, AClickOnAKeptShotMovesNothingAndSaysHowToMoveTheBall) {
    project.clickBall(0, 24);
    keepByMarks(0);
    const auto before = project.shotNow(0).clicks;
    const auto rate = screen.card().rateText();
    const auto edits = project.store().snapshot()->revision;
    clickScene({150.0, 60.0});
    EXPECT_EQ(project.shotNow(0).clicks, before);
    EXPECT_EQ(project.store().snapshot()->revision, edits);
    EXPECT_EQ(screen.card().rateText(), rate);
    auto* reopen = screen.card().findChild<QAbstractButton*>(QStringLiteral("reopen"));
    ASSERT_TRUE(reopen->isVisible());
    EXPECT_TRUE(screen.scene().remark().contains(QStringLiteral("kept")));
    EXPECT_TRUE(screen.scene().remark().contains(reopen->text()));
    EXPECT_EQ(screen.card().noticeText(), screen.scene().remark());
    QTest::mouseClick(reopen, Qt::LeftButton);
    clickScene({80.0, 70.0});
    EXPECT_TRUE(screen.scene().remark().isEmpty());
    EXPECT_NE(project.shotNow(0).clicks, before);
}

TEST_F(ReadingScreenTest, TheBallOfAKeptShotStaysInTheBallViewAndInASecondReading) {
    project.clickBall(0, 24);
    keepByMarks(0);
    const auto before = project.shotNow(0).clicks;
    // As the ball view does, by a click or the wheel.
    EXPECT_FALSE(screen.desk().setBall({{80.0, 70.0}, 20.0}));
    EXPECT_EQ(project.shotNow(0).clicks, before);
    EXPECT_FALSE(screen.card().noticeText().isEmpty());
    ASSERT_TRUE(project.store().orderSecondReadings(std::vector{project.shot(0)}));
    screen.readBlind();
    clickScene({80.0, 70.0});
    EXPECT_EQ(project.shotNow(0).clicks, before);
    EXPECT_FALSE(screen.scene().remark().isEmpty());
}

TEST_F(ReadingScreenTest, AClickFarFromThePathIsTakenWhenItIsMadeAgain) {
    project.clickBall(0, 24);
    const auto before = project.shotNow(0).clicks;
    press(Qt::Key_Right, Qt::NoModifier, 2);
    // The ball is at (52, 64) with a radius of 22: 183 px are 4.2 ball widths.
    clickScene({220.0, 140.0});
    EXPECT_EQ(project.shotNow(0).clicks, before);
    EXPECT_FALSE(screen.scene().remark().isEmpty());
    press(Qt::Key_Right);  // the question was about that frame
    EXPECT_TRUE(screen.scene().remark().isEmpty());
    clickScene({220.0, 140.0});
    EXPECT_EQ(project.shotNow(0).clicks, before);
    clickScene({220.0, 140.0});
    ASSERT_EQ(project.shotNow(0).clicks.size(), before.size() + 1);
    EXPECT_EQ(project.shotNow(0).clicks[1].frame, FrameIndex{3});
    EXPECT_TRUE(screen.scene().remark().isEmpty());
}

TEST_F(ReadingScreenTest, TheStatusSaysFrameTimeAndClock) {
    QSignalSpy status{&screen, &ReadingScreen::statusChanged};
    press(Qt::Key_Right, Qt::NoModifier, 5);
    ASSERT_FALSE(status.isEmpty());
    const QString text = status.back().at(0).toString();
    // Five intervals of 1/120 s after the first frame.
    EXPECT_TRUE(
        text.startsWith(QStringLiteral("frame 5 · +41.7 ms · 120 frames/s, from the time stamps")))
        << text.toStdString();
}

TEST_F(ReadingScreenTest, PageKeysGoThroughTheShots) {
    press(Qt::Key_PageDown);
    EXPECT_EQ(screen.desk().view().shot.id, project.shot(1));
    press(Qt::Key_PageDown, Qt::NoModifier, 3);
    EXPECT_EQ(screen.desk().view().shot.id, project.shot(2));
    press(Qt::Key_PageUp);
    EXPECT_EQ(screen.desk().view().shot.id, project.shot(1));
}

TEST_F(ReadingScreenTest, ThePictureOfTheNextShotIsThereAtOnce) {
    auto& requester = project.requester();
    const FrameIndex first = project.shotNow(1).firstFrame;
    const auto isPrepared = [&] {
        const auto clip = requester.findClip(project.film(1), 0);
        return clip && !requester.pictureNow(*clip, first, {}).isNull();
    };
    ASSERT_TRUE(QTest::qWaitFor(isPrepared, kDecodeMilliseconds));
    press(Qt::Key_PageDown);
    EXPECT_EQ(screen.desk().view().shot.id, project.shot(1));
    EXPECT_EQ(screen.scene().pictureFrame(), first);
}

TEST_F(ReadingScreenTest, TheFilterShowsWhatIsUnread) {
    ASSERT_TRUE(project.store().setAside(project.shot(1), "mishit"));
    screen.strip().setFilter(ShotListModel::Filter::Unread);
    EXPECT_EQ(screen.strip().model().rowCount(), 2);
    press(Qt::Key_PageDown);
    EXPECT_EQ(screen.desk().view().shot.id, project.shot(2));
}

TEST_F(ReadingScreenTest, EveryActionTellsItsKey) {
    for (const QAction* action : screen.readingActions()) {
        ASSERT_FALSE(action->shortcut().isEmpty()) << action->objectName().toStdString();
        EXPECT_TRUE(
            action->toolTip().contains(action->shortcut().toString(QKeySequence::NativeText)))
            << action->toolTip().toStdString();
    }
}

TEST_F(ReadingScreenTest, HoldingStillShowsEveryPictureInTheAttitudeOfTheStart) {
    project.clickBall(0, 24);
    screen.desk().setRowSeconds(5.0 / 120.0);
    ASSERT_TRUE(waitForPictures());
    // In frame 0 the dark sector points up; in frame 1 it has turned by 72 degrees.
    const auto isDarkAbove = [this](FrameIndex frame) {
        const QRectF cell = grid().cellRect(frame);
        const QPointF above = cell.center() - QPointF{0.0, cell.height() * 0.2};
        return qGray(grid().viewport()->grab().toImage().pixel(above.toPoint())) < 90;
    };
    EXPECT_TRUE(isDarkAbove({0}));
    EXPECT_FALSE(isDarkAbove({1}));
    EXPECT_FALSE(isDarkAbove({3}));
    press(Qt::Key_H);
    EXPECT_EQ(grid().sense(), TurnSense::CounterClockwise);
    EXPECT_NEAR(grid().shownTurnDegrees({1}), 72.0, 1e-9);
    for (const int frame : {0, 1, 2, 3, 4, 7}) {
        EXPECT_TRUE(isDarkAbove({frame})) << "frame " << frame;
    }
}

TEST_F(ReadingScreenTest, ADroppedFrameLeavesAHoleInTheGrid) {
    screen.openShot(project.shot(2));
    screen.desk().setRowSeconds(5.0 / 120.0);
    ASSERT_EQ(grid().gridLayout().holes().size(), 1U);
    EXPECT_EQ(grid().gridLayout().holes()[0].row, 1);
    // Frame 7 of the file is frame 8 of the world: 1.6 turns.
    EXPECT_NEAR(grid().gridLayout().cellOf({7})->turnsFromReference, 1.6, 1e-9);
}

}  // namespace
}  // namespace ui::reading
