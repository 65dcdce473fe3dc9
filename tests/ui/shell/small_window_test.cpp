#include <gtest/gtest.h>

#include <QAbstractButton>
#include <QStackedWidget>
#include <QStandardPaths>
#include <QTest>
#include <array>
#include <memory>
#include <string>
#include <vector>

#include "tests/ui/findings/findings_project.h"
#include "ui/doubts/doubts_screen.h"
#include "ui/shell/appearance.h"
#include "ui/shell/main_window.h"

/// The window on a screen of 1024 by 700: no page may ask for more, whatever it comes to show.
namespace ui::shell {
namespace {

constexpr int kSmallPatienceMs = 60000;  // for computing on a busy machine
constexpr QSize kSmall{1024, 700};

std::vector<tests::FindingsProject::Row> manyRows() {
    std::vector<tests::FindingsProject::Row> rows;
    for (int k = 1; k <= 40; ++k) {
        rows.push_back({"set-up " + std::to_string(k), "", 2000.0 - 10.0 * k});
    }
    return rows;
}

/// The widgets that ask for more than this, from the outermost inwards.
std::string widerThan(const QWidget& page, int width) {
    std::string names;
    for (const auto* child : page.findChildren<QWidget*>()) {
        if (child->isVisible() && child->minimumSizeHint().width() > width) {
            names += std::string{child->metaObject()->className()} + " " +
                     child->objectName().toStdString() + " " +
                     std::to_string(child->minimumSizeHint().width()) + "; ";
        }
    }
    return names;
}

/// The window on a project of many implements.
class SmallWindow : public ::testing::Test {
protected:
    void open(QSize size) {
        QStandardPaths::setTestModeEnabled(true);
        QCoreApplication::setOrganizationName(QStringLiteral("turnmark-tests"));
        const auto file = project.store->file();
        project.store.reset();
        window = std::make_unique<MainWindow>();
        ASSERT_TRUE(window->openProject(file));
        window->resize(size);
        window->show();
        ASSERT_TRUE(QTest::qWaitForWindowActive(window.get(), kSmallPatienceMs));
    }
    /// The page of a screen, by its number.
    const QWidget& pageAt(Qt::Key key) {
        QTest::keyClick(window.get(), key, Qt::ControlModifier);
        if (key == Qt::Key_4) {
            const auto& doubts = *window->findChild<doubts::DoubtsScreen*>();
            EXPECT_TRUE(
                QTest::qWaitFor([&] { return doubts.doubts() != nullptr; }, kSmallPatienceMs));
        }
        QTest::qWait(300);
        return *window->centralWidget()->findChild<QStackedWidget*>()->currentWidget();
    }

    static constexpr std::array kScreens{Qt::Key_1, Qt::Key_2, Qt::Key_3,
                                         Qt::Key_4, Qt::Key_5, Qt::Key_6};
    tests::FindingsProject project{manyRows(), {"A", "B"}};
    std::unique_ptr<MainWindow> window;
};

/// Buttons in the page that are seen and have less room than their words need.
std::string buttonsCutIn(const QWidget& page) {
    std::string names;
    for (const auto* button : page.findChildren<QAbstractButton*>()) {
        if (!button->text().isEmpty() && button->isVisibleTo(&page) &&
            button->width() < button->minimumSizeHint().width()) {
            names += button->objectName().toStdString() + " \"" + button->text().toStdString() +
                     "\" " + std::to_string(button->width()) + " of " +
                     std::to_string(button->minimumSizeHint().width()) + "; ";
        }
    }
    return names;
}

TEST_F(SmallWindow, StaysAsItIsWhateverIsShownInIt) {
    open(kSmall);
    for (const auto key : kScreens) {
        const QWidget& page = pageAt(key);
        const auto name = QKeySequence{key}.toString().toStdString();
        EXPECT_EQ(window->size(), kSmall) << name << ": " << widerThan(page, kSmall.width());
        EXPECT_LE(page.minimumSizeHint().width(), kSmall.width())
            << name << ": " << widerThan(page, kSmall.width());
    }
}

/// WCAG 2.2, success criterion 1.4.4: text is resized up to 200 per cent without loss of content;
/// here by two and a half, in a window that is made small with it.
TEST_F(SmallWindow, WithMuchLargerTextAPageIsScrolledAndLosesNothing) {
    constexpr double kLargest = 2.5;
    constexpr QSize kUsual{1366, 768};
    open(kUsual);
    applyAppearance(Appearance::Light, kLargest);
    for (const auto key : kScreens) {
        const QWidget& page = pageAt(key);
        const auto name = QKeySequence{key}.toString().toStdString();
        EXPECT_EQ(window->size(), kUsual) << name;
        EXPECT_GE(page.width(), page.minimumSizeHint().width()) << name;
        EXPECT_EQ(buttonsCutIn(page), "") << name;
    }
    applyAppearance(Appearance::Light, 1.0);
}

}  // namespace
}  // namespace ui::shell
