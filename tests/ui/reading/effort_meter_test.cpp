#include "ui/reading/card/effort_meter.h"

#include <gtest/gtest.h>

#include <QKeyEvent>
#include <QTest>
#include <QVBoxLayout>

#include "tests/ui/reading/reading_project.h"

namespace ui::reading {
namespace {

using core::project::ReadingEffort;
using core::project::ShotId;
using core::project::VisitOutcome;
using namespace std::chrono_literals;

constexpr int kPatienceMilliseconds = 10000;

/// A window with a reading screen and something else in it, and time that the test sets.
class EffortMeterTest : public ::testing::Test {
protected:
    void SetUp() override {
        auto* layout = new QVBoxLayout{&window};
        layout->addWidget(&screen);
        layout->addWidget(&elsewhere);
        part.resize(50, 50);
        window.resize(300, 200);
        window.show();
        ASSERT_TRUE(QTest::qWaitForWindowActive(&window, kPatienceMilliseconds));
    }
    [[nodiscard]] core::project::Entities<ReadingEffort> noted() {
        return project.store().snapshot()->efforts;
    }
    /// The visits are over and written.
    void leave() { screen.hide(); }
    void sendKey(QEvent::Type type, Qt::Key key, bool isAutoRepeat = false) {
        QKeyEvent event{type, key, Qt::NoModifier, {}, isAutoRepeat};
        QCoreApplication::sendEvent(&part, &event);
    }
    void sendButton(QEvent::Type type) {
        QMouseEvent event{type, {5, 5}, {5, 5}, Qt::LeftButton, Qt::LeftButton, Qt::NoModifier};
        QCoreApplication::sendEvent(&part, &event);
    }
    void setActive(bool isActive) {
        QEvent event{isActive ? QEvent::WindowActivate : QEvent::WindowDeactivate};
        QCoreApplication::sendEvent(&window, &event);
    }

    tests::ReadingProject project{{{}, {}}};
    std::chrono::milliseconds now{5000};
    QWidget window;
    QWidget screen{&window};
    QWidget part{&screen};
    QWidget elsewhere{&window};
    EffortMeter meter{project.store(), screen, [this] { return now; }};
};

TEST_F(EffortMeterTest, CountsKeysClicksAndTime) {
    meter.open(project.shot(0), false);
    now += 1500ms;
    QTest::keyClick(&part, Qt::Key_S);
    QTest::keyClick(&screen, Qt::Key_R);
    now += 2000ms;
    QTest::mouseClick(&part, Qt::LeftButton);
    sendButton(QEvent::MouseButtonDblClick);  // as the window system says the second press
    sendButton(QEvent::MouseButtonRelease);
    QTest::mouseClick(&part, Qt::LeftButton);
    now += 250ms;
    meter.setOutcome(VisitOutcome::Kept);
    leave();
    ASSERT_EQ(noted().size(), 1U);
    const ReadingEffort& visit = *noted().begin();
    EXPECT_EQ(visit.shot, project.shot(0));
    EXPECT_EQ(visit.keys, 2);
    EXPECT_EQ(visit.clicks, 3);
    EXPECT_EQ(visit.activeSeconds, 3.75);
    EXPECT_FALSE(visit.namesHidden);
    EXPECT_EQ(visit.outcome, VisitOutcome::Kept);
    EXPECT_EQ(visit.beganAt.size(), std::string{"2026-05-03T09:41:07Z"}.size());
    EXPECT_EQ(visit.beganAt.back(), 'Z');
}

TEST_F(EffortMeterTest, APauseCountsUpToTheLimit) {
    meter.open(project.shot(0), false);
    now += 10s;
    QTest::keyClick(&part, Qt::Key_S);  // ten seconds of looking
    now += 10min;
    QTest::keyClick(&part, Qt::Key_R);  // ten more, the rest of the pause does not count
    now += 1s;
    leave();
    EXPECT_EQ(noted().begin()->activeSeconds, 21.0);
}

TEST_F(EffortMeterTest, MotionOfThePointerIsWorkButNoPress) {
    meter.open(project.shot(0), false);
    for (int i = 0; i < 3; ++i) {
        now += 8s;
        QMouseEvent move{QEvent::MouseMove, {5, 5},       {5, 5},
                         Qt::NoButton,      Qt::NoButton, Qt::NoModifier};
        QCoreApplication::sendEvent(&part, &move);
    }
    leave();
    EXPECT_EQ(noted().begin()->activeSeconds, 24.0);
    EXPECT_EQ(noted().begin()->keys, 0);
    EXPECT_EQ(noted().begin()->clicks, 0);
}

TEST_F(EffortMeterTest, AHeldKeyCountsOnce) {
    meter.open(project.shot(0), false);
    sendKey(QEvent::ShortcutOverride, Qt::Key_Right);
    sendKey(QEvent::KeyPress, Qt::Key_Right);
    for (int i = 0; i < 20; ++i) {
        sendKey(QEvent::KeyRelease, Qt::Key_Right, true);
        sendKey(QEvent::ShortcutOverride, Qt::Key_Right, true);
        sendKey(QEvent::KeyPress, Qt::Key_Right, true);
    }
    sendKey(QEvent::KeyRelease, Qt::Key_Right);
    sendKey(QEvent::KeyPress, Qt::Key_Right);
    leave();
    EXPECT_EQ(noted().begin()->keys, 2);
}

TEST_F(EffortMeterTest, AnotherWindowIsNoWork) {
    meter.open(project.shot(0), false);
    now += 2s;
    setActive(false);
    now += 5s;
    QTest::keyClick(&part, Qt::Key_S);
    now += 1s;
    setActive(true);
    now += 3s;
    leave();
    EXPECT_EQ(noted().begin()->activeSeconds, 5.0);
}

TEST_F(EffortMeterTest, WhatHappensElsewhereDoesNotCount) {
    meter.open(project.shot(0), false);
    QTest::keyClick(&elsewhere, Qt::Key_S);
    QTest::mouseClick(&elsewhere, Qt::LeftButton);
    now += 2s;
    leave();
    EXPECT_EQ(noted().begin()->keys, 0);
    EXPECT_EQ(noted().begin()->clicks, 0);
    QTest::keyClick(&part, Qt::Key_S);  // not seen any more
    EXPECT_EQ(noted().size(), 1U);
}

TEST_F(EffortMeterTest, EveryShotHasItsOwnVisits) {
    meter.open(project.shot(0), false);
    QTest::keyPress(&part, Qt::Key_Return);
    meter.setOutcome(VisitOutcome::SetAside);
    now += 1s;
    meter.open(project.shot(1), false);
    QTest::keyRelease(&part, Qt::Key_Return);
    QTest::keyClick(&part, Qt::Key_Return);
    now += 2s;
    leave();
    screen.show();  // the shot is there again
    now += 4s;
    leave();
    ASSERT_EQ(noted().size(), 3U);
    const auto* visits = &*noted().begin();
    EXPECT_EQ(visits->shot, project.shot(0));
    EXPECT_EQ(visits->keys, 1);
    EXPECT_EQ(visits->outcome, VisitOutcome::SetAside);
    EXPECT_EQ(noted().begin()[1].shot, project.shot(1));
    EXPECT_EQ(noted().begin()[1].keys, 1);
    EXPECT_EQ(noted().begin()[1].activeSeconds, 2.0);
    EXPECT_EQ(noted().begin()[1].outcome, VisitOutcome::Left);
    EXPECT_EQ(noted().begin()[2].shot, project.shot(1));
    EXPECT_EQ(noted().begin()[2].activeSeconds, 4.0);
}

TEST_F(EffortMeterTest, AGlanceIsNotNoted) {
    meter.open(project.shot(0), false);
    now += 999ms;
    meter.open(project.shot(1), false);
    now += 1000ms;
    leave();
    ASSERT_EQ(noted().size(), 1U);
    EXPECT_EQ(noted().begin()->shot, project.shot(1));
}

TEST_F(EffortMeterTest, NamesAreHiddenWhenNobodySeesThemDuringTheVisit) {
    meter.setNamesHidden(true);
    const auto visit = [this](bool isBlind, std::optional<bool> change = {}) {
        meter.open(project.shot(0), isBlind);
        if (change) {
            meter.setNamesHidden(*change);
        }
        now += 1s;
    };
    visit(false);
    visit(false, false);  // shown after all
    visit(false, true);   // hidden too late
    visit(false);
    meter.setNamesHidden(false);
    visit(true);  // a second reading hides them whatever the list does
    visit(true, false);
    leave();
    std::vector<bool> hidden;
    for (const ReadingEffort& each : noted()) {
        hidden.push_back(each.namesHidden);
    }
    EXPECT_EQ(hidden, (std::vector<bool>{true, false, false, false, true, true}));
}

TEST_F(EffortMeterTest, NamesThatAnotherScreenHasShownAreNotHidden) {
    meter.setNamesHidden(true);
    meter.open(project.shot(0), false);
    meter.noteNamesSeen();
    now += 1s;
    meter.open(project.shot(1), false);  // the next one is not
    now += 1s;
    leave();
    const auto all = noted();
    ASSERT_EQ(all.size(), 2U);
    EXPECT_FALSE(all.begin()[0].namesHidden);
    EXPECT_TRUE(all.begin()[1].namesHidden);
}

TEST_F(EffortMeterTest, IsWrittenALittleLaterByItself) {
    meter.open(project.shot(0), false);
    QTest::keyClick(&part, Qt::Key_S);
    meter.close();
    EXPECT_TRUE(noted().isEmpty()) << "the next shot is to be seen first";
    EXPECT_TRUE(QTest::qWaitFor([this] { return !noted().isEmpty(); }, kPatienceMilliseconds));
}

TEST_F(EffortMeterTest, NothingIsLostWhenTheScreenGoes) {
    {
        EffortMeter other{project.store(), screen, [this] { return now; }};
        other.open(project.shot(0), false);
        QTest::keyClick(&part, Qt::Key_S);
    }
    ASSERT_EQ(noted().size(), 1U);
    EXPECT_EQ(noted().begin()->keys, 1);
}

TEST_F(EffortMeterTest, WhoMayOnlyLookIsNotMeasured) {
    const auto file = project.store().file();
    const auto copy = file.parent_path() / "copy.turnmark";
    std::filesystem::copy_file(file, copy);
    const auto store = core::project::Store::openReadOnly(copy).value();
    EffortMeter other{*store, screen, [this] { return now; }};
    QString trouble;
    QObject::connect(&other, &EffortMeter::failed, &other,
                     [&trouble](const QString& text) { trouble = text; });
    other.open(project.shot(0), false);
    QTest::keyClick(&part, Qt::Key_S);
    now += 5s;
    other.close();
    leave();
    EXPECT_TRUE(store->snapshot()->efforts.isEmpty());
    EXPECT_EQ(trouble, QString{});
}

}  // namespace
}  // namespace ui::reading
