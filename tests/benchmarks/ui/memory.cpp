// What the window holds of the memory: a folder of clips is taken in, every shot is opened and read
// from its pictures while the others are read ahead, and a minute passes.
//   memory_benchmark --footage FOLDER
#include <CLI/CLI.hpp>
#include <QApplication>
#include <QDropEvent>
#include <QElapsedTimer>
#include <QLabel>
#include <QMimeData>
#include <QStandardPaths>
#include <QStyleFactory>
#include <QTest>
#include <cstdio>
#include <fstream>
#include <stdexcept>

#include "core/base/scheduling.h"
#include "tests/benchmarks/support/figures.h"
#include "tests/core/project/project_maker.h"
#include "tests/support/must.h"
#include "tests/support/named_widget.h"
#include "ui/footage/footage_screen.h"
#include "ui/reading/reading_screen.h"
#include "ui/shell/main_window.h"

namespace {

namespace fs = std::filesystem;

constexpr double kMostMebibytes = 1.2 * 1024.0;
constexpr double kMostMebibytesAfter = 500.0;
constexpr int kMinute = 60'000;          // ms
constexpr int kPatience = 20 * kMinute;  // for taking in all clips, or reading one shot
constexpr QSize kWindow{1366, 768};

/// An entry of /proc/self/status in mebibytes.
double mebibytesOf(const std::string& entry) {
    std::ifstream status{"/proc/self/status"};
    for (std::string line; std::getline(status, line);) {
        if (line.rfind(entry + ":", 0) == 0) {
            return std::stod(line.substr(entry.size() + 1)) / 1024.0;
        }
    }
    throw std::runtime_error("/proc/self/status has no " + entry);
}

void print(const std::string& when, benchmarks::Target most = {}) {
    benchmarks::printFigure("memory, " + when + ", most so far, MiB", mebibytesOf("VmHWM"), most);
    benchmarks::printFigure("memory, " + when + ", now, MiB", mebibytesOf("VmRSS"));
}

void waitFor(const std::function<bool()>& holds, const char* what) {
    if (!QTest::qWaitFor(holds, kPatience)) {
        throw std::runtime_error(what);
    }
}

void drop(QWidget& on, const fs::path& folder) {
    QMimeData data;
    data.setUrls({QUrl::fromLocalFile(QString::fromStdString(folder.string()))});
    QDragEnterEvent enter{{300, 300}, Qt::CopyAction, &data, Qt::LeftButton, Qt::NoModifier};
    QCoreApplication::sendEvent(&on, &enter);
    QDropEvent event{{300, 300}, Qt::CopyAction, &data, Qt::LeftButton, Qt::NoModifier};
    QCoreApplication::sendEvent(&on, &event);
}

void takeIn(ui::shell::MainWindow& window, const fs::path& footage) {
    window.showScreen(ui::shell::MainWindow::Screen::Footage);
    auto& screen = *window.findChild<ui::footage::FootageScreen*>();
    auto& progress = tests::namedWidget<QLabel>(screen, "intake_progress");
    drop(screen, footage);
    waitFor([&] { return !progress.isVisible(); }, "The clips are not taken in.");
}

/// Opens every shot as somebody who looks at each for a second at least.
std::size_t readAll(ui::shell::MainWindow& window) {
    constexpr int kMillisecondsOfLooking = 1000;
    window.showScreen(ui::shell::MainWindow::Screen::Reading);
    auto& screen = *window.findChild<ui::reading::ReadingScreen*>();
    screen.actionSet().readAhead->trigger();
    const auto shots = window.store()->snapshot()->shots;
    for (const auto& shot : shots) {
        screen.openShot(shot.id);
        QTest::qWait(kMillisecondsOfLooking);
        waitFor([&] { return !screen.desk().view().isReadingPictures; }, "A shot is not read.");
    }
    return shots.size();
}

void measure(const fs::path& footage) {
    const tests::project::TemporaryFolder folder;
    const fs::path file = folder.path() / "day.turnmark";
    tests::must(core::project::Store::create(file));
    ui::shell::MainWindow window;
    window.resize(kWindow);
    window.show();
    if (!window.openProject(file)) {
        throw std::runtime_error("The project cannot be opened.");
    }
    print("window open");
    QElapsedTimer timer;
    timer.start();
    takeIn(window, footage);
    benchmarks::printFigure("taking in, s", 1e-3 * static_cast<double>(timer.restart()));
    print("clips taken in");
    const std::size_t shots = readAll(window);
    benchmarks::printFigure("shots opened and read", static_cast<double>(shots));
    benchmarks::printFigure("reading, s", 1e-3 * static_cast<double>(timer.restart()));
    print("shots read", benchmarks::atMost(kMostMebibytes));
    QTest::qWait(kMinute);
    benchmarks::printFigure("memory, a minute after, MiB", mebibytesOf("VmRSS"),
                            benchmarks::atMost(kMostMebibytesAfter));
}

}  // namespace

int main(int argc, char** argv) {
    core::wakePromptly();  // as the program does
    const QApplication application{argc, argv};
    QApplication::setStyle(QStyleFactory::create(QStringLiteral("Fusion")));
    QStandardPaths::setTestModeEnabled(true);
    QCoreApplication::setOrganizationName(QStringLiteral("turnmark-benchmarks"));
    CLI::App options{"What the window holds of the memory"};
    std::string footage;
    options.add_option("--footage", footage, "A folder of clips")->required();
    CLI11_PARSE(options, argc, argv);
    try {
        measure(footage);
    } catch (const std::exception& error) {
        std::fprintf(stderr, "memory_benchmark: %s\n", error.what());
        return 1;
    }
    return 0;
}
