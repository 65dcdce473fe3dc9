#include <gtest/gtest.h>

#include <QApplication>
#include <QCheckBox>
#include <QClipboard>
#include <QFileDialog>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QSettings>
#include <QStandardPaths>
#include <chrono>
#include <iostream>

#include "core/plan/schedule.h"
#include "core/project/clip_location.h"
#include "tests/demo/demo_footage.h"
#include "tests/support/demo_copy.h"
#include "tests/support/must.h"
#include "tests/support/named_widget.h"
#include "tests/ui/shell/counted_hand.h"
#include "ui/reading/reading_screen.h"
#include "ui/shell/appearance.h"
#include "ui/shell/main_window.h"

/// A whole job by keys and the pointer, each counted: a project, its plan, twelve clips from the
/// card, the set-up of their day, 23 shots read and kept, two wrong clocks settled, published. The
/// clips are cut from those of the demo without being encoded again; two of them are slow-motion
/// exports that say nothing of how fast the camera sampled.
namespace ui::shell {
namespace {

namespace fs = std::filesystem;
using core::project::ShotStanding;
using tests::must;

constexpr int kJobPatienceMs = 300'000;  // for reading 23 shots on a busy machine
constexpr std::size_t kImplements = 6;
constexpr std::size_t kClips = 12;
constexpr std::size_t kShots = 23;
constexpr int kMostBesidesKeeping = 40;
/// Of the demo's scenes: the first flights end before, the next ones begin after.
constexpr const char* kAfterOneShot = "0.225";
constexpr const char* kAfterTwoShots = "0.395";
constexpr const char* kAfterTwoShotsSlowly = "3.16";  // eight times as late

class CountedJob : public ::testing::Test {
protected:
    CountedJob() : m_homeBefore{qgetenv("HOME")} {
        QStandardPaths::setTestModeEnabled(true);
        QCoreApplication::setOrganizationName(QStringLiteral("turnmark-tests"));
        fs::create_directories(home() / "card");
        fs::create_directories(home() / "web");
        qputenv("HOME", QByteArray::fromStdString(home().string()));
        QSettings{}.remove(QStringLiteral("publish/folder"));
        applyAppearance(Appearance::Light, 1.0);
        window.resize(1366, 740);
        window.show();
    }
    ~CountedJob() override { qputenv("HOME", m_homeBefore); }

    [[nodiscard]] fs::path home() const { return folder.path() / "home"; }
    [[nodiscard]] static bool waitFor(const std::function<bool()>& holds) {
        return QTest::qWaitFor(holds, kJobPatienceMs);
    }
    template <class Widget>
    [[nodiscard]] Widget& child(const char* name) {
        return tests::namedWidget<Widget>(window, name);
    }
    [[nodiscard]] core::project::SnapshotPtr now() const { return window.store()->snapshot(); }
    [[nodiscard]] static QFileDialog* fileDialog() {
        return qobject_cast<QFileDialog*>(QApplication::activeModalWidget());
    }
    /// Types into the dialog that asks for a file or a folder, and closes it.
    void answer(const char* name) {
        ASSERT_TRUE(waitFor([] {
            return fileDialog() != nullptr && QApplication::activeWindow() == fileDialog();
        }));
        hand.type(name);
        hand.key(Qt::Key_Return);
        ASSERT_TRUE(waitFor([] { return QApplication::activeModalWidget() == nullptr; }));
        window.activateWindow();  // as a window manager does
        ASSERT_TRUE(QTest::qWaitForWindowActive(&window, kJobPatienceMs));
    }

    void makeProjectAndPlan();
    void film();
    void takeIn();
    void assign();
    void readAndKeep();
    void publish();

    tests::TemporaryFolder folder;
    tests::DemoCopy demo;
    QByteArray m_homeBefore;
    MainWindow window;
    tests::CountedHand hand{window};
    /// By name of the clip.
    std::map<std::string, std::pair<std::string, std::string>> filmed;
};

void CountedJob::makeProjectAndPlan() {
    hand.begin("new project");
    ASSERT_TRUE(QTest::qWaitForWindowActive(&window, kJobPatienceMs));
    hand.key(Qt::Key_N, Qt::ControlModifier);
    answer("day");
    ASSERT_NE(window.store(), nullptr);
    EXPECT_EQ(window.store()->file(), home() / "day.turnmark");
    hand.begin("plan");
    QString names = QStringLiteral("name\n");
    const auto manifest = must(tests::demo::planDemoFootage()).manifest;
    for (std::size_t i = 0; i < kImplements; ++i) {
        names += QString::fromStdString(manifest.implements[i].name) + QLatin1Char('\n');
    }
    QApplication::clipboard()->setText(names);
    hand.key(Qt::Key_V, Qt::ControlModifier | Qt::ShiftModifier);
    // A key presses a button for a tenth of a second.
    ASSERT_TRUE(
        waitFor([this] { return core::project::planOf(*now()).implements.size() == kImplements; }));
    hand.key(Qt::Key_I, Qt::AltModifier);
    hand.type("A,B");
    hand.key(Qt::Key_Return);
    hand.key(Qt::Key_S, Qt::AltModifier);
    hand.type("2");
    hand.key(Qt::Key_Return);
    const auto plan = core::project::planOf(*now());
    ASSERT_EQ(plan.implements.size(), kImplements);
    ASSERT_EQ(plan.hitters.size(), 2U);
    ASSERT_EQ(plan.shotsPerCell, 2);
}

/// In the order of the plan, one clip a visit; the last hitter is tired after one shot.
void CountedJob::film() {
    const auto plan = core::project::planOf(*now());
    const auto schedule = must(core::plan::scheduleOf(plan));
    std::size_t clips = 0;
    const auto begun = fs::file_time_type::clock::now();
    for (const auto& visit : schedule.visits) {
        if (visit.kind != core::plan::Visit::Kind::Shots) {
            continue;
        }
        ASSERT_EQ(visit.shots, 2);
        const std::string hitter = plan.hitters[visit.hitter];
        const auto source = demo.folder() / ("strings_" + std::to_string(visit.implement + 1) +
                                             "_hitter_" + hitter + ".mp4");
        ++clips;
        const std::string name = "clip_" + std::to_string(100 + clips) + ".mp4";
        const bool isSlow = clips == 4 || clips == 9;
        const bool isLast = clips == kClips;
        std::vector<std::string> command{"ffmpeg", "-v", "error"};
        if (isSlow) {
            command.insert(command.end(), {"-itsscale", "8"});
        }
        command.insert(command.end(),
                       {"-i", source.string(), "-c", "copy", "-t",
                        isSlow ? kAfterTwoShotsSlowly : (isLast ? kAfterOneShot : kAfterTwoShots)});
        if (isSlow) {
            command.insert(command.end(), {"-an", "-map_metadata", "-1"});
        } else {
            command.insert(command.end(), {"-movflags", "use_metadata_tags"});
        }
        const auto film = home() / "card" / name;
        command.push_back(film.string());
        const auto done = tests::runProgram(command);
        ASSERT_EQ(done.status, 0) << done.errors;
        fs::last_write_time(film, begun + std::chrono::minutes{clips});
        filmed[name] = {plan.implements[visit.implement].name, hitter};
    }
    ASSERT_EQ(clips, kClips);
}

void CountedJob::takeIn() {
    hand.begin("card");
    hand.key(Qt::Key_2, Qt::ControlModifier);
    hand.click(child<QCheckBox>("read_ahead"), true);
    hand.key(Qt::Key_F, Qt::ControlModifier | Qt::ShiftModifier);
    answer("card");
    ASSERT_TRUE(waitFor([this] { return child<QLineEdit>("day_diameter").hasFocus(); }));
    hand.begin("set-up of the day");
    hand.type("67");
    hand.key(Qt::Key_Return);
    EXPECT_EQ(now()->sessions.begin()->ballDiameterMm, 67.0);
    ASSERT_TRUE(waitFor([this] { return !child<QLabel>("intake_progress").isVisible(); }));
    EXPECT_EQ(now()->clips.size(), kClips);
    ASSERT_EQ(now()->shots.size(), kShots);
}

void CountedJob::assign() {
    hand.begin("shots");
    hand.click(child<QPushButton>("by_order"));
    ASSERT_TRUE(child<QPushButton>("assign_anyway").isVisible()) << "23 of 24 planned were filmed";
    hand.click(child<QPushButton>("assign_anyway"));
    const auto snapshot = now();
    for (const auto& shot : snapshot->shots) {
        ASSERT_TRUE(shot.cell);
        const auto& cell = *snapshot->cells.find(*shot.cell);
        const auto name = fs::path{snapshot->clips.find(shot.clip)->path}.filename().string();
        EXPECT_EQ((std::pair{snapshot->implements.find(cell.implement)->name,
                             snapshot->hitters.find(cell.hitter)->name}),
                  filmed.at(name))
            << name;
    }
}

void CountedJob::readAndKeep() {
    hand.begin("read and kept");
    hand.key(Qt::Key_3, Qt::ControlModifier);
    auto& reading = *window.findChild<reading::ReadingScreen*>();
    const auto order = core::project::shotsInOrder(*now());
    std::vector<core::project::ShotId> shots;
    std::transform(order.begin(), order.end(), std::back_inserter(shots),
                   [](const auto* shot) { return shot->id; });
    for (const auto shot : shots) {
        const auto isRead = [&] { return reading.desk().view().pictureReading() != nullptr; };
        ASSERT_EQ(reading.desk().view().shot.id, shot);
        const auto helps = [&reading] {
            return reading.findChild<QPushButton*>(QStringLiteral("use_flight_rate"));
        };
        ASSERT_TRUE(waitFor([&] { return isRead() || helps() != nullptr; }));
        if (!isRead()) {
            hand.begin("clocks settled");
            hand.click(*helps());
            hand.begin("read and kept");
            ASSERT_TRUE(waitFor(isRead));
        }
        hand.key(Qt::Key_Return);
        EXPECT_EQ(now()->shots.find(shot)->standing, ShotStanding::Kept);
    }
    const auto snapshot = now();
    EXPECT_EQ(std::count_if(snapshot->clips.begin(), snapshot->clips.end(),
                            [](const auto& clip) {
                                return clip.clock->stretch == core::timebase::Rational{8};
                            }),
              2);
}

void CountedJob::publish() {
    hand.begin("publish");
    hand.key(Qt::Key_6, Qt::ControlModifier);
    // The project's own count of what reading cost says the same.
    std::int64_t keys = 0;
    std::int64_t clicks = 0;
    for (const auto& visit : now()->efforts) {
        keys += visit.keys;
        clicks += visit.clicks;
    }
    EXPECT_EQ(keys, static_cast<std::int64_t>(kShots) + 2) << "Ctrl and 6, of leaving";
    EXPECT_EQ(clicks, 1) << "the clocks";
    hand.key(Qt::Key_P, Qt::ControlModifier);
    answer("web");
    ASSERT_TRUE(waitFor([this] { return child<QPushButton>("open_page").isVisible(); }));
    EXPECT_TRUE(fs::exists(home() / "web" / "index.html"));
    const auto shots = tests::bytesOf(home() / "web" / "shots.csv");
    EXPECT_EQ(std::count(shots.begin(), shots.end(), '\n'), static_cast<long>(kShots) + 1);
}

TEST_F(CountedJob, TakesFortyKeysAndClicksBesidesOneAShot) {
    ASSERT_NO_FATAL_FAILURE(makeProjectAndPlan());
    ASSERT_NO_FATAL_FAILURE(film());
    ASSERT_NO_FATAL_FAILURE(takeIn());
    ASSERT_NO_FATAL_FAILURE(assign());
    ASSERT_NO_FATAL_FAILURE(readAndKeep());
    ASSERT_NO_FATAL_FAILURE(publish());
    std::cout << "keys and clicks:";
    for (const auto& [part, count] : hand.counts()) {
        std::cout << "  " << part << " " << count;
    }
    const int besides = hand.inAll() - static_cast<int>(kShots);
    std::cout << "\n" << hand.inAll() << " in all, " << besides << " besides one a shot\n";
    EXPECT_LE(besides, kMostBesidesKeeping);
}

}  // namespace
}  // namespace ui::shell
