// How long a key press on the reading screen takes until the frame it asks for is painted.
//   reading_benchmark [--clips FOLDER]
#include <CLI/CLI.hpp>
#include <QApplication>
#include <QElapsedTimer>
#include <QStyleFactory>
#include <QTemporaryDir>
#include <QTest>
#include <cstdio>
#include <stdexcept>

#include "core/intake/add_clip.h"
#include "core/intake/assign_shots.h"
#include "core/intake/clip_shots.h"
#include "core/project/store.h"
#include "tests/benchmarks/support/bench_clips.h"
#include "tests/benchmarks/support/figures.h"
#include "tests/support/must.h"
#include "ui/reading/reading_screen.h"
#include "ui/reading/scene_view.h"

namespace {

using tests::must;

using core::timebase::FrameIndex;

constexpr double kMostMilliseconds = 25.0;
constexpr int kSteps = 300;
constexpr int kMillisecondsBetweenKeys = 33;  // a keyboard's repetition
constexpr int kPatienceMilliseconds = 60'000;
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
        const auto clip = must(core::intake::addPreparedClip(*store, sessionId, prepared));
        must(core::intake::addWholeClipShot(*store, clip));
        const auto& first = *shotsOfClip(*store->snapshot(), clip).at(0);
        shot = first.id;
        must(core::intake::assignShots(*store, std::vector{shot}, {"Cover 1", "A"}));
        must(store->setClicks(shot, {{first.firstFrame, 400.0, 500.0, 60.0},
                                     {first.lastFrame, 1500.0, 500.0, 60.0}}));
    }
    QTemporaryDir folder;
    std::unique_ptr<core::project::Store> store;
    core::project::ShotId shot;
};

/// Notices when the scene has painted the picture of a frame.
class PaintWatch : public QObject {
public:
    PaintWatch(ui::reading::ReadingScreen& screen, ui::bridge::FrameRequester& requester)
        : m_screen{screen} {
        // Connected after the scene's own slot: when this runs, the scene has the picture.
        connect(&requester, &ui::bridge::FrameRequester::pictureReady, this,
                [this](quint64, qint64 frame, const QImage&) { m_arrived = frame; });
        connect(&requester, &ui::bridge::FrameRequester::pictureFailed, this,
                [this](quint64, qint64, const QString& reason) { m_failure = reason; });
        screen.scene().installEventFilter(this);
    }
    /// Presses the key; milliseconds until the frame is painted.
    double press(Qt::Key key) {
        m_arrived = m_painted = -1;
        QElapsedTimer timer;
        timer.start();
        QTest::keyPress(&m_screen, key);
        const qint64 wanted = m_screen.desk().frame().value;
        while (m_painted != wanted) {
            if (!m_failure.isEmpty()) {
                throw std::runtime_error(m_failure.toStdString());
            }
            QCoreApplication::processEvents(QEventLoop::AllEvents | QEventLoop::WaitForMoreEvents);
        }
        const double milliseconds = 1e-6 * static_cast<double>(timer.nsecsElapsed());
        QTest::keyRelease(&m_screen, key);
        return milliseconds;
    }

protected:
    bool eventFilter(QObject*, QEvent* event) override {
        if (event->type() == QEvent::Paint) {
            m_painted = m_arrived;  // done when this turn of the event loop is
        }
        return false;
    }

private:
    ui::reading::ReadingScreen& m_screen;
    qint64 m_arrived{-1};
    qint64 m_painted{-1};
    QString m_failure;
};

void waitFor(const std::function<bool()>& condition, const char* what) {
    if (!QTest::qWaitFor(condition, kPatienceMilliseconds)) {
        throw std::runtime_error(what);
    }
}

void measure(const benchmarks::BenchClips& clips) {
    Project project{clips.h264At1080p()};
    const auto service = core::media::FrameService::create({});
    ui::bridge::FrameRequester requester{*service};
    ui::reading::ReadingScreen screen{*project.store, requester, nullptr};
    screen.resize(kScreen);
    screen.show();
    waitFor([&] { return screen.isActiveWindow(); }, "The window is not active.");
    screen.openShot(project.shot);
    waitFor([&] { return screen.pictures().areComplete(); }, "The grid is not filled.");
    PaintWatch watch{screen, requester};
    std::vector<double> waits;
    for (int step = 0; step < kSteps; ++step) {
        const bool isForward = step % 100 < 70;  // to and fro, on the whole forward
        QElapsedTimer sinceKey;
        sinceKey.start();
        waits.push_back(watch.press(isForward ? Qt::Key_Right : Qt::Key_Left));
        QTest::qWait(
            std::max<int>(0, kMillisecondsBetweenKeys - static_cast<int>(sinceKey.elapsed())));
    }
    benchmarks::printFigure("key press to painted frame, H.264 1080p, median, ms",
                            benchmarks::median(waits));
    benchmarks::printFigure("key press to painted frame, H.264 1080p, p99, ms",
                            benchmarks::quantile(waits, 0.99),
                            benchmarks::atMost(kMostMilliseconds));
    benchmarks::printFigure("key press to painted frame, H.264 1080p, slowest, ms",
                            benchmarks::quantile(waits, 1.0));
}

}  // namespace

int main(int argc, char** argv) {
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
