#include <QApplication>
#include <QCommandLineParser>
#include <QHash>
#include <QSettings>
#include <clocale>
#include <cstdio>
#include <optional>

#include "core/base/scheduling.h"
#include "core/base/version.h"
#include "ui/shell/main_window.h"
#include "ui/shell/running_window.h"

namespace {

using Screen = ui::shell::MainWindow::Screen;

std::optional<Screen> screenNamed(const QString& name) {
    static const QHash<QString, Screen> kScreens{{QStringLiteral("plan"), Screen::Plan},
                                                 {QStringLiteral("footage"), Screen::Footage},
                                                 {QStringLiteral("reading"), Screen::Reading},
                                                 {QStringLiteral("doubts"), Screen::Doubts},
                                                 {QStringLiteral("findings"), Screen::Findings},
                                                 {QStringLiteral("publish"), Screen::Publish}};
    const auto found = kScreens.constFind(name);
    return found == kScreens.cend() ? std::nullopt : std::optional{*found};
}

/// The display that windows of this start stand on.
QString displayName() {
    const QByteArray wayland = qgetenv("WAYLAND_DISPLAY");
    return QString::fromLocal8Bit(wayland.isEmpty() ? qgetenv("DISPLAY") : wayland);
}

}  // namespace

int main(int argc, char** argv) {
    core::wakePromptly();
    QApplication application{argc, argv};
    // Qt sets the locale of the user, and libraries then write and read numbers by it.
    std::setlocale(LC_NUMERIC, "C");
    QApplication::setApplicationName(QStringLiteral("turnmark"));
    QApplication::setOrganizationName(QStringLiteral("turnmark"));
    QApplication::setApplicationDisplayName(QStringLiteral("Turnmark"));
    QApplication::setApplicationVersion(QString::fromUtf8(core::version()));

    QCommandLineParser parser;
    parser.setApplicationDescription(QStringLiteral("Reads the spin of a struck ball from video."));
    parser.addHelpOption();
    parser.addVersionOption();
    parser.addPositionalArgument(QStringLiteral("project"), QStringLiteral("project file to open"),
                                 QStringLiteral("[project.turnmark]"));
    const QCommandLineOption look{QStringLiteral("appearance"),
                                  QStringLiteral("system, light or dark"), QStringLiteral("look")};
    const QCommandLineOption screen{QStringLiteral("screen"),
                                    QStringLiteral("plan, footage, reading, doubts, findings "
                                                   "or publish"),
                                    QStringLiteral("name")};
    parser.addOptions({look, screen});
    parser.process(application);
    const auto wanted = screenNamed(parser.value(screen));
    if (parser.isSet(screen) && !wanted) {
        std::fprintf(stderr,
                     "turnmark: there is no screen \"%s\"; --screen takes plan, footage, reading, "
                     "doubts, findings or publish\n",
                     qUtf8Printable(parser.value(screen)));
        return 2;
    }

    const QStringList files = parser.positionalArguments();
    const QString file = files.isEmpty() ? QString{} : files.front();
    ui::shell::RunningWindow running{displayName()};
    if (running.hasTaken(file)) {
        return 0;
    }

    const QSettings settings;
    ui::shell::applyAppearance(
        ui::shell::appearanceFrom(parser.isSet(look)
                                      ? parser.value(look)
                                      : settings.value(QStringLiteral("appearance")).toString()),
        settings.value(QStringLiteral("text_scale"), 1.0).toDouble());

    ui::shell::MainWindow window;
    if (!file.isEmpty() && window.openProject(file.toStdString()) && wanted) {
        window.showScreen(*wanted);
    }
    running.listen();
    QObject::connect(&running, &ui::shell::RunningWindow::asked, &window,
                     [&window](const QString& asked) { window.showProject(asked); });
    window.show();
    return QApplication::exec();
}
