#include <gtest/gtest.h>

#include <QCheckBox>
#include <QDate>
#include <QDropEvent>
#include <QLabel>
#include <QLineEdit>
#include <QMimeData>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QTableView>
#include <QTest>
#include <fstream>

#include "core/project/store.h"
#include "tests/support/must.h"
#include "tests/support/named_widget.h"
#include "tests/support/process.h"
#include "tests/support/reference_csv.h"
#include "ui/footage/footage_screen.h"
#include "ui/footage/session_box.h"

/// A filming day taken in by the footage screen, driven as a person would.
namespace ui::footage {
namespace {

namespace fs = std::filesystem;
using tests::must;
constexpr int kIntakePatience = 60000;  // milliseconds, for finding shots on a busy machine

class IntakeTest : public ::testing::Test {
protected:
    IntakeTest() : store{must(core::project::Store::create(project()))} {
        addFilm("b.mp4", "half_120fps.mp4");
        addFilm("day 1/a.mp4", "quarter_120fps.mp4");
        std::ofstream{films / "notes.txt"} << "wind from the left\n";
        std::ofstream{films / "broken.mov"} << "not a film at all\n";
    }
    void SetUp() override { open(); }
    [[nodiscard]] fs::path project() const { return folder.path() / "p.turnmark"; }
    void addFilm(const std::string& name, const std::string& source) {
        fs::create_directories((films / name).parent_path());
        fs::copy_file(tests::dataFolder() / "footage" / source, films / name);
    }
    /// A film of so many frames at 120 per second.
    void makeFilm(const std::string& name, int frameCount) {
        const auto done = tests::runProgram({"ffmpeg", "-v", "error", "-f", "lavfi", "-i",
                                             "testsrc=size=320x180:rate=120", "-frames:v",
                                             std::to_string(frameCount), "-c:v", "libx264",
                                             "-preset", "ultrafast", (films / name).string()});
        ASSERT_EQ(done.status, 0) << done.errors;
    }
    void open() {
        frames = core::media::FrameService::create({});
        pictures = std::make_unique<bridge::FrameRequester>(*frames);
        screen = std::make_unique<FootageScreen>(*store, *pictures, jobs);
        screen->resize(1366, 640);
        screen->show();
        ASSERT_TRUE(QTest::qWaitForWindowActive(screen.get(), kIntakePatience));
    }
    template <class Widget>
    [[nodiscard]] Widget& child(const char* name) {
        return tests::namedWidget<Widget>(*screen, name);
    }
    void drop(const std::vector<fs::path>& sources) {
        QMimeData data;
        QList<QUrl> urls;
        for (const auto& source : sources) {
            urls << QUrl::fromLocalFile(QString::fromStdString(source.string()));
        }
        data.setUrls(urls);
        QDragEnterEvent enter{{300, 300}, Qt::CopyAction, &data, Qt::LeftButton, Qt::NoModifier};
        QCoreApplication::sendEvent(screen.get(), &enter);
        ASSERT_TRUE(enter.isAccepted());
        QDropEvent event{{300, 300}, Qt::CopyAction, &data, Qt::LeftButton, Qt::NoModifier};
        QCoreApplication::sendEvent(screen.get(), &event);
    }
    [[nodiscard]] bool isIdle() { return !child<QLabel>("intake_progress").isVisible(); }
    [[nodiscard]] std::string report() {
        auto& text = child<QPlainTextEdit>("intake_report");
        return text.isVisible() ? text.toPlainText().toStdString() : std::string{};
    }
    [[nodiscard]] bool isSaid(const std::string& part) {
        return report().find(part) != std::string::npos;
    }
    [[nodiscard]] static bool waitFor(const std::function<bool()>& holds) {
        return QTest::qWaitFor(holds, kIntakePatience);
    }
    [[nodiscard]] bool waitForEnd() {
        return waitFor([this] { return isIdle(); });
    }
    /// Paths of the clips in the order in which they came in.
    [[nodiscard]] std::vector<std::string> clips() const {
        std::vector<std::string> paths;
        const auto snapshot = store->snapshot();
        for (const auto& clip : snapshot->clips) {
            paths.push_back(clip.path);
        }
        return paths;
    }
    [[nodiscard]] std::string sessionOfClip(std::size_t index) const {
        const auto snapshot = store->snapshot();
        const auto session = (snapshot->clips.begin() + static_cast<long>(index))->session;
        return snapshot->sessions.find(session)->name;
    }
    void addSession(const std::string& name) {
        core::project::Session session;
        session.name = name;
        must(store->addSession(session));
    }
    static std::string today() { return QDate::currentDate().toString(Qt::ISODate).toStdString(); }

    tests::TemporaryFolder folder;
    fs::path films{folder.path() / "card"};
    std::unique_ptr<core::project::Store> store;
    bridge::JobRunner jobs{2};
    std::unique_ptr<core::media::FrameService> frames;
    std::unique_ptr<bridge::FrameRequester> pictures;
    std::unique_ptr<FootageScreen> screen;
};

TEST_F(IntakeTest, ADroppedFolderIsTakenInOnceAndWhatIsRefusedIsNamed) {
    drop({films});
    EXPECT_FALSE(isIdle());
    ASSERT_TRUE(waitForEnd());
    EXPECT_TRUE(isSaid("2 clips added, 0 already there, 1 other file skipped")) << report();
    EXPECT_TRUE(isSaid("2 clips searched, 2 shots found")) << report();
    EXPECT_TRUE(isSaid("broken.mov: ")) << report();
    EXPECT_EQ(clips(), (std::vector<std::string>{"card/b.mp4", "card/day 1/a.mp4"}));
    EXPECT_EQ(store->snapshot()->shots.size(), 2U);
    EXPECT_EQ(sessionOfClip(0), today());
    EXPECT_EQ(store->snapshot()->sessions.begin()->date, today());

    // The first clips of a day have come in: with what ball is asked once.
    ASSERT_TRUE(child<QLineEdit>("day_diameter").isVisible());
    QTest::mouseClick(&child<QPushButton>("day_close"), Qt::LeftButton);
    EXPECT_FALSE(child<QLineEdit>("day_diameter").isVisible());

    QTest::mouseClick(&child<QPushButton>("intake_dismiss"), Qt::LeftButton);
    EXPECT_EQ(report(), "");
    drop({films});
    ASSERT_TRUE(waitForEnd());
    EXPECT_TRUE(isSaid("0 clips added, 2 already there")) << report();
    EXPECT_TRUE(isSaid("0 clips searched")) << report();
    EXPECT_EQ(clips().size(), 2U);
    EXPECT_FALSE(child<QLineEdit>("day_diameter").isVisible()) << "not now was said";
    EXPECT_EQ(store->snapshot()->shots.size(), 2U);
    EXPECT_EQ(store->snapshot()->sessions.size(), 1U);
}

TEST_F(IntakeTest, AFolderWithoutFilmsAddsNothingAndSaysSo) {
    fs::create_directories(folder.path() / "empty");
    std::ofstream{folder.path() / "empty" / "list.csv"} << "a,b\n";
    drop({folder.path() / "empty"});
    ASSERT_TRUE(waitForEnd());
    EXPECT_TRUE(isSaid("0 clips added, 0 already there, 1 other file skipped")) << report();
    EXPECT_TRUE(store->snapshot()->sessions.isEmpty());
}

// Reading a film of 2400 frames takes longer than reading one of three, which comes home all the
// same after it.
TEST_F(IntakeTest, ClipsComeInTheOrderInWhichTheyWereGiven) {
    makeFilm("a long.mp4", 2400);
    makeFilm("short.mp4", 3);
    drop({films / "a long.mp4", films / "short.mp4", films / "b.mp4"});
    ASSERT_TRUE(waitFor([this] { return clips().size() == 3; }));
    EXPECT_EQ(clips(),
              (std::vector<std::string>{"card/a long.mp4", "card/short.mp4", "card/b.mp4"}));
    QTest::mouseClick(&child<QPushButton>("intake_cancel"), Qt::LeftButton);
    ASSERT_TRUE(waitForEnd());
}

TEST_F(IntakeTest, CancelledItStopsAtOnceAndGoesOnTheNextTime) {
    makeFilm("a long.mp4", 2400);  // in which it takes a while to look for shots
    drop({films / "a long.mp4", films / "b.mp4"});
    drop({films / "day 1"});
    ASSERT_TRUE(waitFor([this] {
        return child<QLabel>("intake_progress").text().contains(QStringLiteral("Finding shots"));
    }));
    QElapsedTimer watch;
    watch.start();
    QTest::mouseClick(&child<QPushButton>("intake_cancel"), Qt::LeftButton);
    ASSERT_TRUE(waitForEnd());
    EXPECT_LT(watch.elapsed(), 2000);
    EXPECT_TRUE(isSaid("Cancelled.")) << report();
    EXPECT_TRUE(isSaid("What waited behind it was not begun")) << report();
    EXPECT_EQ(clips().size(), 2U);
    EXPECT_LT(store->snapshot()->shots.size(), 2U);
    fs::remove(films / "a long.mp4");
    drop({films});
    ASSERT_TRUE(waitForEnd());
    EXPECT_TRUE(isSaid("1 clip added, 1 already there")) << report();
    EXPECT_EQ(clips().size(), 3U);
    const auto snapshot = store->snapshot();
    for (const auto& clip : snapshot->clips) {
        if (clip.path != "card/a long.mp4") {
            EXPECT_EQ(shotsOfClip(*snapshot, clip.id).size(), 1U) << clip.path;
        }
    }
}

TEST_F(IntakeTest, ASecondDropWaitsForTheFirst) {
    drop({films / "b.mp4"});
    drop({films / "day 1"});
    EXPECT_TRUE(child<QLabel>("intake_progress").text().contains(QStringLiteral("1 more waiting")));
    ASSERT_TRUE(waitForEnd());
    EXPECT_EQ(clips(), (std::vector<std::string>{"card/b.mp4", "card/day 1/a.mp4"}));
    EXPECT_EQ(sessionOfClip(0), sessionOfClip(1)) << "the new day is added once";
    // The newest report stands on top.
    const auto first = report().find("1 clip added");
    EXPECT_NE(report().find("1 clip added", first + 1), std::string::npos) << report();
}

TEST_F(IntakeTest, TheProjectMayBeClosedWhileItRuns) {
    drop({films});
    ASSERT_TRUE(
        waitFor([this] { return !clips().empty(); }));  // both may come home between two looks
    screen.reset();
    pictures.reset();
    store.reset();
    QTest::qWait(500);  // what was on its way comes home to nobody
    store = must(core::project::Store::open(project()));
    open();
    drop({films});
    ASSERT_TRUE(waitForEnd());
    EXPECT_EQ(clips().size(), 2U);
    EXPECT_EQ(store->snapshot()->shots.size(), 2U);
}

TEST_F(IntakeTest, AProjectThatIsOnlyLookedAtSaysWhyNothingComesIn) {
    screen.reset();
    pictures.reset();
    store.reset();
    store = must(core::project::Store::openReadOnly(project()));
    open();
    EXPECT_FALSE(child<QPushButton>("add_folder").isEnabled());
    drop({films});
    EXPECT_TRUE(isIdle());
    EXPECT_EQ(child<QLabel>("trouble").text().toStdString(), store->readOnlyReason());
    EXPECT_TRUE(child<QLabel>("trouble").isVisible());
}

TEST_F(IntakeTest, TheFilmingDayIsChosenOrNamed) {
    addSession("indoors");
    addSession("outdoors");
    auto& day = child<SessionBox>("intake_session");
    auto& name = child<QLineEdit>("new_session");
    EXPECT_EQ(day.currentText(), QStringLiteral("outdoors"));
    EXPECT_FALSE(name.isVisible());
    QTest::keyClick(&day, Qt::Key_Up);
    drop({films / "b.mp4"});
    ASSERT_TRUE(waitForEnd());
    EXPECT_EQ(sessionOfClip(0), "indoors");
    QTest::keyClick(&day, Qt::Key_End);
    ASSERT_TRUE(name.isVisible());
    EXPECT_EQ(name.placeholderText().toStdString(), today());
    QTest::keyClicks(&name, QStringLiteral("on the roof"));
    drop({films / "day 1"});
    ASSERT_TRUE(waitForEnd());
    EXPECT_EQ(sessionOfClip(1), "on the roof");
    EXPECT_EQ(day.currentText().toStdString(), "on the roof, " + today());
    EXPECT_FALSE(name.isVisible());
}

TEST_F(IntakeTest, CardsAreReadWhereADayIsPlannedUnlessSomebodySaysNo) {
    auto& cards = child<QCheckBox>("read_cards");
    EXPECT_FALSE(cards.isChecked());
    core::plan::Plan plan;
    plan.session = "Bench day";
    plan.hitters = {"A"};
    must(store->setPlan(plan));
    EXPECT_TRUE(cards.isChecked());
    EXPECT_EQ(child<QLineEdit>("new_session").placeholderText(), QStringLiteral("Bench day"));
    drop({films / "b.mp4"});
    ASSERT_TRUE(waitForEnd());
    EXPECT_TRUE(isSaid("0 shots assigned by slate cards, 1 left open")) << report();
    QTest::mouseClick(&cards, Qt::LeftButton, {}, {8, cards.height() / 2});
    EXPECT_FALSE(cards.isChecked());
    plan.hitters = {"A", "B"};
    must(store->setPlan(plan));
    EXPECT_FALSE(cards.isChecked());
}

TEST_F(IntakeTest, ALongListOfRefusedFilesLeavesRoomForTheClips) {
    for (int i = 0; i < 60; ++i) {
        std::ofstream{films / ("broken " + std::to_string(i) + ".mp4")} << "no film";
    }
    drop({films});
    ASSERT_TRUE(waitForEnd());
    EXPECT_TRUE(isSaid("broken 59.mp4: ")) << report();
    const auto& text = child<QPlainTextEdit>("intake_report");
    EXPECT_LE(text.height(), 8 * text.fontMetrics().lineSpacing());
    for (const auto* table : screen->findChildren<QTableView*>()) {
        EXPECT_GE(table->height(), 5 * table->fontMetrics().height())
            << table->accessibleName().toStdString();
    }
    EXPECT_LE(screen->height(), 640);
}

}  // namespace
}  // namespace ui::footage
