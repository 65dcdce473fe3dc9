#include <gtest/gtest.h>

#include <QApplication>
#include <QComboBox>
#include <QDateEdit>
#include <QDoubleSpinBox>
#include <QScrollArea>
#include <QScrollBar>
#include <QSlider>
#include <QSpinBox>
#include <QStandardPaths>
#include <QTest>
#include <QVBoxLayout>
#include <QWheelEvent>
#include <functional>

#include "tests/core/intake/clip_project.h"
#include "tests/support/named_widget.h"
#include "ui/shell/main_window.h"

/// The wheel over a field scrolls what the field is in.
namespace ui::shell {
namespace {

constexpr int kShowMilliseconds = 20000;

/// By one step, as from the system: it gives the focus where the widget wants it so.
void turnWheel(QWidget& over, int eighthDegrees = -120) {
    const QPointF at = over.rect().center();
    QWheelEvent event{at,
                      over.mapToGlobal(at),
                      {},
                      {0, eighthDegrees},
                      Qt::NoButton,
                      Qt::NoModifier,
                      Qt::NoScrollPhase,
                      false};
    QSpontaneKeyEvent::setSpontaneous(&event);
    QCoreApplication::instance()->notify(&over, &event);
}

class WheelTest : public ::testing::Test, public tests::intake::ClipProject {
protected:
    void SetUp() override {
        QStandardPaths::setTestModeEnabled(true);
        QCoreApplication::setOrganizationName(QStringLiteral("turnmark-tests"));
    }
    void show(QWidget& shown) {
        shown.show();
        ASSERT_TRUE(QTest::qWaitForWindowExposed(&shown, kShowMilliseconds));
    }
};

template <class Field>
Field& addTo(QLayout& layout) {
    auto* field = new Field;
    layout.addWidget(field);
    return *field;
}

TEST_F(WheelTest, NoKindOfFieldTakesIt) {
    const MainWindow window;
    QScrollArea area;
    auto* panel = new QWidget;
    auto* column = new QVBoxLayout{panel};
    auto& spin = addTo<QSpinBox>(*column);
    auto& number = addTo<QDoubleSpinBox>(*column);
    auto& date = addTo<QDateEdit>(*column);
    auto& choice = addTo<QComboBox>(*column);
    auto& typed = addTo<QComboBox>(*column);
    auto& slider = addTo<QSlider>(*column);
    spin.setValue(50);
    number.setValue(50.0);
    date.setDate({2026, 5, 16});
    for (QComboBox* box : {&choice, &typed}) {
        box->addItems({QStringLiteral("a"), QStringLiteral("b"), QStringLiteral("c")});
        box->setCurrentIndex(1);
    }
    typed.setEditable(true);
    slider.setValue(50);
    panel->setMinimumHeight(4000);
    area.setWidget(panel);
    area.resize(300, 200);
    show(area);
    area.setFocus();
    int before = 0;
    for (QWidget* field : std::initializer_list<QWidget*>{&spin, &number, &date, &choice, &typed,
                                                          typed.lineEdit(), &slider}) {
        turnWheel(*field);
        EXPECT_FALSE(field->hasFocus()) << field->metaObject()->className();
        EXPECT_GT(area.verticalScrollBar()->value(), before) << field->metaObject()->className();
        before = area.verticalScrollBar()->value();
    }
    EXPECT_EQ(spin.value(), 50);
    EXPECT_EQ(number.value(), 50.0);
    EXPECT_EQ(date.date(), QDate(2026, 5, 16));
    EXPECT_EQ(choice.currentIndex(), 1);
    EXPECT_EQ(typed.currentIndex(), 1);
    EXPECT_EQ(slider.value(), 50);
}

// While a panel was scrolled, the ball's marking and the shots of a cell were changed and saved.
TEST_F(WheelTest, NothingOfTheProjectIsChanged) {
    const auto file = store->file();
    store.reset();
    MainWindow window;
    ASSERT_TRUE(window.openProject(file));
    show(window);
    const auto& now = *window.store();
    const auto before = now.snapshot()->revision;
    const auto marking = now.snapshot()->sessions.begin()->marking;
    int turned = 0;
    const auto turnBothWays = [&turned](QWidget& over) {
        turnWheel(over);
        turnWheel(over, 120);
        turned += over.isVisible() ? 1 : 0;
    };
    for (const auto screen : {MainWindow::Screen::Plan, MainWindow::Screen::Footage,
                              MainWindow::Screen::Doubts, MainWindow::Screen::Findings}) {
        window.showScreen(screen);
        QCoreApplication::processEvents();
        for (auto* box : window.findChildren<QAbstractSpinBox*>()) {
            turnBothWays(*box);
        }
        for (auto* box : window.findChildren<QComboBox*>()) {
            turnBothWays(*box);
        }
    }
    EXPECT_GE(turned, 5);  // the plan alone has two counts and four choices
    EXPECT_EQ(now.snapshot()->revision, before);
    EXPECT_EQ(now.snapshot()->sessions.begin()->marking, marking);
}

}  // namespace
}  // namespace ui::shell
