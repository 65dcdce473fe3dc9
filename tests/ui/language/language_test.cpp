#include "ui/shell/language.h"

#include <gtest/gtest.h>

#include <QAbstractButton>
#include <QAbstractItemView>
#include <QComboBox>
#include <QFile>
#include <QGroupBox>
#include <QLabel>
#include <QLineEdit>
#include <QMenu>
#include <QMenuBar>
#include <QSettings>
#include <QStandardPaths>
#include <QTest>
#include <QXmlStreamReader>

#include "core/base/words.h"
#include "tests/support/demo_copy.h"
#include "tests/support/must.h"
#include "ui/models/number_text.h"
#include "ui/shell/main_window.h"

namespace ui::shell {
namespace {

constexpr int kWaitMilliseconds = 60000;
constexpr std::array kScreens{MainWindow::Screen::Plan,     MainWindow::Screen::Footage,
                              MainWindow::Screen::Reading,  MainWindow::Screen::Doubts,
                              MainWindow::Screen::Findings, MainWindow::Screen::Publish};

/// The window on a copy of the demo, in German.
class LanguageTest : public ::testing::Test {
protected:
    static void SetUpTestSuite() {
        QStandardPaths::setTestModeEnabled(true);
        QCoreApplication::setOrganizationName(QStringLiteral("turnmark-tests"));
        speak(QStringLiteral("de"));
    }
    static void TearDownTestSuite() { core::words::speak("en"); }
    void openWindow() {
        window = std::make_unique<MainWindow>();
        ASSERT_TRUE(window->openProject(demo.project()));
        window->show();
        ASSERT_TRUE(QTest::qWaitForWindowActive(window.get(), kWaitMilliseconds));
    }

    tests::DemoCopy demo;
    std::unique_ptr<MainWindow> window;
};

/// Texts of the catalogue that are others in German. Those of one word of the same spelling are
/// not.
QSet<QString> englishTexts() {
    QFile file{QStringLiteral("../../resources/words/turnmark_de.ts")};  // from tests/data
    EXPECT_TRUE(file.open(QIODevice::ReadOnly));
    QXmlStreamReader reader{&file};
    QSet<QString> english;
    QSet<QString> german;
    QString source;
    while (!reader.atEnd()) {
        reader.readNext();
        if (reader.isStartElement() && reader.name() == QLatin1String{"source"}) {
            source = reader.readElementText();
        } else if (reader.isStartElement() && reader.name() == QLatin1String{"translation"}) {
            german.insert(reader.readElementText());
            english.insert(source);
        }
    }
    EXPECT_GT(english.size(), 900);
    return english - german;
}

QStringList textsOf(const QWidget& widget) {
    QStringList texts{widget.toolTip(), widget.accessibleName(), widget.windowTitle()};
    if (const auto* label = qobject_cast<const QLabel*>(&widget)) {
        texts << label->text();
    } else if (const auto* button = qobject_cast<const QAbstractButton*>(&widget)) {
        texts << button->text();
    } else if (const auto* group = qobject_cast<const QGroupBox*>(&widget)) {
        texts << group->title();
    } else if (const auto* field = qobject_cast<const QLineEdit*>(&widget)) {
        texts << field->placeholderText();
    } else if (const auto* box = qobject_cast<const QComboBox*>(&widget)) {
        for (int i = 0; i < box->count(); ++i) {
            texts << box->itemText(i);
        }
    } else if (const auto* view = qobject_cast<const QAbstractItemView*>(&widget)) {
        for (int i = 0; view->model() != nullptr && i < view->model()->columnCount(); ++i) {
            texts << view->model()->headerData(i, Qt::Horizontal).toString()
                  << view->model()->headerData(i, Qt::Horizontal, Qt::ToolTipRole).toString();
        }
    }
    for (const QAction* action : widget.actions()) {
        texts << action->text() << action->toolTip();
    }
    return texts;
}

/// Every letter that two of them answer to.
std::string sharedMnemonics(const QStringList& texts) {
    QMap<QString, QString> taken;
    std::string shared;
    for (const QString& text : texts) {
        const QString letter = QKeySequence::mnemonic(text).toString();
        if (letter.isEmpty()) {
            continue;
        }
        if (taken.contains(letter)) {
            shared += letter.toStdString() + ": " + taken.value(letter).toStdString() + " and " +
                      text.toStdString() + "\n";
        }
        taken.insert(letter, text);
    }
    return shared;
}

QStringList titlesOf(const QList<QAction*>& actions) {
    QStringList texts;
    for (const QAction* action : actions) {
        texts << action->text();
    }
    return texts;
}

TEST_F(LanguageTest, NumbersHaveADecimalCommaAndFieldsTakeBothSigns) {
    EXPECT_EQ(models::numberText(119.88), QStringLiteral("119,88"));
    EXPECT_EQ(models::numberText(1234.5, 'f', 1), QStringLiteral("1234,5"));
    for (const auto& [typed, number] :
         {std::pair{"119,88", 119.88}, std::pair{"119.88", 119.88}, std::pair{"23,976", 23.976},
          std::pair{" 1000 ", 1000.0}, std::pair{"1.000,5", 1000.5}, std::pair{"0,125", 0.125}}) {
        const auto read = models::typedNumber(QLatin1String{typed}, 1e6);
        ASSERT_TRUE(read) << typed << ": " << read.error().message;
        EXPECT_DOUBLE_EQ(read.value().value(), number) << typed;
    }
    EXPECT_FALSE(models::typedNumber(QString{}, 1e6).value().has_value());
    // 1000 to a German, 1 to an English eye: a rate that is wrong by a thousand.
    const auto twoWays = models::typedNumber(QStringLiteral("1.000"), 1e6);
    ASSERT_FALSE(twoWays);
    EXPECT_NE(twoWays.error().message.find("1000"), std::string::npos) << twoWays.error().message;
    EXPECT_NE(twoWays.error().message.find("1,000"), std::string::npos) << twoWays.error().message;
}

TEST_F(LanguageTest, QtsOwnTextsAreInTheLanguageToo) {
    EXPECT_EQ(QCoreApplication::translate("QPlatformTheme", "Cancel"), QStringLiteral("Abbrechen"));
}

TEST_F(LanguageTest, NoTextOfAScreenIsLeftInEnglish) {
    openWindow();
    const auto english = englishTexts();
    for (const auto screen : kScreens) {
        window->showScreen(screen);
        QTest::qWait(200);
        QList<QWidget*> widgets = window->findChildren<QWidget*>();
        widgets << window.get();
        for (const QWidget* widget : widgets) {
            for (const QString& text : textsOf(*widget)) {
                EXPECT_FALSE(english.contains(text))
                    << text.toStdString() << " (" << widget->metaObject()->className() << ")";
            }
        }
    }
}

TEST_F(LanguageTest, NoTwoEntriesOfAMenuOrAScreenHaveTheSameMnemonic) {
    openWindow();
    const auto* bar = window->findChild<QMenuBar*>();
    ASSERT_NE(bar, nullptr);
    const QStringList menus = titlesOf(bar->actions());
    EXPECT_TRUE(menus.contains(QStringLiteral("&Projekt")));
    for (const QMenu* menu : window->findChildren<QMenu*>()) {
        EXPECT_EQ(sharedMnemonics(titlesOf(menu->actions())), "") << menu->title().toStdString();
    }
    for (const auto screen : kScreens) {
        window->showScreen(screen);
        QStringList texts = menus;
        for (const QWidget* widget : window->findChildren<QWidget*>()) {
            const auto* label = qobject_cast<const QLabel*>(widget);
            const auto* button = qobject_cast<const QAbstractButton*>(widget);
            if (widget->isVisible() && label != nullptr && label->buddy() != nullptr) {
                texts << label->text();
            } else if (widget->isVisible() && button != nullptr) {
                texts << button->text();
            }
        }
        EXPECT_EQ(sharedMnemonics(texts), "") << static_cast<int>(screen);
    }
}

TEST_F(LanguageTest, AChosenLanguageIsKeptForTheNextStart) {
    keepLanguage(QStringLiteral("en"));
    EXPECT_EQ(keptLanguage(), QStringLiteral("en"));
    EXPECT_EQ(core::words::language(), "de");  // not before
    keepLanguage({});
    EXPECT_EQ(keptLanguage(), QString{});
}

}  // namespace
}  // namespace ui::shell
