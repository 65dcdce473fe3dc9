#include <gtest/gtest.h>

#include <QApplication>
#include <QClipboard>
#include <QComboBox>
#include <QMenu>
#include <QStandardPaths>
#include <QTableView>
#include <QTest>

#include "tests/support/demo_copy.h"
#include "tests/support/named_widget.h"
#include "ui/doubts/doubts_screen.h"
#include "ui/findings/findings_screen.h"
#include "ui/footage/footage_screen.h"
#include "ui/reading/reading_screen.h"
#include "ui/reading/shot/shot_strip.h"
#include "ui/shell/main_window.h"

/// The menus of rows in Footage and in Findings on a copy of the demo: opened with Shift+F10, used
/// by keys, and where they lead. The demo has 16 cells of six shots.
namespace ui::shell {
namespace {

constexpr int kMenuPatienceMs = 60000;  // for computing on a busy machine

class RowMenus : public ::testing::Test {
protected:
    void SetUp() override {
        QStandardPaths::setTestModeEnabled(true);
        QCoreApplication::setOrganizationName(QStringLiteral("turnmark-tests"));
        ASSERT_TRUE(window.openProject(demo.project()));
        window.resize(1366, 740);
        window.show();
        ASSERT_TRUE(QTest::qWaitForWindowActive(&window, kMenuPatienceMs));
    }
    [[nodiscard]] QTableView& list(const QString& name) {
        for (auto* view : window.findChildren<QTableView*>()) {
            if (view->accessibleName() == name) {
                return *view;
            }
        }
        throw std::runtime_error("no list of " + name.toStdString());
    }
    void show(Qt::Key step) { QTest::keyClick(&window, step, Qt::ControlModifier); }
    [[nodiscard]] QMenu& openMenu(QTableView& view, const char* name) {
        view.setFocus();
        QTest::keyClick(&view, Qt::Key_F10, Qt::ShiftModifier);
        return tests::namedWidget<QMenu>(window, name);
    }
    static void choose(QMenu& menu, const QString& words) {
        for (QAction* action : menu.actions()) {
            if (action->text() == words) {
                ASSERT_TRUE(action->isEnabled()) << words.toStdString();
                menu.setActiveAction(action);
                QTest::keyClick(&menu, Qt::Key_Return);
                return;
            }
        }
        FAIL() << "no " << words.toStdString();
    }
    template <class Screen>
    [[nodiscard]] Screen& screen() {
        return *window.findChild<Screen*>();
    }
    void openFindings() {
        show(Qt::Key_5);
        ASSERT_TRUE(QTest::qWaitFor(
            [&] {
                auto& ranked = tests::namedWidget<QTableView>(window, "ranked");
                return ranked.isVisible() && ranked.model()->rowCount() == 8 &&
                       ranked.currentIndex().isValid();
            },
            kMenuPatienceMs));
    }
    [[nodiscard]] core::project::ImplementId implementOf(core::project::ShotId shot) const {
        const auto snapshot = window.store()->snapshot();
        return snapshot->cells.find(*snapshot->shots.find(shot)->cell)->implement;
    }

    tests::DemoCopy demo;
    MainWindow window;
};

TEST_F(RowMenus, AShotOfFootageLeadsToReadingAndToItsDoubts) {
    show(Qt::Key_2);
    auto& shots = list(QStringLiteral("Shots of the clip"));
    ASSERT_GE(shots.model()->rowCount(), 3);
    shots.selectRow(2);
    choose(openMenu(shots, "shot_menu"), QStringLiteral("Read this shot"));
    auto& reading = screen<reading::ReadingScreen>();
    EXPECT_TRUE(reading.isVisible());
    EXPECT_EQ(reading.desk().view().shot.ordinal, 3);
    const auto shot = reading.desk().view().shot;
    show(Qt::Key_2);
    shots.selectRow(2);
    choose(openMenu(shots, "shot_menu"), QStringLiteral("Show its doubts"));
    auto& doubts = screen<doubts::DoubtsScreen>();
    EXPECT_TRUE(doubts.isVisible());
    EXPECT_EQ(tests::namedWidget<QComboBox>(doubts, "doubtCellFilter").currentText().toStdString(),
              core::project::cellName(*window.store()->snapshot(), *shot.cell));
}

TEST_F(RowMenus, ChosenShotsAreCopiedAsATable) {
    show(Qt::Key_2);
    auto& shots = list(QStringLiteral("Shots of the clip"));
    shots.selectAll();
    choose(openMenu(shots, "shot_menu"), QStringLiteral("Copy rows as a table"));
    const auto lines = QApplication::clipboard()->text().split(QLatin1Char('\n'));
    ASSERT_EQ(lines.size(), 8) << "a head, six shots, and the end of the last line";
    EXPECT_TRUE(lines[0].startsWith(QStringLiteral("Shot\tFrames\t"))) << lines[0].toStdString();
    for (const auto& line : lines.mid(0, 7)) {
        EXPECT_EQ(line.count(QLatin1Char('\t')), shots.model()->columnCount() - 1);
    }
}

TEST_F(RowMenus, ARowOfTheRankingLeadsToItsShotsAndItsDoubts) {
    openFindings();
    auto& ranked = tests::namedWidget<QTableView>(window, "ranked");
    choose(openMenu(ranked, "ranked_menu"), QStringLiteral("Read its shots"));
    auto& reading = screen<reading::ReadingScreen>();
    ASSERT_TRUE(reading.isVisible());
    auto& model = reading.strip().model();
    ASSERT_EQ(model.rowCount(), 12) << "two hitters, six shots each";
    const auto implement = implementOf(reading.desk().view().shot.id);
    for (int row = 0; row < model.rowCount(); ++row) {
        EXPECT_EQ(implementOf(model.shotAt(row)), implement);
    }
    show(Qt::Key_5);
    choose(openMenu(ranked, "ranked_menu"), QStringLiteral("Show its doubts"));
    auto& doubts = screen<doubts::DoubtsScreen>();
    ASSERT_TRUE(doubts.isVisible());
    EXPECT_TRUE(tests::namedWidget<QComboBox>(doubts, "doubtCellFilter")
                    .currentText()
                    .endsWith(QStringLiteral(", all hitters")));
    ASSERT_TRUE(QTest::qWaitFor([&] { return doubts.doubts() != nullptr; }, kMenuPatienceMs));
    const auto found = doubts.doubts();
    int expected = 0;
    for (const auto& item : found->items) {
        const auto snapshot = window.store()->snapshot();
        expected += item.cell && snapshot->cells.find(*item.cell)->implement == implement ? 1 : 0;
    }
    EXPECT_EQ(tests::namedWidget<QTableView>(doubts, "doubts").model()->rowCount(), expected);
}

TEST_F(RowMenus, AShotBehindANumberLeadsToItsDoubts) {
    openFindings();
    auto& shots = list(QStringLiteral("Shots behind the chosen number"));
    ASSERT_TRUE(QTest::qWaitFor([&] { return shots.model()->rowCount() > 0; }, kMenuPatienceMs));
    shots.selectRow(1);
    choose(openMenu(shots, "side_menu"), QStringLiteral("Show its doubts"));
    EXPECT_TRUE(screen<doubts::DoubtsScreen>().isVisible());
}

}  // namespace
}  // namespace ui::shell
