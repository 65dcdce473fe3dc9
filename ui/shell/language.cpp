#include "ui/shell/language.h"

#include <QCoreApplication>
#include <QLocale>
#include <QSettings>
#include <QTranslator>

#include "core/base/words.h"

namespace ui::shell {
namespace {

constexpr QLatin1String kSetting{"language"};

/// Carried by the program: the window's own words, and those that Qt has for its buttons and menus.
void install(const QString& name) {
    auto* translator = new QTranslator{QCoreApplication::instance()};
    if (translator->load(QStringLiteral(":/words/%1.qm").arg(name))) {
        QCoreApplication::installTranslator(translator);
    }
}

}  // namespace

QString keptLanguage() {
    return QSettings{}.value(kSetting).toString();
}

void keepLanguage(const QString& language) {
    QSettings{}.setValue(kSetting, language);
}

void speak(const QString& language) {
    const auto spoken = core::words::speak(language.isEmpty() ? core::words::ofEnvironment()
                                                              : language.toStdString());
    const QString name = QString::fromUtf8(spoken.data(), static_cast<qsizetype>(spoken.size()));
    QLocale locale{name};
    locale.setNumberOptions(QLocale::OmitGroupSeparator);
    QLocale::setDefault(locale);
    if (name != QLatin1String{"en"}) {
        install(QStringLiteral("qtbase_") + name);
        install(QStringLiteral("turnmark_") + name);
    }
}

}  // namespace ui::shell
