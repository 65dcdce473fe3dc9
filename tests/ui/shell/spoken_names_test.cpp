#include <gtest/gtest.h>

#include <QAbstractButton>
#include <QAbstractSpinBox>
#include <QAccessible>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QMenuBar>
#include <QScrollArea>
#include <QSplitter>
#include <QStandardPaths>
#include <QTableView>
#include <QTest>

#include "tests/support/demo_copy.h"
#include "ui/shell/main_window.h"

/// WCAG 2.2, success criteria 4.1.2 (name, role, value) and 2.1.1 (keyboard), for every screen.
namespace ui::shell {
namespace {

using Screen = MainWindow::Screen;

constexpr int kShownMilliseconds = 60000;

class SpokenNames : public ::testing::TestWithParam<Screen> {
protected:
    void SetUp() override {
        QStandardPaths::setTestModeEnabled(true);
        QCoreApplication::setOrganizationName(QStringLiteral("turnmark-tests"));
        window.resize(1366, 768);
        ASSERT_TRUE(window.openProject(demo.project()));
        window.show();
        ASSERT_TRUE(QTest::qWaitForWindowActive(&window, kShownMilliseconds));
        window.showScreen(GetParam());
        QTest::qWait(1500);
    }

    /// Where a screen has it, for the message.
    static QString pathOf(const QWidget& widget) {
        QStringList names;
        for (const QWidget* each = &widget; each != nullptr; each = each->parentWidget()) {
            const QString name = each->objectName();
            const QString kind = QString::fromLatin1(each->metaObject()->className());
            names.prepend(name.isEmpty() ? kind : kind + QLatin1Char('#') + name);
        }
        return names.mid(std::max<qsizetype>(0, names.size() - 4)).join(QStringLiteral(" / "));
    }
    /// Qt's own parts of a field or a table, for which the whole speaks.
    static bool isInsideOfAControl(const QWidget& widget) {
        const QWidget* whole = widget.parentWidget();
        return qobject_cast<const QAbstractSpinBox*>(whole) != nullptr ||
               qobject_cast<const QComboBox*>(whole) != nullptr ||
               qobject_cast<const QLineEdit*>(whole) != nullptr ||
               qobject_cast<const QTableView*>(whole) != nullptr;
    }
    /// Takes the keyboard, or is pressed.
    static bool isControl(const QWidget& widget) {
        if (isInsideOfAControl(widget)) {
            return false;
        }
        if (qobject_cast<const QAbstractButton*>(&widget) != nullptr) {
            return true;
        }
        const bool isFrameOfOthers = qobject_cast<const QScrollArea*>(&widget) != nullptr ||
                                     qobject_cast<const QSplitter*>(&widget) != nullptr ||
                                     qobject_cast<const QMenuBar*>(&widget) != nullptr ||
                                     qobject_cast<const QLabel*>(&widget) != nullptr;
        return (widget.focusPolicy() & Qt::TabFocus) != 0 && !isFrameOfOthers;
    }

    tests::DemoCopy demo;
    MainWindow window;
};

TEST_P(SpokenNames, EveryControlSaysWhatItIs) {
    QStringList silent;
    int controls = 0;
    for (QWidget* each : window.findChildren<QWidget*>()) {
        if (!each->isVisibleTo(&window) || !isControl(*each)) {
            continue;
        }
        ++controls;
        QAccessibleInterface* spoken = QAccessible::queryAccessibleInterface(each);
        if (spoken == nullptr || spoken->text(QAccessible::Name).trimmed().isEmpty()) {
            silent << pathOf(*each);
        }
    }
    EXPECT_GT(controls, 5);
    EXPECT_TRUE(silent.isEmpty()) << qPrintable(silent.join(QLatin1Char('\n')));
}

INSTANTIATE_TEST_SUITE_P(AllScreens, SpokenNames,
                         ::testing::Values(Screen::Plan, Screen::Footage, Screen::Reading,
                                           Screen::Doubts, Screen::Findings, Screen::Publish));

}  // namespace
}  // namespace ui::shell
