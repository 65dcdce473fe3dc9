// The window on a project of 10,000 shots: how long it takes to open until the list of shots is
// painted, how long each painting takes while the wheel scrolls the list, and how long it takes
// from the key that keeps a shot until the next one is painted.
//   window_benchmark [--clips FOLDER]
#include <CLI/CLI.hpp>
#include <QApplication>
#include <QElapsedTimer>
#include <QListView>
#include <QScrollBar>
#include <QStandardPaths>
#include <QStyleFactory>
#include <QTest>
#include <cstdio>
#include <stdexcept>

#include "core/base/scheduling.h"
#include "core/intake/add_clip.h"
#include "tests/benchmarks/support/bench_clips.h"
#include "tests/benchmarks/support/figures.h"
#include "tests/benchmarks/support/key_watch.h"
#include "tests/benchmarks/support/paint_count.h"
#include "tests/core/project/project_maker.h"
#include "tests/support/must.h"
#include "ui/reading/reading_screen.h"
#include "ui/reading/shot/shot_strip.h"
#include "ui/shell/main_window.h"

namespace {

using tests::must;

namespace fs = std::filesystem;
using namespace core::project;

constexpr int kShots = 10'000;
constexpr int kImplements = 50;
constexpr int kHitters = 2;
constexpr int kLengthOfShot = 50;  // frames
constexpr int kUnreadOf = 5;       // one shot in so many is not read yet
constexpr int kOpenings = 5;
constexpr double kMostToOpen = 1000.0;       // ms
constexpr double kMostToTheNextShot = 50.0;  // ms
constexpr int kWheelSteps = 1000;
constexpr int kShotsKept = 60;
constexpr int kMillisecondsOfLooking = 900;
constexpr int kPatience = 60'000;  // ms
constexpr QSize kWindow{1366, 768};

std::vector<CellId> makeCells(Store& store, SessionId session) {
    std::vector<HitterId> hitters;
    for (int i = 0; i < kHitters; ++i) {
        hitters.push_back(must(store.addHitter({{}, "hitter " + std::to_string(i + 1)})));
    }
    std::vector<CellId> cells;
    for (int i = 0; i < kImplements; ++i) {
        const auto implement =
            must(store.addImplement({{}, "implement " + std::to_string(i + 1), "new", {}}));
        for (const HitterId hitter : hitters) {
            cells.push_back(must(store.cellFor(session, implement, hitter)));
        }
    }
    return cells;
}

void makeProject(const fs::path& file, const fs::path& film) {
    const auto store = must(Store::create(file));
    Session session;
    session.name = "A long season";
    session.ballDiameterMm = 67.0;  // else it is asked for before a shot is kept
    const auto sessionId = must(store->addSession(session));
    const auto prepared = must(core::intake::prepareClip(film, file));
    const auto clip = must(core::intake::addPreparedClip(*store, sessionId, prepared));
    const auto cells = makeCells(*store, sessionId);
    const std::int64_t starts = store->snapshot()->clips.find(clip)->frameCount - kLengthOfShot;
    std::vector<Shot> shots;
    for (int i = 0; i < kShots; ++i) {
        Shot shot = tests::project::shotOver(clip, i % starts, i % starts + kLengthOfShot - 1);
        shot.cell = cells[static_cast<std::size_t>(i) % cells.size()];
        shot.marks =
            tests::project::startAndReturn(shot.firstFrame.value, shot.firstFrame.value + 9);
        shots.push_back(std::move(shot));
    }
    const auto ids = must(store->addShots(shots));
    must(store->together("Kept most.", [&]() -> core::Result<void> {
        for (std::size_t i = 0; i < ids.size(); ++i) {
            if (i % kUnreadOf != 0) {
                BOOST_OUTCOME_TRY(store->keepReading(
                    tests::project::readingOf(ids[i], 1500.0 + static_cast<double>(i % 400))));
            }
        }
        return core::ok();
    }));
}

QListView& listOf(const ui::shell::MainWindow& window) {
    auto& strip = *window.findChild<ui::reading::ShotStrip*>();
    if (strip.model().rowCount() != kShots) {
        throw std::runtime_error("The list does not show every shot.");
    }
    return strip.list();
}

double open(ui::shell::MainWindow& window, const fs::path& file) {
    QElapsedTimer timer;
    timer.start();
    if (!window.openProject(file)) {
        throw std::runtime_error("The project cannot be opened.");
    }
    const benchmarks::PaintCount paints{*listOf(window).viewport()};
    window.show();
    paints.waitForMoreThan(0);
    return 1e-6 * static_cast<double>(timer.nsecsElapsed());
}

/// Wheel events as the window system sends them. Down, and up again when the end is near.
/// Milliseconds from each event until it is painted.
benchmarks::Waits scroll(QListView& list) {
    const benchmarks::PaintCount paints{*list.viewport()};
    benchmarks::Waits waits;
    int direction = 1;
    for (int step = 0; step < kWheelSteps; ++step) {
        const auto& bar = *list.verticalScrollBar();
        if (bar.value() == bar.maximum() || (step > 0 && bar.value() == bar.minimum())) {
            direction = bar.value() == bar.maximum() ? -1 : 1;
        }
        waits.add(paints,
                  [&] { benchmarks::turnWheel(*list.viewport(), -direction * (1 + step % 8)); });
    }
    return waits;
}

void printScrolling(const std::string& when, const benchmarks::Waits& waits) {
    waits.print("10,000 shots, wheel to painted list, " + when);
}

void keepShots(ui::reading::ReadingScreen& screen) {
    benchmarks::KeyWatch watch{screen};
    screen.openFirstShot();
    std::vector<double> waits;
    for (int i = 0; i < kShotsKept; ++i) {
        QTest::qWait(kMillisecondsOfLooking);
        waits.push_back(watch.press(Qt::Key_Return));
    }
    const std::string name = "10,000 shots, key press that keeps to the next shot painted";
    benchmarks::printFigure(name + ", median, ms", benchmarks::median(waits));
    benchmarks::printFigure(name + ", p99, ms", benchmarks::quantile(waits, 0.99),
                            benchmarks::atMost(kMostToTheNextShot));
}

void measure(const benchmarks::BenchClips& clips) {
    const tests::project::TemporaryFolder folder;
    const fs::path file = folder.path() / "season.turnmark";
    makeProject(file, clips.h264At1080p());
    std::vector<double> openings;
    for (int i = 0; i < kOpenings; ++i) {
        ui::shell::MainWindow window;
        window.resize(kWindow);
        openings.push_back(open(window, file));
        if (i + 1 < kOpenings) {
            continue;
        }
        benchmarks::printFigure("10,000 shots, opened until the list is painted, first, ms",
                                openings.front());
        benchmarks::printFigure("10,000 shots, opened until the list is painted, median, ms",
                                benchmarks::median(openings), benchmarks::atMost(kMostToOpen));
        printScrolling("from the opening on", scroll(listOf(window)));
        auto& screen = *window.findChild<ui::reading::ReadingScreen*>();
        if (!QTest::qWaitFor([&] { return screen.pictures().areComplete(); }, kPatience)) {
            throw std::runtime_error("The pictures of the first shot do not come.");
        }
        printScrolling("pictures shown", scroll(listOf(window)));
        keepShots(screen);
    }
}

}  // namespace

int main(int argc, char** argv) {
    core::wakePromptly();  // as the program does
    const QApplication application{argc, argv};
    QApplication::setStyle(QStyleFactory::create(QStringLiteral("Fusion")));
    QStandardPaths::setTestModeEnabled(true);
    QCoreApplication::setOrganizationName(QStringLiteral("turnmark-benchmarks"));
    CLI::App options{"Speed of the window on a large project"};
    std::string folder;
    options.add_option("--clips", folder, "Keep the clips in this folder and use them again");
    CLI11_PARSE(options, argc, argv);
    try {
        measure(benchmarks::BenchClips{folder});
    } catch (const std::exception& error) {
        std::fprintf(stderr, "window_benchmark: %s\n", error.what());
        return 1;
    }
    return 0;
}
