#include "ui/shell/main_window.h"

#include <gtest/gtest.h>

#include <QLabel>
#include <QLineEdit>
#include <QSignalSpy>
#include <QStandardPaths>
#include <QTableView>
#include <QTest>
#include <cmath>
#include <fstream>
#include <nlohmann/json.hpp>

#include "core/report/summary.h"
#include "tests/support/process.h"
#include "ui/findings/findings_screen.h"
#include "ui/reading/reading_card.h"
#include "ui/reading/reading_screen.h"
#include "ui/reading/turn_grid_panel.h"

namespace ui::shell {
namespace {

namespace fs = std::filesystem;
using core::project::ShotStanding;
using core::timebase::FrameIndex;

constexpr int kWaitMilliseconds = 20000;  // for decoding on a busy machine
constexpr double kCaptureFps = 240.0;     // of the demo's clips

/// The window on a copy of the demo, driven as a person would.
class MainWindowTest : public ::testing::Test {
protected:
    void SetUp() override {
        QStandardPaths::setTestModeEnabled(true);
        QCoreApplication::setOrganizationName(QStringLiteral("turnmark-tests"));
        fs::copy(DEMO_FOLDER, folder.path() / "demo");
        openWindow();
    }
    void openWindow() {
        window = std::make_unique<MainWindow>();
        ASSERT_TRUE(window->openProject(project()));
        window->show();
        ASSERT_TRUE(QTest::qWaitForWindowActive(window.get(), kWaitMilliseconds));
    }
    [[nodiscard]] fs::path project() const {
        return folder.path() / "demo" / "stringing-bench.turnmark";
    }
    [[nodiscard]] reading::ReadingScreen& screen() const {
        return *window->findChild<reading::ReadingScreen*>();
    }
    [[nodiscard]] const core::project::Shot& shot(core::project::ShotId id) {
        snapshot = window->store()->snapshot();
        return *snapshot->shots.find(id);
    }
    [[nodiscard]] std::vector<core::project::ShotId> openShots() const {
        std::vector<core::project::ShotId> open;
        const auto now = window->store()->snapshot();
        for (const auto* item : core::project::shotsInOrder(*now)) {
            if (item->standing == ShotStanding::Open) {
                open.push_back(item->id);
            }
        }
        return open;
    }
    /// Whole frames in one turn of the ball, from the truth that the renderer wrote beside the
    /// clip.
    [[nodiscard]] std::int64_t framesPerTurn(const core::project::Shot& of) {
        const auto* clip = snapshot->clips.find(of.clip);
        const std::string name = clip != nullptr ? clip->path : std::string{};
        std::ifstream stream{(folder.path() / "demo" / name).replace_extension(".json")};
        const auto truth = nlohmann::json::parse(stream);
        const double spinRpm = truth["shots"][static_cast<std::size_t>(of.ordinal - 1)]["spin_rpm"];
        return std::lround(60.0 * kCaptureFps / spinRpm);
    }
    void clickInGrid(const QRectF& rect) {
        auto& grid = screen().gridPanel().grid();
        QTest::mouseClick(grid.viewport(), Qt::LeftButton, {}, rect.center().toPoint());
    }
    void waitForPictures() {
        QSignalSpy done{&screen().pictures(), &reading::BallPictures::completed};
        ASSERT_TRUE(screen().pictures().areComplete() || done.wait(kWaitMilliseconds));
    }
    /// Counts of the cell of a shot in the summary, as Findings and the command line see it.
    [[nodiscard]] core::report::ShotCounts countsOf(core::project::ShotId id) {
        const auto cell = *shot(id).cell;
        const auto summary = core::report::summarise(*snapshot);
        for (const auto& row : summary.value().cells) {
            if (row.cell == cell) {
                return row.counts;
            }
        }
        return {};
    }
    /// Start and the return one turn later, both by clicks in the turn grid.
    void markOneTurn(FrameIndex start, FrameIndex back) {
        auto& grid = screen().gridPanel().grid();
        clickInGrid(grid.cellRect(start));
        ASSERT_EQ(screen().desk().frame(), start);
        clickInGrid(grid.startChipRect());
        clickInGrid(grid.cellRect(back));
        ASSERT_EQ(screen().desk().frame(), back);
        clickInGrid(grid.returnChipRect());
    }

    tests::TemporaryFolder folder;
    std::unique_ptr<MainWindow> window;
    core::project::SnapshotPtr snapshot;
};

TEST_F(MainWindowTest, MarksUndoKeepAsideAndReopenLoseNothing) {
    const auto open = openShots();
    ASSERT_EQ(open.size(), 2U);
    screen().openShot(open[0]);
    waitForPictures();
    const FrameIndex start{shot(open[0]).firstFrame.value + 2};
    const std::int64_t turn = framesPerTurn(shot(open[0]));
    markOneTurn(start, {start.value + turn});
    ASSERT_TRUE(shot(open[0]).marks.start.has_value());
    EXPECT_EQ(shot(open[0]).marks.start->frame, start);
    ASSERT_EQ(shot(open[0]).marks.returns.size(), 1U);
    const auto& read = screen().desk().view().reading;
    ASSERT_TRUE(read.has_value());
    constexpr double kExactStamps = 1e-6;
    EXPECT_NEAR(read->marked.rpm, 60.0 * kCaptureFps / static_cast<double>(turn), kExactStamps);
    EXPECT_TRUE(screen().card().rateText().endsWith(QStringLiteral("rpm")));

    QTest::keyClick(window.get(), Qt::Key_Z, Qt::ControlModifier);
    EXPECT_TRUE(shot(open[0]).marks.returns.empty());
    QTest::keyClick(window.get(), Qt::Key_Z, Qt::ControlModifier | Qt::ShiftModifier);
    EXPECT_EQ(shot(open[0]).marks.returns.size(), 1U);

    const auto before = countsOf(open[0]);
    QTest::keyClick(&screen(), Qt::Key_Return);
    EXPECT_EQ(shot(open[0]).standing, ShotStanding::Kept);
    EXPECT_EQ(countsOf(open[0]).kept, before.kept + 1);

    screen().openShot(open[1]);
    QTest::keyClick(&screen(), Qt::Key_X);
    auto* reason = qobject_cast<QLineEdit*>(QApplication::focusWidget());
    ASSERT_NE(reason, nullptr);
    QTest::keyClicks(reason, QStringLiteral("mishit"));
    QTest::keyClick(reason, Qt::Key_Return);
    EXPECT_EQ(shot(open[1]).standing, ShotStanding::SetAside);
    EXPECT_EQ(shot(open[1]).reason, "mishit");

    window.reset();
    openWindow();
    EXPECT_EQ(shot(open[0]).standing, ShotStanding::Kept);
    EXPECT_EQ(shot(open[0]).marks.start->frame, start);
    EXPECT_EQ(shot(open[1]).reason, "mishit");
    EXPECT_EQ(countsOf(open[1]).setAside, 1U);
    EXPECT_EQ(countsOf(open[1]).open, 0U);

    QTest::keyClick(window.get(), Qt::Key_Z, Qt::ControlModifier);
    EXPECT_EQ(shot(open[1]).standing, ShotStanding::Open) << "undo reaches back over closing";
}

TEST_F(MainWindowTest, NumberInFindingsOpensItsShot) {
    QTest::keyClick(window.get(), Qt::Key_5, Qt::ControlModifier);
    auto* findings = window->findChild<findings::FindingsScreen*>();
    ASSERT_TRUE(findings->isVisible());
    const auto tables = findings->findChildren<QTableView*>();
    const auto found = std::find_if(tables.begin(), tables.end(), [](const QTableView* table) {
        return table->accessibleName().startsWith(QStringLiteral("Shots"));
    });
    ASSERT_NE(found, tables.end());
    QTableView* shots = *found;
    ASSERT_TRUE(
        QTest::qWaitFor([shots] { return shots->model()->rowCount() > 0; }, kWaitMilliseconds));
    shots->selectRow(0);
    QSignalSpy opened{&screen(), &reading::ReadingScreen::shotOpened};
    shots->setFocus();
    QTest::keyClick(shots, Qt::Key_Return);
    EXPECT_EQ(opened.count(), 1);
    EXPECT_TRUE(screen().isVisible());
}

TEST_F(MainWindowTest, FileThatIsNoProjectIsSaidOnTheStartPage) {
    const auto notes = folder.path() / "notes.turnmark";
    std::ofstream{notes} << "not a project\n";
    EXPECT_FALSE(window->openProject(notes));
    EXPECT_EQ(window->store(), nullptr);
    const auto labels = window->findChildren<QLabel*>();
    EXPECT_TRUE(std::any_of(labels.begin(), labels.end(), [](const QLabel* label) {
        return label->isVisible() && label->text().contains(QStringLiteral("notes.turnmark"));
    }));
}

}  // namespace
}  // namespace ui::shell
