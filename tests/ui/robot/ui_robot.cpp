#include <QApplication>
#include <QCommandLineParser>
#include <QDeadlineTimer>
#include <QStandardPaths>
#include <QStyleFactory>
#include <QTimer>
#include <fstream>
#include <iostream>
#include <mutex>

#include "core/intake/add_clip.h"
#include "core/intake/assign_shots.h"
#include "core/intake/clip_shots.h"
#include "core/project/store.h"
#include "core/reading/project_reading.h"
#include "tests/support/must.h"
#include "tests/support/process.h"
#include "tests/support/reference_csv.h"
#include "tests/ui/robot/robot.h"
#include "ui/shell/main_window.h"

/// The window in the hands of a robot, for a given time: `ui_robot --seconds 1800 --seed 7`. Ends
/// with 0 when the window lived, Qt had nothing to complain about, and the project is sound.
namespace tests {
namespace {

namespace fs = std::filesystem;

/// A small filming day of real clips: whose shots are read by marks and kept, open, or unassigned;
/// one more clip lies beside them to be taken in.
fs::path makeProject(const fs::path& folder) {
    const fs::path day = folder / "day";
    fs::create_directories(day / "more");
    fs::copy(dataFolder() / "footage" / "slow_240in30_tagged.mp4", day / "more");
    const auto store = must(core::project::Store::create(day / "robot.turnmark"));
    must(store->setReader("robot"));
    core::project::Session session;
    session.name = "Robot's day";
    session.date = "2026-05-16";
    session.ballDiameterMm = 67.0;
    const auto sessionId = must(store->addSession(session));
    int cell = 0;
    for (const char* name :
         {"half_120fps.mp4", "quarter_tilted_120fps.mp4", "seam_print_tilted_120fps.mp4"}) {
        fs::copy(dataFolder() / "footage" / name, day);
        const auto clip = must(core::intake::addPreparedClip(
            *store, sessionId, must(core::intake::prepareClip(day / name, store->file()))));
        const auto shot = must(core::intake::addWholeClipShot(*store, clip));
        if (++cell == 3) {
            continue;
        }
        must(core::intake::assignShots(*store, std::vector{shot},
                                       {"Set " + std::to_string(cell), "A"}));
        core::spin::MarkSet marks;
        marks.start = core::spin::StartMark{{2}, std::nullopt};
        marks.returns.push_back(core::spin::ReturnMark::nearest({9}, 1));
        must(store->setMarks(shot, marks));
        if (cell == 1) {
            const auto snapshot = store->snapshot();
            const auto& marked = *snapshot->shots.find(shot);
            const auto frames = must(store->clipFrames(clip));
            must(store->keepReading(core::reading::makeMarksReading(
                *snapshot, marked, *frames,
                must(core::reading::readMarks(*snapshot, marked, *frames)))));
        }
    }
    return store->file();
}

/// What Qt complains of, from any thread.
class Complaints {
public:
    static void listen() { qInstallMessageHandler(&Complaints::take); }
    static std::vector<std::string> all() {
        const std::lock_guard lock{s_mutex};
        return s_all;
    }

private:
    static void take(QtMsgType type, const QMessageLogContext&, const QString& text) {
        std::cerr << text.toStdString() << std::endl;
        // A platform without windows cannot tell anybody how large one wants to be.
        if (type != QtDebugMsg && type != QtInfoMsg &&
            !text.startsWith(QLatin1String{"This plugin does not support"})) {
            const std::lock_guard lock{s_mutex};
            s_all.push_back(text.toStdString());
        }
    }
    static inline std::mutex s_mutex;
    static inline std::vector<std::string> s_all;
};

int work(std::uint64_t seed, double seconds, std::ostream* trace) {
    const TemporaryFolder folder;
    qputenv("HOME", QByteArray::fromStdString(folder.path().string()));
    QStandardPaths::setTestModeEnabled(true);
    const fs::path project = makeProject(folder.path());
    Robot robot{seed, folder.path() / "day", trace};
    const QDeadlineTimer end{static_cast<qint64>(1000.0 * seconds)};
    QTimer clock;
    QObject::connect(&clock, &QTimer::timeout, [&end] {
        if (end.hasExpired()) {
            QCoreApplication::exit();  // out of every dialog too
        }
    });
    clock.start(100);
    int windows = 0;
    while (!end.hasExpired()) {
        ui::shell::MainWindow window;
        window.openProject(project);
        window.show();
        ++windows;
        robot.start();
        QApplication::exec();  // until the window is closed or the time is over
        robot.stop();
    }
    const auto opened = core::project::Store::open(project);
    std::cout << "seed " << seed << ": " << robot.actions() << " actions, " << windows
              << " windows, " << Complaints::all().size() << " complaints of Qt\n";
    if (!opened) {
        std::cout << opened.error().message << '\n';
    }
    return opened && Complaints::all().empty() ? 0 : 1;
}

}  // namespace
}  // namespace tests

int main(int argc, char** argv) {
    qputenv("QT_QPA_PLATFORM", "offscreen");
    QApplication application{argc, argv};
    QApplication::setStyle(QStyleFactory::create(QStringLiteral("Fusion")));
    QApplication::setOrganizationName(QStringLiteral("turnmark-robot"));
    QCommandLineParser parser;
    parser.setApplicationDescription(QStringLiteral("Uses the window at random for a while."));
    parser.addHelpOption();
    const QCommandLineOption seconds{QStringLiteral("seconds"), QStringLiteral("how long"),
                                     QStringLiteral("N"), QStringLiteral("5")};
    const QCommandLineOption seed{QStringLiteral("seed"), QStringLiteral("which chance"),
                                  QStringLiteral("S"), QStringLiteral("1")};
    const QCommandLineOption trace{
        QStringLiteral("trace"),
        QStringLiteral("every action goes into this file, before it is done"),
        QStringLiteral("file")};
    parser.addOptions({seconds, seed, trace});
    parser.process(application);
    tests::Complaints::listen();
    std::ofstream file;
    if (parser.isSet(trace)) {
        file.open(parser.value(trace).toStdString());
    }
    return tests::work(parser.value(seed).toULongLong(), parser.value(seconds).toDouble(),
                       file.is_open() ? &file : nullptr);
}
