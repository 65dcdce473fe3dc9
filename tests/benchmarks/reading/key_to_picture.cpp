// How long a key press on the reading screen takes until the frame it asks for is painted: a step
// within a shot, and Enter, which keeps the shot (a commit to the disk) and shows the next one.
//   reading_benchmark [--clips FOLDER]
#include <CLI/CLI.hpp>
#include <QApplication>
#include <QElapsedTimer>
#include <QStyleFactory>
#include <QTemporaryDir>
#include <QTest>
#include <cstdio>
#include <stdexcept>

#include "core/base/scheduling.h"
#include "core/intake/add_clip.h"
#include "core/intake/assign_shots.h"
#include "core/intake/clip_shots.h"
#include "core/project/store.h"
#include "tests/benchmarks/support/bench_clips.h"
#include "tests/benchmarks/support/figures.h"
#include "tests/benchmarks/support/key_watch.h"
#include "tests/support/must.h"
#include "ui/bridge/job_runner.h"
#include "ui/reading/reading_screen.h"

namespace {

using tests::must;

using core::timebase::FrameIndex;

constexpr double kMostMilliseconds = 25.0;
constexpr int kSteps = 300;
constexpr int kMillisecondsBetweenKeys = 33;  // a keyboard's repetition
constexpr int kPatienceMilliseconds = 60'000;
constexpr double kMostToTheNextShot = 50.0;  // ms
constexpr int kRepeatsOfTheFilm = 8;
constexpr int kLengthOfShot = 48;  // frames
constexpr int kMillisecondsOfLooking = 900;
constexpr int kParallelJobs = 2;
constexpr QSize kScreen{1366, 690};

/// A project with one clip and the ball shown in it.
struct Project {
    explicit Project(const std::filesystem::path& film) {
        const auto file = std::filesystem::path{folder.path().toStdString()} / "keys.turnmark";
        store = must(core::project::Store::create(file));
        core::project::Session session;
        session.name = "Speed";
        const auto sessionId = must(store->addSession(session));
        const auto prepared = must(core::intake::prepareClip(film, file));
        clip = must(core::intake::addPreparedClip(*store, sessionId, prepared));
    }
    void addWholeClip() {
        must(core::intake::addWholeClipShot(*store, clip));
        assignAll();
    }
    void addMarkedShots() {
        const std::int64_t frames = store->snapshot()->clips.find(clip)->frameCount;
        std::vector<core::project::Shot> marked;
        for (std::int64_t first = 0; first + kLengthOfShot <= frames; first += kLengthOfShot) {
            core::project::Shot shot;
            shot.clip = clip;
            shot.firstFrame = shot.strikeFrame.emplace(FrameIndex{first});
            shot.lastFrame = {first + kLengthOfShot - 1};
            shot.marks.start = core::spin::StartMark{{first}, {}};
            shot.marks.returns = {core::spin::ReturnMark::nearest({first + 9}, 1)};
            marked.push_back(std::move(shot));
        }
        must(store->addShots(marked));
        assignAll();
    }

    QTemporaryDir folder;
    std::unique_ptr<core::project::Store> store;
    core::project::ClipId clip;
    std::vector<core::project::ShotId> shots;

private:
    void assignAll() {
        const auto snapshot = store->snapshot();
        for (const auto* shot : shotsOfClip(*snapshot, clip)) {
            shots.push_back(shot->id);
            must(store->setClicks(shot->id, {{shot->firstFrame, 400.0, 500.0, 60.0},
                                             {shot->lastFrame, 1500.0, 500.0, 60.0}}));
        }
        must(core::intake::assignShots(*store, shots, {"Cover 1", "A"}));
    }
};

void waitFor(const std::function<bool()>& condition, const char* what) {
    if (!QTest::qWaitFor(condition, kPatienceMilliseconds)) {
        throw std::runtime_error(what);
    }
}

void printWaits(const std::string& name, const std::vector<double>& waits, double most) {
    benchmarks::printFigure(name + ", median, ms", benchmarks::median(waits));
    benchmarks::printFigure(name + ", p99, ms", benchmarks::quantile(waits, 0.99),
                            benchmarks::atMost(most));
    benchmarks::printFigure(name + ", slowest, ms", benchmarks::quantile(waits, 1.0));
}

enum class Background {
    Nothing,
    AsInTheWindow  ///< each shot that is opened is read, and the pictures of kept ones put away
};

/// The screen on a project, its first shot open and all pictures there.
struct OpenScreen {
    OpenScreen(Project& project, Background background)
        : screen{*project.store, requester,
                 background == Background::AsInTheWindow ? &jobs : nullptr} {
        screen.resize(kScreen);
        screen.show();
        waitFor([&] { return screen.isActiveWindow(); }, "The window is not active.");
        screen.openShot(project.shots.front());
        waitFor([&] { return screen.pictures().areComplete(); }, "The grid is not filled.");
    }
    std::unique_ptr<core::media::FrameService> service = core::media::FrameService::create({});
    ui::bridge::FrameRequester requester{*service};
    ui::bridge::JobRunner jobs{kParallelJobs};
    ui::reading::ReadingScreen screen;
    benchmarks::KeyWatch watch{screen};
};

void measureSteps(const std::filesystem::path& film) {
    Project project{film};
    project.addWholeClip();
    OpenScreen open{project, Background::Nothing};
    std::vector<double> waits;
    for (int step = 0; step < kSteps; ++step) {
        const bool isForward = step % 100 < 70;  // to and fro, on the whole forward
        QElapsedTimer sinceKey;
        sinceKey.start();
        waits.push_back(open.watch.press(isForward ? Qt::Key_Right : Qt::Key_Left));
        QTest::qWait(
            std::max<int>(0, kMillisecondsBetweenKeys - static_cast<int>(sinceKey.elapsed())));
    }
    printWaits("key press to painted frame, H.264 1080p", waits, kMostMilliseconds);
}

/// Marked shots, kept one after the other; the time spent on each is noted as well.
void measureKeeping(const std::filesystem::path& film, Background background) {
    Project project{film};
    project.addMarkedShots();
    OpenScreen open{project, background};
    std::vector<double> waits;
    std::vector<double> handling;
    for (std::size_t i = 0; i + 1 < project.shots.size(); ++i) {
        waits.push_back(open.watch.press(Qt::Key_Return));
        handling.push_back(open.watch.handled());
        QTest::qWait(kMillisecondsOfLooking);
    }
    const auto& kept = project.store->snapshot()->readings;
    if (kept.size() != waits.size() || project.store->snapshot()->efforts.size() != waits.size()) {
        throw std::runtime_error("Not every shot was kept and timed.");
    }
    const std::string when =
        background == Background::Nothing ? "" : ", while each is read in the background";
    benchmarks::printFigure(
        "key press that keeps until it is kept and the next shot open" + when + ", median, ms",
        benchmarks::median(handling));
    printWaits("key press that keeps to the next shot painted, H.264 1080p" + when, waits,
               kMostToTheNextShot);
}

void measure(const benchmarks::BenchClips& clips) {
    measureSteps(clips.h264At1080p());
    const auto film = clips.joined("h264_1080p_long.mp4", {clips.h264At1080p()}, kRepeatsOfTheFilm);
    measureKeeping(film, Background::Nothing);
    measureKeeping(film, Background::AsInTheWindow);
}

}  // namespace

int main(int argc, char** argv) {
    core::wakePromptly();  // as the program does
    const QApplication application{argc, argv};
    QApplication::setStyle(QStyleFactory::create(QStringLiteral("Fusion")));
    CLI::App options{"Speed of the reading screen"};
    std::string folder;
    options.add_option("--clips", folder, "Keep the clips in this folder and use them again");
    CLI11_PARSE(options, argc, argv);
    try {
        measure(benchmarks::BenchClips{folder});
    } catch (const std::exception& error) {
        std::fprintf(stderr, "reading_benchmark: %s\n", error.what());
        return 1;
    }
    return 0;
}
