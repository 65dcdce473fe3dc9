#include "ui/shell/main_window.h"

#include <gtest/gtest.h>

#include <QAction>
#include <QApplication>
#include <QDialog>
#include <QFileDialog>
#include <QLabel>
#include <QLineEdit>
#include <QPointer>
#include <QProcess>
#include <QPushButton>
#include <QSettings>
#include <QSignalSpy>
#include <QSplitter>
#include <QStandardPaths>
#include <QSysInfo>
#include <QTableView>
#include <QTableWidget>
#include <QTest>
#include <cmath>
#include <fstream>

#include "core/project/backups.h"
#include "core/report/summary.h"
#include "tests/demo/demo_footage.h"
#include "tests/support/demo_copy.h"
#include "tests/support/must.h"
#include "ui/findings/findings_screen.h"
#include "ui/reading/card/reading_card.h"
#include "ui/reading/grid/turn_grid_panel.h"
#include "ui/reading/reading_screen.h"
#include "ui/shell/backups_window.h"
#include "ui/shell/recent_row.h"
#include "ui/shell/status_line.h"

namespace ui::shell {
namespace {

namespace fs = std::filesystem;
using core::project::ShotStanding;
using core::timebase::FrameIndex;

constexpr int kWaitMilliseconds = 60000;  // for decoding on a busy machine
constexpr double kCaptureFps = 240.0;     // of the demo's clips

/// The window on a copy of the demo, driven as a person would.
class MainWindowTest : public ::testing::Test {
protected:
    void SetUp() override {
        QStandardPaths::setTestModeEnabled(true);
        QCoreApplication::setOrganizationName(QStringLiteral("turnmark-tests"));
        openWindow();
    }
    void openWindow() {
        window = std::make_unique<MainWindow>();
        ASSERT_TRUE(window->openProject(project()));
        window->show();
        ASSERT_TRUE(QTest::qWaitForWindowActive(window.get(), kWaitMilliseconds));
    }
    [[nodiscard]] fs::path project() const { return demo.project(); }
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
    /// Whole frames in one turn of the ball, from the scene that the clip was rendered from.
    [[nodiscard]] std::int64_t framesPerTurn(const core::project::Shot& of) {
        const std::string name = snapshot->clips.find(of.clip)->path;
        for (const auto& clip : tests::must(tests::demo::planDemoFootage()).manifest.clips) {
            if (clip.fileName == name) {
                const auto& truth = clip.shots.at(static_cast<std::size_t>(of.ordinal - 1));
                return std::lround(60.0 * kCaptureFps / truth.spin.rpm);
            }
        }
        return 0;
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
    tests::DemoCopy demo;
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
    QTest::keyClick(&screen(), Qt::Key_O);
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

// A robot ended the program so: the project went while a dialog of its plan was open above it.
TEST_F(MainWindowTest, NoActionIsDoneUnderAnOpenDialog) {
    QDialog dialog{window.get()};
    dialog.open();
    const auto* store = window->store();
    const auto revision = store->snapshot()->revision;
    for (const char* name : {"project.close", "project.new", "project.open", "project.demo", "undo",
                             "screen.plan", "help.keys"}) {
        window->findChild<QAction*>(QString::fromLatin1(name))->trigger();
        ASSERT_EQ(window->store(), store) << name;
        EXPECT_EQ(QApplication::activeModalWidget(), &dialog) << name;
    }
    EXPECT_EQ(store->snapshot()->revision, revision);
    dialog.close();
    window->findChild<QAction*>(QStringLiteral("project.close"))->trigger();
    EXPECT_EQ(window->store(), nullptr);
}

// A robot ended the program so: the dialog belonged to a screen that went before the answer.
TEST_F(MainWindowTest, AQuestionGoesWithTheProjectThatAsked) {
    window->findChild<QAction*>(QStringLiteral("screen.footage"))->trigger();
    auto* add = window->findChild<QPushButton*>(QStringLiteral("add_clips"));
    ASSERT_NE(add, nullptr);
    QTest::mouseClick(add, Qt::LeftButton);
    const QPointer<QWidget> question{QApplication::activeModalWidget()};
    ASSERT_NE(qobject_cast<QFileDialog*>(question.data()), nullptr);
    window->openProject(window->store()->file());
    EXPECT_EQ(QApplication::activeModalWidget(), nullptr);
    EXPECT_TRUE(QTest::qWaitFor([&] { return question == nullptr; }, 2000));
    ASSERT_NE(window->store(), nullptr);
}

TEST_F(MainWindowTest, AListIsOfferedBesideTheProject) {
    window->findChild<QAction*>(QStringLiteral("screen.plan"))->trigger();
    auto* print = window->findChild<QPushButton*>(QStringLiteral("print_list"));
    ASSERT_NE(print, nullptr);
    QTest::mouseClick(print, Qt::LeftButton);
    auto* question = qobject_cast<QFileDialog*>(QApplication::activeModalWidget());
    ASSERT_NE(question, nullptr);
    EXPECT_EQ(question->directory().canonicalPath(),
              QString::fromStdString(fs::canonical(project().parent_path()).string()));
    EXPECT_TRUE(question->selectedFiles().value(0).endsWith(QStringLiteral("shot-list.pdf")));
    question->reject();
}

TEST_F(MainWindowTest, TheStartPageKnowsWhatWasOpenAndOpensIt) {
    window->findChild<QAction*>(QStringLiteral("project.close"))->trigger();
    ASSERT_EQ(window->store(), nullptr);
    const auto* row = window->findChild<RecentRow*>();
    ASSERT_NE(row, nullptr);
    EXPECT_EQ(row->text(), QString::fromStdString(project().stem().string()));
    EXPECT_TRUE(row->accessibleName().contains(QStringLiteral("8 implements · 94 of 96 read")))
        << row->accessibleName().toStdString();
    auto* last = window->findChild<QPushButton*>(QStringLiteral("open_last"));
    ASSERT_TRUE(last->isVisible());
    QTest::mouseClick(last, Qt::LeftButton);
    ASSERT_NE(window->store(), nullptr);
    EXPECT_EQ(window->store()->file(), project());
}

TEST_F(MainWindowTest, TheWindowComesBackAsItWasLeft) {
    window->resize(1234, 666);
    auto* columns = window->findChild<QSplitter*>(QStringLiteral("reading_columns"));
    columns->setSizes({280, 500, 331});
    const auto sizes = columns->sizes();
    window->close();
    window.reset();
    openWindow();
    EXPECT_EQ(window->size(), (QSize{1234, 666}));
    EXPECT_EQ(window->findChild<QSplitter*>(QStringLiteral("reading_columns"))->sizes(), sizes);
    QSettings{}.remove(QStringLiteral("window"));  // of the tests; the next ones begin afresh
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

// A second press started a second rendering into the same files.
TEST_F(MainWindowTest, TheDemoIsMadeOnceHoweverOftenItIsAskedFor) {
    window.reset();
    qputenv("HOME", QByteArray::fromStdString(folder.path().string()));  // where a demo would be
    MainWindow fresh;
    fresh.show();
    auto* button = fresh.findChild<QPushButton*>(QStringLiteral("open_demo"));
    auto* action = fresh.findChild<QAction*>(QStringLiteral("project.demo"));
    auto* jobs = fresh.findChild<bridge::JobRunner*>();
    QTest::mouseClick(button, Qt::LeftButton);
    QTest::mouseClick(button, Qt::LeftButton);
    action->trigger();
    EXPECT_EQ(jobs->jobs().size(), 1);
    EXPECT_FALSE(button->isEnabled());
    EXPECT_FALSE(action->isEnabled());
    jobs->cancelAll();
    EXPECT_TRUE(QTest::qWaitFor([&] { return button->isEnabled(); }, kWaitMilliseconds));
    EXPECT_TRUE(action->isEnabled());
}

// A demo that is ready must not take away the project that somebody opened meanwhile.
TEST_F(MainWindowTest, AProjectThatIsOpenIsClosedWhenTheDemoIsAskedForNotWhenItIsReady) {
    qputenv("HOME", QByteArray::fromStdString(folder.path().string()));
    auto* action = window->findChild<QAction*>(QStringLiteral("project.demo"));
    action->trigger();
    EXPECT_EQ(window->store(), nullptr);
    EXPECT_FALSE(action->isEnabled());
    ASSERT_TRUE(window->openProject(project()));  // which gives up the demo
    ASSERT_TRUE(QTest::qWaitFor([&] { return action->isEnabled(); }, kWaitMilliseconds));
    EXPECT_NE(window->store(), nullptr);
}

/// Another program on this machine that has the project open for writing: its facts beside the
/// project, and the lock held by flock(1) of util-linux.
class HeldElsewhere {
public:
    explicit HeldElsewhere(const fs::path& project) {
        const fs::path lock = project.string() + ".open";
        std::ofstream{lock} << R"({"user": "ann", "host": ")"
                            << QSysInfo::machineHostName().toStdString()
                            << R"(", "program": "turnmark", "process": 4711,)"
                            << R"( "since": "2026-05-03T09:41:07Z", "boot_id": ""})";
        m_holder.start(
            QStringLiteral("flock"),
            {QStringLiteral("-x"), QString::fromStdString(lock.string()), QStringLiteral("sh"),
             QStringLiteral("-c"), QStringLiteral("echo held; exec cat")});
        EXPECT_TRUE(m_holder.waitForReadyRead(kWaitMilliseconds));
    }
    ~HeldElsewhere() {
        m_holder.closeWriteChannel();  // cat ends, and with it the lock
        m_holder.waitForFinished();
    }
    HeldElsewhere(const HeldElsewhere&) = delete;
    HeldElsewhere& operator=(const HeldElsewhere&) = delete;

private:
    QProcess m_holder;
};

TEST_F(MainWindowTest, AProjectThatIsOpenElsewhereIsShownAndSaysWhoHasIt) {
    window.reset();
    {
        const HeldElsewhere held{project()};
        openWindow();
        auto* line = window->findChild<QLabel*>(QStringLiteral("read_only"));
        ASSERT_NE(line, nullptr);
        EXPECT_TRUE(line->isVisible());
        for (const char* part : {"ann", "4711", "2026-05-03"}) {
            EXPECT_TRUE(line->text().contains(QLatin1String(part))) << line->text().toStdString();
        }
        const auto revision = window->store()->snapshot()->revision;
        EXPECT_FALSE(window->findChild<QAction*>(QStringLiteral("undo"))->isEnabled());
        QTest::keyClick(&screen(), Qt::Key_O);
        QTest::keyClick(&screen(), Qt::Key_Q);
        QTest::keyClick(&screen(), Qt::Key_Right);
        EXPECT_EQ(window->store()->snapshot()->revision, revision);
        window.reset();
    }
    openWindow();
    EXPECT_TRUE(window->findChild<QLabel*>(QStringLiteral("read_only"))->isHidden());
    EXPECT_TRUE(window->store()->setReader("again"));
}

TEST_F(MainWindowTest, ABackupIsMadeOnOpeningAndRestoredFromTheMenu) {
    const auto folderOfCopies = core::project::backupFolder(project());
    ASSERT_TRUE(QTest::qWaitFor([&] { return core::project::backupsOf(project()).size() == 1; },
                                kWaitMilliseconds));
    const std::string reader = window->store()->snapshot()->reader;
    ASSERT_TRUE(window->store()->setReader("somebody else"));
    window->findChild<QAction*>(QStringLiteral("project.backups"))->trigger();
    auto* list = window->findChild<BackupsWindow*>();
    ASSERT_NE(list, nullptr);
    auto* table = list->findChild<QTableWidget*>(QStringLiteral("backups"));
    ASSERT_TRUE(QTest::qWaitFor([&] { return table->rowCount() == 1; }, kWaitMilliseconds));
    ASSERT_NE(table->item(0, 1), nullptr)
        << table->item(0, table->columnCount() - 1)->text().toStdString();
    EXPECT_EQ(table->item(0, 1)->text(), QStringLiteral("96"));  // shots of the demo
    EXPECT_EQ(table->item(0, 2)->text(), QStringLiteral("94"));  // of which two are open
    auto* restore = list->findChild<QPushButton*>(QStringLiteral("restore"));
    ASSERT_TRUE(QTest::qWaitFor([&] { return restore->isEnabled(); }, kWaitMilliseconds));
    QTest::mouseClick(restore, Qt::LeftButton);
    ASSERT_NE(window->store(), nullptr);
    EXPECT_EQ(window->store()->snapshot()->reader, reader)
        << window->findChild<StatusLine*>()->text().toStdString();
    int asides = 0;
    for (const auto& entry : fs::directory_iterator{project().parent_path()}) {
        const bool isAside =
            entry.path().filename().string().find("before restoring") != std::string::npos;
        asides += isAside ? 1 : 0;
    }
    EXPECT_EQ(asides, 1);
    EXPECT_EQ(core::project::backupsOf(project()).front().file.parent_path(), folderOfCopies);
}

TEST_F(MainWindowTest, ABackupThatCannotBeMadeIsSaidAndStopsNobody) {
    window.reset();
    fs::remove_all(core::project::backupFolder(project()));
    std::ofstream{core::project::backupFolder(project())} << "a file of that name";
    openWindow();
    auto* line = window->findChild<QLabel*>(QStringLiteral("backup_trouble"));
    ASSERT_TRUE(QTest::qWaitFor([&] { return line->isVisible(); }, kWaitMilliseconds));
    EXPECT_TRUE(line->text().contains(QStringLiteral("stringing bench (invented) backups")))
        << line->text().toStdString();
    EXPECT_TRUE(window->store()->setReader("goes on"));
}

TEST_F(MainWindowTest, SaysAtOnceThatNothingMoreCanBeKeptAndWhenItCanAgain) {
    const auto trouble = [this]() -> QString {
        const auto* line = window->findChild<QWidget*>(QStringLiteral("disk_trouble"));
        QString said;
        if (line != nullptr && line->isVisible()) {
            for (const auto* label : line->findChildren<QLabel*>()) {
                said += label->text() + QLatin1Char(' ');
            }
        }
        return said;
    };
    EXPECT_EQ(trouble(), QString{});
    const fs::path aside = demo.folder() / "taken away";
    fs::rename(project(), aside);
    EXPECT_FALSE(window->store()->setReader("A. Reader"));
    EXPECT_TRUE(trouble().contains(QStringLiteral("Nothing more can be kept")));
    EXPECT_TRUE(trouble().contains(QStringLiteral("is not there any more")));
    EXPECT_TRUE(trouble().contains(QStringLiteral("Put it back")));
    fs::rename(aside, project());
    EXPECT_TRUE(window->store()->setReader("A. Reader"));
    EXPECT_EQ(trouble(), QString{});
}

}  // namespace
}  // namespace ui::shell
