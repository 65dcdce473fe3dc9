#include <QApplication>
#include <QCommandLineParser>
#include <QSettings>
#include <clocale>

#include "core/base/scheduling.h"
#include "core/base/version.h"
#include "ui/shell/main_window.h"

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
                                    QStringLiteral("plan, footage, reading or findings"),
                                    QStringLiteral("name")};
    parser.addOptions({look, screen});
    parser.process(application);

    const QSettings settings;
    ui::shell::applyAppearance(
        application,
        ui::shell::appearanceFrom(parser.isSet(look)
                                      ? parser.value(look)
                                      : settings.value(QStringLiteral("appearance")).toString()),
        settings.value(QStringLiteral("text_scale"), 1.0).toDouble());

    ui::shell::MainWindow window;
    const QStringList files = parser.positionalArguments();
    if (!files.isEmpty() && window.openProject(files.front().toStdString()) &&
        parser.isSet(screen)) {
        using Screen = ui::shell::MainWindow::Screen;
        const QString name = parser.value(screen);
        window.showScreen(name == QLatin1String("plan")       ? Screen::Plan
                          : name == QLatin1String("footage")  ? Screen::Footage
                          : name == QLatin1String("findings") ? Screen::Findings
                                                              : Screen::Reading);
    }
    window.show();
    return QApplication::exec();
}
