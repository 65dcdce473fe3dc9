#include "ui/shell/appearance.h"

#include <QApplication>
#include <QPalette>

#include "ui/style/text_font.h"
#include "ui/style/tokens.h"
#include "ui/style/window_style.h"

namespace ui::shell {
void applyAppearance(Appearance appearance, double textScale) {
    static const QPalette system = QApplication::palette();
    static const QFont systemFont = QApplication::font();
    if (qobject_cast<style::WindowStyle*>(QApplication::style()) == nullptr) {
        QApplication::setStyle(new style::WindowStyle);
    }
    const bool dark = appearance == Appearance::Dark ||
                      (appearance == Appearance::System && style::isDark(system));
    QApplication::setPalette(style::windowPalette(dark));
    QApplication::setFont(style::programFont(systemFont, textScale));
}

Appearance appearanceFrom(const QString& name) {
    if (name == QLatin1String("light")) {
        return Appearance::Light;
    }
    return name == QLatin1String("dark") ? Appearance::Dark : Appearance::System;
}

QString nameOf(Appearance appearance) {
    switch (appearance) {
        case Appearance::Light:
            return QStringLiteral("light");
        case Appearance::Dark:
            return QStringLiteral("dark");
        case Appearance::System:
            break;
    }
    return QStringLiteral("system");
}

}  // namespace ui::shell
