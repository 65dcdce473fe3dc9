#include <gtest/gtest.h>

#include <QApplication>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QSpinBox>
#include <QStandardPaths>
#include <QTabWidget>
#include <QTableView>
#include <QTest>
#include <cmath>

#include "core/doubts/decisions.h"
#include "core/reading/project_reading.h"
#include "core/report/summary.h"
#include "tests/support/demo_copy.h"
#include "tests/support/must.h"
#include "ui/doubts/doubts_screen.h"
#include "ui/reading/card/reading_card.h"
#include "ui/reading/grid/compare_view.h"
#include "ui/reading/reading_screen.h"
#include "ui/reading/shot/shot_strip.h"
#include "ui/shell/main_window.h"

/// Doubtful shots in the window on a copy of the demo, by real key and mouse events.
namespace ui::shell {
namespace {

namespace fs = std::filesystem;
using core::project::Shot;
using core::project::ShotId;
using core::project::ShotStanding;
using core::timebase::FrameIndex;

constexpr int kPatienceMilliseconds = 20000;  // for decoding on a busy machine
constexpr std::size_t kPlanted = 21;          // place of a shot with marks in the order of the film

class DoubtsInTheWindow : public ::testing::Test {
protected:
    void SetUp() override {
        QStandardPaths::setTestModeEnabled(true);
        QCoreApplication::setOrganizationName(QStringLiteral("turnmark-tests"));
        window = std::make_unique<MainWindow>();
        ASSERT_TRUE(window->openProject(demo.project()));
        window->show();
        ASSERT_TRUE(QTest::qWaitForWindowActive(window.get(), kPatienceMilliseconds));
        plantHalfTurn();
    }
    /// A return is marked half a turn too late and counted as one turn.
    void plantHalfTurn() {
        auto& store = *window->store();
        const auto now = store.snapshot();
        const Shot& shot = *core::project::shotsInOrder(*now).at(kPlanted);
        planted = shot.id;
        start = shot.marks.start->frame;
        const auto& last = shot.marks.returns.back();
        framesPerTurn = static_cast<double>(last.frame.value - start.value) / last.turns.value();
        soundRpm = now->readings.find(*shot.counting)->rate.value.rpm;
        core::spin::MarkSet marks;
        marks.start = core::spin::StartMark{start, {}};
        marks.returns = {
            core::spin::ReturnMark::nearest({start.value + std::llround(1.5 * framesPerTurn)}, 1)};
        tests::must(store.setMarks(planted, marks));
        const auto after = store.snapshot();
        const Shot& marked = *after->shots.find(planted);
        const auto frames = tests::must(store.clipFrames(marked.clip));
        const auto read = tests::must(core::reading::readMarks(*after, marked, *frames));
        tests::must(
            store.keepReading(core::reading::makeMarksReading(*after, marked, *frames, read)));
    }
    [[nodiscard]] Shot shotNow() const { return *window->store()->snapshot()->shots.find(planted); }
    [[nodiscard]] double countingRpm() const {
        const auto now = window->store()->snapshot();
        return now->readings.find(*now->shots.find(planted)->counting)->rate.value.rpm;
    }
    [[nodiscard]] double cellMeanRpm() const {
        const auto summary = tests::must(core::report::summarise(*window->store()->snapshot()));
        for (const auto& cell : summary.cells) {
            if (cell.cell == *shotNow().cell) {
                return cell.mean->meanRpm;
            }
        }
        return 0.0;
    }
    [[nodiscard]] doubts::DoubtsScreen& screen() const {
        return *window->findChild<doubts::DoubtsScreen*>();
    }
    [[nodiscard]] reading::ReadingScreen& reading() const {
        return *window->findChild<reading::ReadingScreen*>();
    }
    [[nodiscard]] QTableView& table() const {
        return *screen().findChild<QTableView*>(QStringLiteral("doubts"));
    }
    [[nodiscard]] QString title() const {
        return screen().findChild<QLabel*>(QStringLiteral("doubtTitle"))->text();
    }
    /// Opens the screen and goes down to the planted shot, from the first row: only cells (the
    /// demo's odd one) are worse.
    void openDoubts() {
        QTest::keyClick(window.get(), Qt::Key_4, Qt::ControlModifier);
        ASSERT_TRUE(QTest::qWaitFor(
            [this] { return screen().isVisible() && screen().unsettled().has_value(); },
            kPatienceMilliseconds));
        QTest::keyClick(&table(), Qt::Key_Home, Qt::ControlModifier);
        const auto name = QString::fromStdString(
            core::project::shotName(*window->store()->snapshot(), shotNow()));
        ASSERT_TRUE(QTest::qWaitFor([this] { return !title().isEmpty(); }, kPatienceMilliseconds));
        while (!title().startsWith(name) && !title().startsWith(QStringLiteral("shot"))) {
            const QString before = title();
            QTest::keyClick(&table(), Qt::Key_Down);
            ASSERT_TRUE(QTest::qWaitFor([&] { return title() != before; }, kPatienceMilliseconds));
        }
        ASSERT_TRUE(title().startsWith(name)) << title().toStdString();
    }
    /// Marks start and first return where the ball truly is, by keys.
    void readByKeys() {
        auto& desk = reading().desk();
        while (desk.frame() < start) {
            QTest::keyClick(&reading(), Qt::Key_Right);
        }
        while (desk.frame() > start) {
            QTest::keyClick(&reading(), Qt::Key_Left);
        }
        QTest::keyClick(&reading(), Qt::Key_S);
        for (int step = 0; step < std::lround(framesPerTurn); ++step) {
            QTest::keyClick(&reading(), Qt::Key_Right);
        }
        QTest::keyClick(&reading(), Qt::Key_R);
    }

    tests::DemoCopy demo;
    std::unique_ptr<MainWindow> window;
    ShotId planted;
    FrameIndex start;
    double framesPerTurn{};
    double soundRpm{};
};

TEST_F(DoubtsInTheWindow, AShotIsReplayedReadAgainBlindDecidedAndTakenBack) {
    const double wrongRpm = countingRpm();
    const double wrongMean = cellMeanRpm();
    openDoubts();

    ASSERT_TRUE(table().hasFocus());  // the key goes where the reader sees the choice
    QTest::keyClick(QApplication::focusWidget(), Qt::Key_Return);
    ASSERT_TRUE(reading().isVisible());
    EXPECT_EQ(reading().desk().view().shot.id, planted);
    EXPECT_TRUE(reading().actionSet().replay->isChecked());
    EXPECT_EQ(reading().compareView().mode(), reading::CompareView::Mode::SideBySide);
    const auto* notice = reading().findChild<QLabel*>(QStringLiteral("notice"));
    EXPECT_TRUE(notice->isVisible());
    EXPECT_TRUE(notice->text().contains(QStringLiteral("c %1 rpm").arg(wrongRpm, 0, 'f', 0)))
        << notice->text().toStdString();

    openDoubts();
    QTest::keyClick(&table(), Qt::Key_W);
    ASSERT_TRUE(reading().desk().isBlind());
    EXPECT_FALSE(reading().strip().isVisible());
    EXPECT_FALSE(reading().desk().view().shot.marks.start);
    EXPECT_FALSE(reading().desk().view().reading);
    EXPECT_TRUE(reading().desk().view().cellName.isEmpty());
    readByKeys();
    ASSERT_TRUE(reading().desk().view().reading) << reading().desk().view().trouble.toStdString();
    EXPECT_EQ(shotNow().marks.returns.front().frame.value,
              start.value + std::llround(1.5 * framesPerTurn));  // the first marks stand
    QTest::keyClick(&reading(), Qt::Key_Return);
    ASSERT_TRUE(screen().isVisible());
    EXPECT_EQ(countingRpm(), wrongRpm);  // it does not count yet

    openDoubts();
    QTest::keyClick(&table(), Qt::Key_L);  // the newest reading is chosen
    EXPECT_NEAR(countingRpm(), soundRpm, 0.1 * soundRpm);
    EXPECT_NE(countingRpm(), soundRpm);
    EXPECT_GT(cellMeanRpm(), wrongMean);
    QTest::keyClick(window.get(), Qt::Key_Z, Qt::ControlModifier);
    EXPECT_EQ(countingRpm(), wrongRpm);
    EXPECT_EQ(cellMeanRpm(), wrongMean);
    QTest::keyClick(window.get(), Qt::Key_Z, Qt::ControlModifier | Qt::ShiftModifier);
    EXPECT_NEAR(countingRpm(), soundRpm, 0.1 * soundRpm);

    std::string story;
    const auto lines = tests::must(window->store()->historyOf(planted));
    for (const auto& line : lines) {
        story += line.what + '\n';
    }
    for (const char* part : {"again, blind:", "now counts for", "Undid: The reading"}) {
        EXPECT_NE(story.find(part), std::string::npos) << story;
    }
}

TEST_F(DoubtsInTheWindow, AShotIsPutOnTheListToFilmAgainAndPrinted) {
    openDoubts();
    QTest::keyClick(&table(), Qt::Key_F);
    auto* reason = screen().findChild<QLineEdit*>(QStringLiteral("doubtReason"));
    ASSERT_TRUE(reason->isVisible());
    QTest::keyClicks(reason, QStringLiteral("wrong ball"));
    QTest::keyClick(reason, Qt::Key_Return);
    EXPECT_EQ(shotNow().standing, ShotStanding::SetAside);
    EXPECT_EQ(shotNow().reason, "film again: wrong ball");
    auto* tabs = screen().findChild<QTabWidget*>(QStringLiteral("doubtTabs"));
    tabs->setCurrentIndex(2);
    EXPECT_TRUE(screen().findChild<QPushButton*>(QStringLiteral("printFilmAgain"))->isVisible());
    QTest::keyClick(window.get(), Qt::Key_Z, Qt::ControlModifier);
    EXPECT_EQ(shotNow().standing, ShotStanding::Kept);
    EXPECT_FALSE(screen().findChild<QPushButton*>(QStringLiteral("printFilmAgain"))->isVisible());
}

TEST_F(DoubtsInTheWindow, ACellIsPutOnTheListToFilmAgainAndTheTabsCount) {
    openDoubts();
    while (title().contains(QStringLiteral(".mp4"))) {  // down to the first cell
        const QString before = title();
        QTest::keyClick(&table(), Qt::Key_Down);
        ASSERT_TRUE(QTest::qWaitFor([&] { return title() != before; }, kPatienceMilliseconds))
            << "no cell is in doubt";
    }
    const auto* tabs = screen().findChild<QTabWidget*>(QStringLiteral("doubtTabs"));
    EXPECT_EQ(tabs->tabText(0), QStringLiteral("To check %1").arg(*screen().unsettled()));
    EXPECT_EQ(tabs->tabText(2), QStringLiteral("To film again"));
    QTest::keyClick(&table(), Qt::Key_F);
    auto* reason = screen().findChild<QLineEdit*>(QStringLiteral("doubtReason"));
    ASSERT_TRUE(reason->isVisible());
    QTest::keyClicks(reason, QStringLiteral("hitters disagree"));
    QTest::keyClick(reason, Qt::Key_Return);
    EXPECT_EQ(tabs->tabText(2), QStringLiteral("To film again 1"));
    const auto list = core::doubts::filmList(*window->store()->snapshot());
    ASSERT_EQ(list.size(), 1U);
    EXPECT_GT(list.front().shots, 1);
    QTest::keyClick(window.get(), Qt::Key_Z, Qt::ControlModifier);
    EXPECT_EQ(tabs->tabText(2), QStringLiteral("To film again"));
}

TEST_F(DoubtsInTheWindow, WhatIsKeptAsItIsIsSettledAndGoesFromTheList) {
    openDoubts();
    const auto before = *screen().unsettled();
    QTest::keyClick(&table(), Qt::Key_K);
    ASSERT_TRUE(
        QTest::qWaitFor([&] { return screen().unsettled() == before - 1; }, kPatienceMilliseconds));
    QTest::keyClick(window.get(), Qt::Key_Z, Qt::ControlModifier);
    EXPECT_TRUE(
        QTest::qWaitFor([&] { return screen().unsettled() == before; }, kPatienceMilliseconds));
}

TEST_F(DoubtsInTheWindow, ASampleIsDrawnAndReadOneAfterTheOther) {
    openDoubts();
    auto* tabs = screen().findChild<QTabWidget*>(QStringLiteral("doubtTabs"));
    tabs->setCurrentIndex(1);
    auto* count = screen().findChild<QSpinBox*>(QStringLiteral("secondCount"));
    count->setValue(2);
    QTest::mouseClick(screen().findChild<QPushButton*>(QStringLiteral("drawSample")),
                      Qt::LeftButton);
    EXPECT_EQ(core::project::waitingSecondReadings(*window->store()->snapshot()).size(), 2U);
    QTest::mouseClick(screen().findChild<QPushButton*>(QStringLiteral("readNextBlind")),
                      Qt::LeftButton);
    ASSERT_TRUE(reading().desk().isBlind());
    QTest::keyClick(&reading(), Qt::Key_PageDown);  // the order is the sample's
    EXPECT_TRUE(reading().desk().isBlind());
    QTest::keyClick(&reading(), Qt::Key_Escape);
    EXPECT_TRUE(screen().isVisible());
    EXPECT_EQ(core::project::waitingSecondReadings(*window->store()->snapshot()).size(), 2U);
}

}  // namespace
}  // namespace ui::shell
