#include "ui/shell/appearance.h"

#include <QApplication>
#include <QFont>
#include <QPainter>
#include <QPalette>
#include <QProxyStyle>
#include <QStyleOption>

namespace ui::shell {
namespace {

/// Grounds, inks and one accent (Okabe and Ito's blue, or its sky blue on dark). The data's colours
/// are in ui/style.
struct Inks {
    QColor window, base, alternate, text, quiet, button, accent, accentText, tip;
};

const Inks& lightInks() {
    static const Inks inks{{0xf3, 0xf2, 0xee}, {0xff, 0xff, 0xff}, {0xf7, 0xf6, 0xf2},
                           {0x1c, 0x1d, 0x1f}, {0x8a, 0x8a, 0x86}, {0xe9, 0xe7, 0xe1},
                           {0x00, 0x5f, 0x9e}, {0xff, 0xff, 0xff}, {0xff, 0xfd, 0xf2}};
    return inks;
}

const Inks& darkInks() {
    static const Inks inks{{0x23, 0x25, 0x28}, {0x1a, 0x1b, 0x1e}, {0x1f, 0x21, 0x24},
                           {0xe6, 0xe4, 0xdf}, {0x80, 0x80, 0x7c}, {0x2f, 0x32, 0x36},
                           {0x56, 0xb4, 0xe9}, {0x10, 0x12, 0x14}, {0x33, 0x36, 0x3a}};
    return inks;
}

QPalette paletteOf(const Inks& inks) {
    QPalette palette{inks.button, inks.window};
    palette.setColor(QPalette::Window, inks.window);
    palette.setColor(QPalette::WindowText, inks.text);
    palette.setColor(QPalette::Base, inks.base);
    palette.setColor(QPalette::AlternateBase, inks.alternate);
    palette.setColor(QPalette::Text, inks.text);
    palette.setColor(QPalette::PlaceholderText, inks.quiet);
    palette.setColor(QPalette::Button, inks.button);
    palette.setColor(QPalette::ButtonText, inks.text);
    palette.setColor(QPalette::BrightText, inks.accentText);
    palette.setColor(QPalette::Highlight, inks.accent);
    palette.setColor(QPalette::HighlightedText, inks.accentText);
    palette.setColor(QPalette::Link, inks.accent);
    palette.setColor(QPalette::ToolTipBase, inks.tip);
    palette.setColor(QPalette::ToolTipText, inks.text);
    for (const auto role : {QPalette::WindowText, QPalette::Text, QPalette::ButtonText}) {
        palette.setColor(QPalette::Disabled, role, inks.quiet);
    }
    return palette;
}

/// Outlines check boxes in the ink of quiet text: the style's own outline vanishes on dark.
class OutlinedStyle : public QProxyStyle {
public:
    OutlinedStyle() : QProxyStyle{QStringLiteral("Fusion")} {}

    void drawPrimitive(PrimitiveElement element, const QStyleOption* option, QPainter* painter,
                       const QWidget* widget) const override {
        QProxyStyle::drawPrimitive(element, option, painter, widget);
        if (element == PE_IndicatorCheckBox) {
            painter->save();
            painter->setPen(option->palette.color(QPalette::PlaceholderText));
            painter->setBrush(Qt::NoBrush);
            painter->drawRect(option->rect.adjusted(0, 0, -1, -1));
            painter->restore();
        }
    }
};

}  // namespace

void applyAppearance(Appearance appearance, double textScale) {
    static const QPalette system = QApplication::palette();
    static const double systemPointSize = QApplication::font().pointSizeF();
    QApplication::setStyle(new OutlinedStyle);
    const bool systemIsDark =
        system.color(QPalette::Window).lightness() < system.color(QPalette::WindowText).lightness();
    const bool dark =
        appearance == Appearance::Dark || (appearance == Appearance::System && systemIsDark);
    QApplication::setPalette(paletteOf(dark ? darkInks() : lightInks()));
    QFont font = QApplication::font();
    font.setPointSizeF((systemPointSize > 0.0 ? systemPointSize : 10.0) * textScale);
    QApplication::setFont(font);
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
