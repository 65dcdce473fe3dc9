#include <gtest/gtest.h>

#include <QAbstractButton>
#include <QKeySequence>
#include <QLabel>
#include <QMenuBar>
#include <QStackedWidget>
#include <QStandardPaths>
#include <map>

#include "core/project/store.h"
#include "tests/support/must.h"
#include "tests/support/process.h"
#include "ui/shell/main_window.h"

/// Keys with Alt held are those of a menu above or of one field below, never of two: Qt does
/// nothing where two answer. Alt+H was the menu Help and the field Hitters, and led to neither.
namespace ui::shell {
namespace {

class AltKeys : public ::testing::Test {
protected:
    AltKeys() {
        QStandardPaths::setTestModeEnabled(true);
        QCoreApplication::setOrganizationName(QStringLiteral("turnmark-tests"));
        const auto file = folder.path() / "p.turnmark";
        tests::must(core::project::Store::create(file)).reset();
        window.openProject(file);
    }
    using Owners = std::map<QString, QString>;
    static void add(Owners& owners, const QString& text) {
        const auto key = QKeySequence::mnemonic(text).toString();
        if (!key.isEmpty()) {
            const auto [at, isNew] = owners.emplace(key, text);
            EXPECT_TRUE(isNew) << key.toStdString() << ": " << at->second.toStdString() << " and "
                               << text.toStdString();
        }
    }
    [[nodiscard]] Owners ofMenus() const {
        Owners owners;
        for (const auto* menu : window.findChild<QMenuBar*>()->actions()) {
            add(owners, menu->text());
        }
        return owners;
    }

    tests::TemporaryFolder folder;
    MainWindow window;
};

TEST_F(AltKeys, NoTwoOfAScreenAndTheMenusAreTheSame) {
    const auto menus = ofMenus();
    EXPECT_TRUE(menus.contains(QStringLiteral("Alt+H")));
    std::size_t found = 0;
    const auto* pages = window.centralWidget()->findChild<QStackedWidget*>();
    for (int page = 0; page < pages->count(); ++page) {
        Owners owners = menus;
        for (const auto* label : pages->widget(page)->findChildren<QLabel*>()) {
            if (label->buddy() != nullptr) {
                add(owners, label->text());
            }
        }
        for (const auto* button : pages->widget(page)->findChildren<QAbstractButton*>()) {
            add(owners, button->text());
        }
        found += owners.size() - menus.size();
    }
    EXPECT_GE(found, 20U);
}

}  // namespace
}  // namespace ui::shell
