#include "ui/style/text_font.h"

#include <QApplication>
#include <QEvent>
#include <QFontDatabase>
#include <QHash>
#include <QPointer>
#include <QWidget>
#include <algorithm>
#include <array>

// Outside of every namespace, as Qt asks.
static void initialiseFonts() {
    Q_INIT_RESOURCE(fonts);
}

namespace ui::style {
namespace {

constexpr std::array<double, kTextSizes> kFactors{0.90, 1.00, 1.13, 1.35, 1.95, 2.55};
constexpr int kLeastPx = 8;
constexpr double kLeastPointSize = 10.0;  // the sizes of the look are stated for it

QFont made(const QFont& body, TextSize size, Weight weight) {
    const double factor = kFactors.at(static_cast<std::size_t>(size));
    QFont font{body};
    if (body.pixelSize() > 0) {
        font.setPixelSize(std::max(kLeastPx, static_cast<int>(body.pixelSize() * factor)));
    } else if (size != TextSize::Body) {
        font.setPointSizeF(body.pointSizeF() * factor);
    }
    font.setWeight(weight == Weight::Strong ? QFont::DemiBold : QFont::Normal);
    return font;
}

/// Owned by its widget.
class TextSizeKeeper : public QObject {
public:
    TextSizeKeeper(QWidget* widget, TextSize size, Weight weight);

    void apply() const { m_widget->setFont(textFont(QApplication::font(), m_size, m_weight)); }

private:
    QWidget* m_widget;
    TextSize m_size;
    Weight m_weight;
};

/// Tells the keepers that the program has another font: Qt says so to the program and to windows
/// alone, and a widget with a font of its own hears nothing. Owned by the program.
class FontNews : public QObject {
public:
    static FontNews& ofProgram() {
        static QPointer<FontNews> news;
        if (news.isNull()) {
            news = new FontNews;
        }
        return *news;
    }

    void tell(TextSizeKeeper* keeper) {
        m_keepers.insert(keeper, keeper);
        connect(keeper, &QObject::destroyed, this,
                [this](const QObject* gone) { m_keepers.remove(gone); });
    }

    bool eventFilter(QObject* watched, QEvent* event) override {
        if (event->type() == QEvent::ApplicationFontChange && watched == parent()) {
            for (const TextSizeKeeper* keeper : m_keepers) {
                keeper->apply();
            }
        }
        return QObject::eventFilter(watched, event);
    }

private:
    FontNews() : QObject{qApp} { qApp->installEventFilter(this); }

    QHash<const QObject*, TextSizeKeeper*> m_keepers;
};

TextSizeKeeper::TextSizeKeeper(QWidget* widget, TextSize size, Weight weight)
    : QObject{widget}, m_widget{widget}, m_size{size}, m_weight{weight} {
    apply();
    FontNews::ofProgram().tell(this);
}

class FontWatch : public QObject {
public:
    FontWatch(QWidget* widget, std::function<void()> react)
        : QObject{widget}, m_react{std::move(react)} {
        widget->installEventFilter(this);
    }

    bool eventFilter(QObject* watched, QEvent* event) override {
        if (event->type() == QEvent::FontChange && watched == parent()) {
            m_react();
        }
        return QObject::eventFilter(watched, event);
    }

private:
    std::function<void()> m_react;
};

}  // namespace

QString loadFonts() {
    static const QString family = [] {
        initialiseFonts();
        QString found;
        for (const char* weight : {"Bold", "Semibold", "Regular"}) {
            const int id = QFontDatabase::addApplicationFont(
                QStringLiteral(":/fonts/OpenSans-%1.ttf").arg(QLatin1String{weight}));
            const QStringList families = QFontDatabase::applicationFontFamilies(id);
            found = families.isEmpty() ? QString{} : families.front();
        }
        return found;
    }();
    return family;
}

QFont programFont(const QFont& system, double scale) {
    QFont font{system};
    if (const QString family = loadFonts(); !family.isEmpty()) {
        font.setFamilies({family});
    }
    font.setPointSizeF(std::max(system.pointSizeF(), kLeastPointSize) * scale);
    return font;
}

const QFont& textFont(const QFont& body, TextSize size, Weight weight) {
    struct Kept {
        QFont body;
        QFont font;
        bool isMade{false};
    };
    static std::array<std::array<Kept, 2>, kTextSizes> all;
    Kept& kept = all.at(static_cast<std::size_t>(size)).at(static_cast<std::size_t>(weight));
    if (!kept.isMade || kept.body != body || kept.body.resolveMask() != body.resolveMask()) {
        kept = {body, made(body, size, weight), true};
    }
    return kept.font;
}

double textScale() {
    return std::max(1.0, QApplication::font().pointSizeF() / kLeastPointSize);
}

void setTextSize(QWidget* widget, TextSize size, Weight weight) {
    new TextSizeKeeper{widget, size, weight};  // the widget owns it
}

QFont drawnFont(const QFont& font, int heightPx) {
    QFont drawn{font};
    drawn.setWeight(QFont::DemiBold);
    drawn.setPixelSize(std::max(kLeastPx, heightPx));
    return drawn;
}

void whenFontChanges(QWidget* widget, std::function<void()> react) {
    new FontWatch{widget, std::move(react)};
}

}  // namespace ui::style
