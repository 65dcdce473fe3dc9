#include <QApplication>
#include <QCommandLineParser>
#include <QHash>
#include <QSettings>
#include <clocale>
#include <cstdio>
#include <cstdlib>
#include <optional>
#include <tuple>

#include "core/base/scheduling.h"
#include "core/base/version.h"
#include "ui/shell/language.h"
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

QString words(const char* text) {
    return QCoreApplication::translate("turnmark", text);
}

QCommandLineOption languageOption() {
    return {QStringLiteral("language"), words(QT_TRANSLATE_NOOP("turnmark", "en or de")),
            QStringLiteral("language")};
}

/// The language of this start; empty for that of the system. Asked first, for --help speaks it too.
QString languageAsked(const QStringList& arguments) {
    QCommandLineParser parser;
    const auto language = languageOption();
    parser.addOption(language);
    std::ignore = parser.parse(arguments);
    return parser.isSet(language) ? parser.value(language) : ui::shell::keptLanguage();
}

struct Asked {
    QString file;
    QString look;  ///< empty: as kept
    std::optional<Screen> screen;
};

/// Ends the program for --help, --version and what it does not understand.
Asked askedBy(const QStringList& arguments) {
    QCommandLineParser parser;
    parser.setApplicationDescription(
        words(QT_TRANSLATE_NOOP("turnmark", "Reads the spin of a struck ball from video.")));
    parser.addHelpOption();
    parser.addVersionOption();
    parser.addPositionalArgument(QStringLiteral("project"),
                                 words(QT_TRANSLATE_NOOP("turnmark", "project file to open")),
                                 QStringLiteral("[project.turnmark]"));
    const QCommandLineOption look{QStringLiteral("appearance"),
                                  words(QT_TRANSLATE_NOOP("turnmark", "system, light or dark")),
                                  QStringLiteral("look")};
    const QCommandLineOption screen{
        QStringLiteral("screen"),
        words(QT_TRANSLATE_NOOP("turnmark", "plan, footage, reading, doubts, findings or publish")),
        QStringLiteral("name")};
    const auto language = languageOption();
    parser.addOptions({look, screen, language});
    parser.process(arguments);
    const auto refuse = [](const QString& why) {
        std::fprintf(stderr, "turnmark: %s\n", qUtf8Printable(why));
        std::exit(2);
    };
    const QString spoken = parser.value(language);
    if (parser.isSet(language) && spoken != QLatin1String{"en"} && spoken != QLatin1String{"de"}) {
        refuse(words(QT_TRANSLATE_NOOP("turnmark",
                                       "there is no language \"%1\"; --language takes en or de"))
                   .arg(spoken));
    }
    const auto wanted = screenNamed(parser.value(screen));
    if (parser.isSet(screen) && !wanted) {
        refuse(words(QT_TRANSLATE_NOOP("turnmark",
                                       "there is no screen \"%1\"; --screen takes plan, footage, "
                                       "reading, doubts, findings or publish"))
                   .arg(parser.value(screen)));
    }
    return {parser.positionalArguments().value(0), parser.value(look), wanted};
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

    ui::shell::speak(languageAsked(QApplication::arguments()));
    const auto [file, look, wanted] = askedBy(QApplication::arguments());
    ui::shell::RunningWindow running{displayName()};
    if (running.hasTaken(file)) {
        return 0;
    }

    const QSettings settings;
    ui::shell::applyAppearance(
        ui::shell::appearanceFrom(
            look.isEmpty() ? settings.value(QStringLiteral("appearance")).toString() : look),
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
