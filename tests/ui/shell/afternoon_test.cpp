#include <gtest/gtest.h>

#include <QStandardPaths>
#include <QTest>
#include <cmath>
#include <cstdlib>
#include <fstream>
#include <map>

#include "core/intake/take_in.h"
#include "core/plan/print.h"
#include "core/report/summary.h"
#include "tests/demo/demo_footage.h"
#include "tests/support/must.h"
#include "tests/support/process.h"
#include "ui/doubts/doubts_screen.h"
#include "ui/findings/findings_screen.h"
#include "ui/reading/reading_screen.h"
#include "ui/shell/main_window.h"

/// An afternoon from the plan to the summary: eight set-ups, two hitters, slate cards printed,
/// rasterised and filmed before the shots, films taken in unattended, every shot kept or doubted by
/// keys. The films are rendered (core/synthesis) and their spins known.
namespace ui::shell {
namespace {

namespace fs = std::filesystem;
using core::project::Shot;
using core::project::ShotStanding;
namespace synthesis = core::synthesis;
using tests::must;

constexpr int kShotsPerCell = 2;
constexpr int kPatience = 20000;      // milliseconds, for decoding on a busy machine
constexpr double kCardSeconds = 0.5;  // a card held before the camera
constexpr unsigned kThreads = 2;

class Afternoon : public ::testing::Test {
protected:
    Afternoon() : day{must(tests::demo::planDemoFootage())} {
        QStandardPaths::setTestModeEnabled(true);
        QCoreApplication::setOrganizationName(QStringLiteral("turnmark-tests"));
        plan.session = "Bench day";
        for (const auto& item : day.manifest.implements) {
            plan.implements.push_back({item.name, item.isWorn ? "worn" : "new", {}});
        }
        plan.hitters = day.manifest.hitters;
        plan.shotsPerCell = kShotsPerCell;
        store = must(core::project::Store::create(project()));
        must(store->setPlan(plan));
        must(store->setReader("R. Reader"));
    }
    [[nodiscard]] fs::path project() const { return folder.path() / "day.turnmark"; }
    [[nodiscard]] fs::path films() const { return folder.path() / "films"; }

    static void runOrStop(const std::vector<std::string>& command) {
        const auto done = tests::runProgram(command);
        if (done.status != 0) {
            throw std::runtime_error(command.front() + ": " + done.errors);
        }
    }
    /// The cards as a printer would have them, one picture a page.
    void printCards() {
        std::ofstream{folder.path() / "cards.pdf", std::ios::binary}
            << must(core::plan::slateCardsPdf(plan));
        runOrStop({"pdftoppm", "-r", "40", "-png", folder.file("cards.pdf"), folder.file("card")});
    }
    /// The cards come hitter by hitter (core/plan/slate.h).
    [[nodiscard]] std::string cardPicture(const tests::demo::DemoClip& clip) const {
        const auto page = clip.hitter * plan.implements.size() + clip.implement + 1;
        return folder.file("card-" + std::string(page < 10 ? "0" : "") + std::to_string(page) +
                           ".png");
    }
    /// A film for each cell: its card, then its shots.
    void film() {
        fs::create_directories(films());
        for (std::size_t i = 0; i < day.scenes.size(); ++i) {
            auto scene = day.scenes[i];
            scene.flights.resize(kShotsPerCell);
            scene.sound.reset();
            scene.timing.instants = std::llround((scene.flights.back().strike.seconds + 0.19) *
                                                 scene.timing.captureRate.toDouble());
            const auto shots = folder.path() / "shots.mp4";
            truths.push_back(must(synthesis::makeFootage(scene, {}, shots)));
            const auto& clip = day.manifest.clips[i];
            runOrStop({"ffmpeg",
                       "-v",
                       "error",
                       "-loop",
                       "1",
                       "-framerate",
                       "240",
                       "-t",
                       std::to_string(kCardSeconds),
                       "-i",
                       cardPicture(clip),
                       "-i",
                       shots.string(),
                       "-filter_complex",
                       "[0:v]scale=-2:440,pad=848:480:(ow-iw)/2:(oh-ih)/2:gray,format=yuv420p,"
                       "setsar=1[c];[1:v]setsar=1[s];[c][s]concat=n=2:v=1,fps=240[v]",
                       "-map",
                       "[v]",
                       "-c:v",
                       "libx264",
                       "-preset",
                       "veryfast",
                       "-crf",
                       "18",
                       "-movflags",
                       "use_metadata_tags",
                       "-metadata",
                       "com.android.capture.fps=240",
                       (films() / clip.fileName).string()});
        }
    }
    core::intake::TakeInReport takeIn() {
        core::project::Session session;
        session.name = plan.session;
        session.date = "2026-05-16";
        session.marking = core::project::BallMarking::ThreeQuarterDark;
        session.ballDiameterMm = 67.0;
        const auto id = must(store->addSession(session));
        core::intake::TakeIn work{
            *store, id, {films()}, {.findShots = true, .readCards = true, .readPictures = true}};
        return core::intake::takeIn(work, kThreads);
    }
    /// True spin of a shot of a cell, by its place among the kept and open ones.
    [[nodiscard]] double trueRpm(const Shot& shot) const {
        const auto snapshot = window->store()->snapshot();
        const auto* clip = snapshot->clips.find(shot.clip);
        for (std::size_t i = 0; i < day.manifest.clips.size(); ++i) {
            if (clip != nullptr && clip->path.ends_with(day.manifest.clips[i].fileName)) {
                const auto at = static_cast<std::size_t>(shot.ordinal - 1);
                return core::toRpm(core::RadiansPerSecond{synthesis::lengthOf(
                                       day.scenes[i].flights.at(at).spinRadPerS)})
                    .rpm;
            }
        }
        return 0.0;
    }
    /// Saves what is seen where somebody wants to look at it.
    void look(const char* name) const {
        if (const char* place = std::getenv("TURNMARK_PICTURES")) {
            window->grab().save(QString::fromUtf8(place) + QLatin1Char{'/'} + QLatin1String{name} +
                                QStringLiteral(".png"));
        }
    }

    /// One key a shot, two where there is no reading. How many it took.
    std::int64_t keepAll(reading::ReadingScreen& reading) const {
        std::int64_t keys = 0;
        const auto shots = core::project::shotsInOrder(*window->store()->snapshot());
        for (std::size_t i = 0; i < shots.size(); ++i) {
            const bool hasReading = reading.desk().view().pictureReading() != nullptr;
            QTest::keyClick(&reading, hasReading ? Qt::Key_Return : Qt::Key_Q);
            if (!hasReading) {
                QTest::keyClick(&reading, Qt::Key_PageDown);
            }
            keys += hasReading ? 1 : 2;
        }
        return keys;
    }

    void expectKeptShotsHoldTheTruth(std::int64_t keys) const {
        std::size_t kept = 0;
        std::size_t held = 0;
        const auto now = window->store()->snapshot();
        const auto shots = core::project::shotsInOrder(*now);
        for (const Shot* shot : shots) {
            EXPECT_TRUE(shot->standing == ShotStanding::Kept || shot->doubtful)
                << core::project::shotName(*now, *shot);
            if (shot->standing == ShotStanding::Kept) {
                const auto& read = *now->readings.find(*shot->counting);
                const double truth = trueRpm(*shot);
                ++kept;
                held +=
                    read.interval95.low.rpm <= truth && truth <= read.interval95.high.rpm ? 1 : 0;
                EXPECT_NEAR(read.rate.value.rpm, truth, 0.02 * truth)
                    << core::project::shotName(*now, *shot);
            }
        }
        std::cout << kept << " of " << shots.size() << " shots kept with " << keys
                  << " keys; the 95 % intervals of " << held << " hold the truth\n";
        EXPECT_GE(kept, shots.size() * 8 / 10);
        // Of 32 intervals that hold with 95 %, fewer than 27 would do so once in a hundred
        // afternoons (binomial distribution: P(X <= 26 | 32, 0.95) = 0.005).
        EXPECT_GE(held + 5, kept);
    }

    void expectEveryKeyWasCounted(std::int64_t keys) const {
        std::int64_t counted = 0;  // the screen was left: every visit is in the project
        for (const auto& visit : window->store()->snapshot()->efforts) {
            counted += visit.keys;
            EXPECT_EQ(visit.clicks, 0);
            if (visit.outcome == core::project::VisitOutcome::Kept) {
                EXPECT_EQ(visit.keys, 1);
            }
        }
        EXPECT_EQ(counted, keys);
    }

    void expectMeansHoldTheTruth() const {
        const auto now = window->store()->snapshot();
        const auto summary = must(core::report::summarise(*now));
        ASSERT_EQ(summary.cells.size(), 16U);
        for (const auto& cell : summary.cells) {
            double truth = 0.0;
            double variance = 0.0;
            for (const auto& read : cell.readings) {
                truth += trueRpm(*now->shots.find(read.shot)) /
                         static_cast<double>(cell.readings.size());
                variance +=
                    std::pow(read.rate.sigma.rpm / static_cast<double>(cell.readings.size()), 2);
            }
            if (cell.mean) {
                // Three standard uncertainties of the readings themselves: the shots are these
                // shots.
                EXPECT_NEAR(cell.mean->meanRpm, truth, 3.0 * std::sqrt(variance))
                    << cell.implementName << " " << cell.hitterName;
            }
        }
    }

    tests::TemporaryFolder folder;
    tests::demo::DemoPlan day;
    core::plan::Plan plan;
    std::unique_ptr<core::project::Store> store;
    std::vector<synthesis::ClipTruth> truths;
    std::unique_ptr<MainWindow> window;
};

TEST_F(Afternoon, FromThePlanToASummaryThatHoldsTheTruth) {
    printCards();
    film();
    const auto report = takeIn();
    EXPECT_EQ(report.added, 16U);
    EXPECT_EQ(report.shotsFound, 16U * kShotsPerCell);
    EXPECT_TRUE(report.refused.empty());
    ASSERT_TRUE(report.cards);
    EXPECT_EQ(report.cards->assigned, report.shotsFound);
    EXPECT_EQ(store->snapshot()->cells.size(), 16U);
    store.reset();

    window = std::make_unique<MainWindow>();
    ASSERT_TRUE(window->openProject(project()));
    window->show();
    ASSERT_TRUE(QTest::qWaitForWindowActive(window.get(), kPatience));
    auto& reading = *window->findChild<reading::ReadingScreen*>();
    ASSERT_TRUE(QTest::qWaitFor([&] { return reading.pictures().areComplete(); }, kPatience));
    look("afternoon-reading");
    const std::int64_t keys = keepAll(reading);
    expectKeptShotsHoldTheTruth(keys);

    QTest::keyClick(window.get(), Qt::Key_4, Qt::ControlModifier);
    auto& doubts = *window->findChild<doubts::DoubtsScreen*>();
    EXPECT_TRUE(QTest::qWaitFor([&] { return doubts.unsettled().has_value(); }, kPatience));
    look("afternoon-doubts");
    expectEveryKeyWasCounted(keys);
    QTest::keyClick(window.get(), Qt::Key_5, Qt::ControlModifier);
    QTest::qWait(1500);
    look("afternoon-findings");
    expectMeansHoldTheTruth();
}

}  // namespace
}  // namespace ui::shell
