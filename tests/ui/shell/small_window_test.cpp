#include <gtest/gtest.h>

#include <QAbstractButton>
#include <QStackedWidget>
#include <QStandardPaths>
#include <QTest>
#include <filesystem>

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

std::filesystem::path manyImplements(const tests::FindingsProject& project) {
    QStandardPaths::setTestModeEnabled(true);
    QCoreApplication::setOrganizationName(QStringLiteral("turnmark-tests"));
    return project.store->file();
}

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

TEST(SmallWindow, StaysAsItIsWhateverIsShownInIt) {
    tests::FindingsProject project{manyRows(), {"A", "B"}};
    const auto file = manyImplements(project);
    project.store.reset();
    MainWindow window;
    ASSERT_TRUE(window.openProject(file));
    window.resize(kSmall);
    window.show();
    ASSERT_TRUE(QTest::qWaitForWindowActive(&window, kSmallPatienceMs));
    const auto* pages = window.centralWidget()->findChild<QStackedWidget*>();
    const auto& doubts = *window.findChild<doubts::DoubtsScreen*>();
    for (const auto key : {Qt::Key_1, Qt::Key_2, Qt::Key_3, Qt::Key_4, Qt::Key_5, Qt::Key_6}) {
        QTest::keyClick(&window, key, Qt::ControlModifier);
        if (key == Qt::Key_4) {
            ASSERT_TRUE(
                QTest::qWaitFor([&] { return doubts.doubts() != nullptr; }, kSmallPatienceMs));
        }
        QTest::qWait(300);
        EXPECT_EQ(window.size(), kSmall)
            << QKeySequence{key}.toString().toStdString() << ": "
            << widerThan(*pages->currentWidget(), kSmall.width()) << " page "
            << pages->currentWidget()->minimumSizeHint().width();
        EXPECT_LE(pages->currentWidget()->minimumSizeHint().width(), kSmall.width())
            << QKeySequence{key}.toString().toStdString() << ": "
            << widerThan(*pages->currentWidget(), kSmall.width());
    }
}

/// WCAG 2.2, success criterion 1.4.4: text is resized up to 200 per cent without loss of content;
/// here by two and a half, in a window that is made small with it.
TEST(SmallWindow, WithMuchLargerTextAPageIsScrolledAndLosesNothing) {
    constexpr double kLargest = 2.5;
    constexpr QSize kUsual{1366, 768};
    tests::FindingsProject project{manyRows(), {"A", "B"}};
    const auto file = manyImplements(project);
    project.store.reset();
    MainWindow window;
    ASSERT_TRUE(window.openProject(file));
    window.resize(kUsual);
    window.show();
    ASSERT_TRUE(QTest::qWaitForWindowActive(&window, kSmallPatienceMs));
    applyAppearance(Appearance::Light, kLargest);
    const auto* pages = window.centralWidget()->findChild<QStackedWidget*>();
    for (const auto key : {Qt::Key_1, Qt::Key_2, Qt::Key_3, Qt::Key_4, Qt::Key_5, Qt::Key_6}) {
        QTest::keyClick(&window, key, Qt::ControlModifier);
        QTest::qWait(300);
        const auto& page = *pages->currentWidget();
        const auto name = QKeySequence{key}.toString().toStdString();
        EXPECT_EQ(window.size(), kUsual) << name;
        EXPECT_GE(page.width(), page.minimumSizeHint().width()) << name;
        EXPECT_EQ(buttonsCutIn(page), "") << name;
    }
    applyAppearance(Appearance::Light, 1.0);
}

}  // namespace
}  // namespace ui::shell
