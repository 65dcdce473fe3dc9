#include "ui/footage/clip_menu.h"

#include <gtest/gtest.h>

#include <QApplication>
#include <QContextMenuEvent>
#include <QDialogButtonBox>
#include <QLineEdit>
#include <QMenu>
#include <QPointer>
#include <QPushButton>
#include <QTableView>
#include <QTest>
#include <functional>
#include <stdexcept>

#include "core/intake/day_setup.h"
#include "tests/core/intake/clip_project.h"
#include "tests/core/intake/clip_readings.h"
#include "tests/support/must.h"
#include "ui/footage/clip_time_line.h"
#include "ui/footage/clip_viewer.h"
#include "ui/footage/footage_screen.h"

/// The menu of a clip, opened with the pointer and used by keys, on a project with one clip.
namespace ui::footage {
namespace {

constexpr int kWaitMs = 60000;  // for decoding on a busy machine

class ClipMenuTest : public ::testing::Test, public tests::intake::ClipProject {
protected:
    void SetUp() override {
        screen.resize(1200, 700);
        screen.show();
        ASSERT_TRUE(QTest::qWaitForWindowExposed(&screen, kWaitMs));
    }
    [[nodiscard]] QTableView& list() const {
        for (auto* view : screen.findChildren<QTableView*>()) {
            if (view->accessibleName() == QLatin1String("Clips")) {
                return *view;
            }
        }
        throw std::runtime_error("no list of clips");
    }
    /// Opens the menu over the first clip.
    [[nodiscard]] QMenu& openMenu() {
        const QPoint at = list().visualRect(list().model()->index(0, 0)).center();
        QWidget* place = list().viewport();
        QTest::mouseClick(place, Qt::LeftButton, {}, at);
        QContextMenuEvent event{QContextMenuEvent::Mouse, at, place->mapToGlobal(at)};
        QApplication::sendEvent(place, &event);
        auto* menu = qobject_cast<QMenu*>(QApplication::activePopupWidget());
        if (menu == nullptr) {
            throw std::runtime_error("no menu");
        }
        return *menu;
    }
    /// Goes through the words of a menu and of the menus below it by keys.
    static void choose(QMenu& menu, const QStringList& path) {
        QMenu* at = &menu;
        for (const QString& words : path) {
            QAction* found = nullptr;
            for (QAction* action : at->actions()) {
                found = action->text() == words ? action : found;
            }
            ASSERT_NE(found, nullptr) << words.toStdString();
            ASSERT_TRUE(found->isEnabled()) << words.toStdString();
            at->setActiveAction(found);
            QTest::keyClick(at, found->menu() != nullptr ? Qt::Key_Right : Qt::Key_Return);
            at = found->menu();
        }
    }

    /// Does something in the dialog that asks.
    static void answer(const std::function<void(QWidget&)>& act) {
        ASSERT_TRUE(QTest::qWaitFor([] { return QApplication::activeModalWidget() != nullptr; }));
        QPointer<QWidget> dialog{QApplication::activeModalWidget()};
        act(*dialog);
        ASSERT_TRUE(QTest::qWaitFor(
            [&] { return dialog.isNull() || QApplication::activeModalWidget() != dialog; }));
    }
    [[nodiscard]] static QPushButton& buttonSaying(const QWidget& dialog, const QString& words) {
        for (auto* button : dialog.findChildren<QPushButton*>()) {
            if (button->text().remove(QLatin1Char('&')) == words) {
                return *button;
            }
        }
        throw std::runtime_error("no button " + words.toStdString());
    }

    bridge::JobRunner jobs{1};
    std::unique_ptr<core::media::FrameService> frames = core::media::FrameService::create({});
    bridge::FrameRequester pictures{*frames};
    FootageScreen screen{*store, pictures, jobs};
};

TEST_F(ClipMenuTest, AClipIsTurnedAndTurnedBackByUndo) {
    choose(openMenu(), {QStringLiteral("Turn"), QStringLiteral("Quarter turn right")});
    EXPECT_EQ(record().turnedDegrees, 90);
    EXPECT_GT(record().height, record().width);
    tests::must(store->undo());
    EXPECT_EQ(record().turnedDegrees, 0);
    tests::must(store->redo());
    choose(openMenu(), {QStringLiteral("Turn"), QStringLiteral("As the file says")});
    EXPECT_EQ(record().turnedDegrees, 0);
}

TEST_F(ClipMenuTest, AClipIsMovedToAnotherDay) {
    core::project::Session day;
    day.name = "Tom & Ann";
    const auto other = tests::must(store->addSession(day));
    choose(openMenu(), {QStringLiteral("Move to day"), QStringLiteral("Tom && Ann")});
    EXPECT_EQ(record().session, other);
    tests::must(store->undo());
    EXPECT_NE(record().session, other);
}

TEST_F(ClipMenuTest, ANewDayIsThereOnlyWhenTheMoveIs) {
    auto setUp = tests::must(core::intake::setUpOf(*store->snapshot(), record().session));
    setUp.session.exposureSeconds = 0.001;
    tests::must(core::intake::setUpDay(*store, setUp));
    tests::intake::keepPictures(*store, tests::intake::readWholeClip(*store, clip));
    for (const bool isMeant : {false, true}) {
        choose(openMenu(), {QStringLiteral("Move to day"), QStringLiteral("New filming day…")});
        answer([](QWidget& dialog) {
            QTest::keyClicks(dialog.findChild<QLineEdit*>(), QStringLiteral("evening"));
            QTest::keyClick(&dialog, Qt::Key_Return);
        });
        answer([isMeant](QWidget& dialog) {  // the kept shot would be read again
            const auto words =
                isMeant ? QStringLiteral("Move, read again") : QDialogButtonBox::tr("Cancel");
            QTest::mouseClick(&buttonSaying(dialog, words), Qt::LeftButton);
        });
        EXPECT_EQ(store->snapshot()->sessions.size(), isMeant ? 2U : 1U);
    }
    tests::must(store->undo());
    EXPECT_EQ(store->snapshot()->sessions.size(), 1U);
}

TEST_F(ClipMenuTest, APictureFromTheMiddleOfTheShotIsShownFirst) {
    core::project::Shot shot;
    shot.clip = clip;
    shot.firstFrame = {10};
    shot.lastFrame = {20};
    tests::must(store->addShots(std::vector{shot}));
    FootageScreen again{*store, pictures, jobs};
    again.resize(1200, 700);
    again.show();
    ASSERT_TRUE(QTest::qWaitForWindowExposed(&again, kWaitMs));
    EXPECT_EQ(again.findChild<ClipTimeLine*>()->frame(), 15);
}

}  // namespace
}  // namespace ui::footage
