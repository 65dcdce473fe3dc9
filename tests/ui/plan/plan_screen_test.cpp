#include "ui/plan/plan_screen.h"
#include "tests/support/named_widget.h"

#include <gtest/gtest.h>

#include <QAbstractItemModelTester>
#include <QApplication>
#include <QClipboard>
#include <QComboBox>
#include <QDialog>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QSignalSpy>
#include <QSpinBox>
#include <QTableView>
#include <QTest>
#include <QTimer>
#include <fstream>
#include <functional>

#include "core/intake/planned_cells.h"
#include "tests/core/intake/clip_project.h"
#include "ui/chart/scatter_chart.h"
#include "ui/plan/implement_model.h"

/// The plan screen on an empty project, driven as a person would.
namespace ui::plan {
namespace {

using tests::must;
constexpr int kWaitMilliseconds = 60000;  // for a busy machine

class PlanScreenTest : public ::testing::Test {
protected:
    void SetUp() override {
        store = must(core::project::Store::create(folder.path() / "p.turnmark"));
        screen = std::make_unique<PlanScreen>(*store);
        screen->resize(1300, 700);
        screen->show();
        ASSERT_TRUE(QTest::qWaitForWindowActive(screen.get(), kWaitMilliseconds));
    }
    template <class Widget>
    [[nodiscard]] Widget& child(const char* name) {
        return tests::namedWidget<Widget>(*screen, name);
    }
    [[nodiscard]] QTableView& table(const QString& accessibleName) {
        for (auto* view : screen->findChildren<QTableView*>()) {
            if (view->accessibleName() == accessibleName) {
                return *view;
            }
        }
        throw std::runtime_error("no table " + accessibleName.toStdString());
    }
    [[nodiscard]] core::plan::Plan plan() const { return planOf(*store->snapshot()); }
    [[nodiscard]] QString textOf(const char* name) { return child<QLabel>(name).text(); }

    void typeInto(QLineEdit& field, const QString& text) {
        field.setFocus();
        field.selectAll();
        QTest::keyClicks(&field, text);
        QTest::keyClick(&field, Qt::Key_Return);
    }
    /// Types into a cell of the table of implements, as after F2.
    void typeIntoCell(int row, int column, const QString& text) {
        QTableView& view = table(QStringLiteral("Implements"));
        view.setFocus();
        view.setCurrentIndex(view.model()->index(row, column));
        QTest::keyClick(&view, Qt::Key_F2);
        auto* editor = qobject_cast<QLineEdit*>(QApplication::focusWidget());
        ASSERT_NE(editor, nullptr);
        editor->selectAll();
        QTest::keyClicks(editor, text);
        QTest::keyClick(editor, Qt::Key_Return);
        QApplication::processEvents();
    }
    /// A button pressed by its key acts a moment later.
    static bool waitFor(const std::function<bool()>& holds) {
        return QTest::qWaitFor(holds, kWaitMilliseconds);
    }
    /// Two implements and two hitters.
    void planADay() {
        screen->takeTable(QStringLiteral("name,condition,mass\ngut,new,95\npoly,worn,90\n"));
        typeInto(child<QLineEdit>("hitters"), QStringLiteral("A, Zoe"));
    }

    tests::TemporaryFolder folder;
    std::unique_ptr<core::project::Store> store;
    std::unique_ptr<PlanScreen> screen;
};

TEST_F(PlanScreenTest, AnEmptyPlanSaysWhatToDo) {
    EXPECT_EQ(textOf("plan_answer"), QStringLiteral("Nothing is planned yet"));
    EXPECT_TRUE(textOf("day_title").contains(QStringLiteral("Type the name of an implement")));
    EXPECT_FALSE(child<QPushButton>("print_list").isEnabled());
    EXPECT_FALSE(child<QPushButton>("print_cards").isEnabled());
    EXPECT_TRUE(textOf("cautions").contains(QStringLiteral("line of flight")));
}

TEST_F(PlanScreenTest, ANameTypedIntoTheEmptyRowAddsAnImplement) {
    typeIntoCell(0, ImplementModel::kName, QStringLiteral("gut 24 kg"));
    typeIntoCell(1, ImplementModel::kName, QStringLiteral("poly"));
    typeIntoCell(0, ImplementModel::kCondition, QStringLiteral("worn"));
    ASSERT_EQ(plan().implements.size(), 2U);
    EXPECT_EQ(plan().implements[0].name, "gut 24 kg");
    EXPECT_EQ(plan().implements[0].condition, "worn");
    EXPECT_EQ(plan().implements[1].name, "poly");
    ASSERT_TRUE(store->undo());
    EXPECT_EQ(plan().implements[0].condition, "");
}

TEST_F(PlanScreenTest, ARepeatedNameIsRefusedInPlace) {
    typeIntoCell(0, ImplementModel::kName, QStringLiteral("gut"));
    typeIntoCell(1, ImplementModel::kName, QStringLiteral("gut"));
    EXPECT_EQ(plan().implements.size(), 1U);
    EXPECT_TRUE(child<QLabel>("trouble").isVisible());
    EXPECT_TRUE(textOf("trouble").contains(QStringLiteral("twice")));
    typeIntoCell(1, ImplementModel::kName, QStringLiteral("poly"));
    EXPECT_FALSE(child<QLabel>("trouble").isVisible());
}

TEST_F(PlanScreenTest, ATableIsPastedByItsKey) {
    QApplication::clipboard()->setText(QStringLiteral("name\tcondition\tmass\ngut\tnew\t95\n"));
    QTest::keyClick(screen.get(), Qt::Key_V, Qt::ControlModifier | Qt::ShiftModifier);
    ASSERT_TRUE(waitFor([this] { return plan().implements.size() == 1; }));
    EXPECT_EQ(plan().implements[0].attributes.at("mass"), "95");
    QApplication::clipboard()->setText(QStringLiteral("name\tcondition\n\tnew\n"));
    QTest::mouseClick(&child<QPushButton>("paste"), Qt::LeftButton);
    EXPECT_TRUE(textOf("trouble").contains(QStringLiteral("Row 2, column A")));
    EXPECT_EQ(plan().implements.size(), 1U);
}

TEST_F(PlanScreenTest, TheOrderOfTheDayFollowsEveryChange) {
    planADay();
    QTableView& day = table(QStringLiteral("Order of the day"));
    EXPECT_EQ(textOf("plan_answer"), QStringLiteral("40 swings planned"));
    EXPECT_TRUE(textOf("day_title").contains(QStringLiteral("40 shots")));
    EXPECT_TRUE(textOf("day_title").contains(QStringLiteral("Zoe: 20 swings")));
    auto& shots = child<QSpinBox>("shots_per_cell");
    shots.setFocus();
    QTest::keyClick(&shots, Qt::Key_Up);
    EXPECT_EQ(plan().shotsPerCell, 11);
    EXPECT_TRUE(textOf("day_title").contains(QStringLiteral("44 shots")));
    auto& order = child<QComboBox>("order");
    order.setFocus();
    QTest::keyClick(&order, Qt::Key_Home);
    EXPECT_EQ(plan().order, core::plan::OrderKind::Random);
    const int rows = day.model()->rowCount();
    auto& swings = child<QSpinBox>("swings");
    swings.setFocus();
    swings.selectAll();
    QTest::keyClicks(&swings, QStringLiteral("10"));
    QTest::keyClick(&swings, Qt::Key_Return);
    EXPECT_EQ(plan().swingsBetweenRests, 10);
    EXPECT_GT(day.model()->rowCount(), rows) << "more rests";
    const auto seed = plan().seed;
    QTest::keyClick(screen.get(), Qt::Key_D, Qt::ControlModifier | Qt::ShiftModifier);
    EXPECT_TRUE(waitFor([this, seed] { return plan().seed != seed; }));
}

TEST_F(PlanScreenTest, TheControlGoesWithItsImplement) {
    planADay();
    auto& control = child<QComboBox>("control");
    control.setFocus();
    QTest::keyClick(&control, Qt::Key_End);
    EXPECT_EQ(plan().control, std::optional<std::size_t>{1});
    QTableView& view = table(QStringLiteral("Implements"));
    view.setCurrentIndex(view.model()->index(0, 0));
    QTest::keyClick(screen.get(), Qt::Key_Delete, Qt::ControlModifier);
    ASSERT_TRUE(waitFor([this] { return plan().implements.size() == 1; }));
    EXPECT_EQ(plan().implements[0].name, "poly");
    EXPECT_EQ(plan().control, std::optional<std::size_t>{0});
}

// 120 frames per second and 1500 rpm: 4.8 frames a turn, counted as 1440 or 1800 (arithmetic).
TEST_F(PlanScreenTest, AdviceFollowsTheFields) {
    planADay();
    EXPECT_TRUE(textOf("advice").contains(QStringLiteral("Give the capture rate")));
    typeInto(child<QLineEdit>("capture_rate"), QStringLiteral("120"));
    typeInto(child<QLineEdit>("expected"), QStringLiteral("1500"));
    typeInto(child<QLineEdit>("exposure"), QStringLiteral("0,5"));
    EXPECT_TRUE(textOf("advice").contains(QStringLiteral("1440 rpm or 1800 rpm")));
    EXPECT_TRUE(textOf("advice").contains(QStringLiteral("4.8 frames")));
    EXPECT_EQ(plan().filming.exposureSeconds, std::optional<double>{0.0005});
    typeInto(child<QLineEdit>("step"), QStringLiteral("300"));
    typeInto(child<QLineEdit>("scatter"), QStringLiteral("300"));
    EXPECT_EQ(store->snapshot()->settings.at("noticeable_step_rpm"), "300");
    EXPECT_TRUE(textOf("advice").contains(QStringLiteral("film 17 shots per cell")));
    typeInto(child<QLineEdit>("scatter"), QStringLiteral("much"));
    EXPECT_TRUE(textOf("trouble").contains(QStringLiteral("\"much\" is not a number")));
    typeInto(child<QLineEdit>("scatter"), QStringLiteral("1,200"));
    EXPECT_TRUE(textOf("trouble").contains(QStringLiteral("can mean 1200 or 1.200")));
    EXPECT_EQ(plan().assumedScatterRpm, std::optional<double>{300.0});
}

// R: power.t.test(n = 10, sd = 150, power = 0.8, strict = TRUE) gives delta = 198.74, and 165.01
// for 14.
TEST_F(PlanScreenTest, TheSmallestDifferenceIsTheAnswerAndAPointOfItsCurveIsPlannedByKey) {
    planADay();
    auto& curve = child<chart::ScatterChart>("smallest_steps");
    EXPECT_FALSE(curve.isVisible());
    typeInto(child<QLineEdit>("scatter"), QStringLiteral("150"));
    ASSERT_TRUE(curve.isVisible());
    EXPECT_TRUE(textOf("plan_answer").contains(QStringLiteral("find differences from 199 rpm")))
        << textOf("plan_answer").toStdString();
    curve.setFocus();
    while (!curve.pointedText().startsWith(QStringLiteral("14 shots"))) {
        const QString before = curve.pointedText();
        QTest::keyClick(&curve, Qt::Key_Right);
        ASSERT_NE(curve.pointedText(), before) << "the curve ends before 14 shots";
    }
    EXPECT_EQ(curve.pointedText(), QStringLiteral("14 shots: 165 rpm"));
    QTest::keyClick(&curve, Qt::Key_Return);
    EXPECT_EQ(plan().shotsPerCell, 14);
    EXPECT_TRUE(textOf("plan_answer").contains(QStringLiteral("from 165 rpm")));
}

TEST_F(PlanScreenTest, ListAndCardsArePrinted) {
    planADay();
    for (const char* name : {"list.pdf", "cards.pdf"}) {
        const QString file = QString::fromStdString(folder.file(name));
        name[0] == 'l' ? screen->printShotList(file) : screen->printSlateCards(file);
        EXPECT_EQ(tests::bytesOf(folder.path() / name).substr(0, 5), "%PDF-");
    }
    screen->printShotList(QString::fromStdString(folder.file("no such folder/list.pdf")));
    EXPECT_TRUE(textOf("trouble").contains(QStringLiteral("cannot be written")));
}

TEST_F(PlanScreenTest, TheProjectIsNeverPrintedOver) {
    planADay();
    const std::string before = tests::bytesOf(folder.path() / "p.turnmark");
    screen->printShotList(QString::fromStdString(folder.file("p.turnmark")));
    EXPECT_TRUE(textOf("trouble").contains(QStringLiteral("never overwritten")));
    EXPECT_EQ(tests::bytesOf(folder.path() / "p.turnmark"), before);
}

TEST_F(PlanScreenTest, WhatTheProjectHasIsTakenOver) {
    core::project::Implement implement;
    implement.name = "gut";
    implement.attributes = {{"mass", "95"}};
    ASSERT_TRUE(store->addImplement(implement));
    core::project::Hitter hitter;
    hitter.name = "A";
    ASSERT_TRUE(store->addHitter(hitter));
    auto& take = child<QPushButton>("from_project");
    ASSERT_TRUE(take.isVisible());
    QTest::mouseClick(&take, Qt::LeftButton);
    EXPECT_EQ(plan().implements.size(), 1U);
    EXPECT_EQ(plan().hitters, std::vector<std::string>{"A"});
    EXPECT_FALSE(take.isVisible());
}

TEST_F(PlanScreenTest, ATallyIsLookedAtAndImported) {
    std::ofstream{folder.file("t.csv")} << "Racket,Who,Frames\ngut,A,10\npoly,A,9\n";
    screen->importTally(QString::fromStdString(folder.file("t.csv")));
    auto* dialog = screen->findChild<QDialog*>();
    auto* import = dialog->findChild<QPushButton*>(QStringLiteral("tally_import"));
    auto* message = dialog->findChild<QLabel*>(QStringLiteral("tally_message"));
    EXPECT_FALSE(import->isEnabled());
    EXPECT_TRUE(message->text().contains(QStringLiteral("frames per second")));
    QTest::keyClicks(dialog->findChild<QLineEdit*>(QStringLiteral("tally_rate")),
                     QStringLiteral("240"));
    EXPECT_TRUE(message->text().contains(QStringLiteral("2 shots will be imported")));
    auto* role = dialog->findChild<QComboBox*>(QStringLiteral("tally_role_1"));
    EXPECT_EQ(role->currentText(), QStringLiteral("hitter"));
    QTest::keyClick(role, Qt::Key_Home);
    EXPECT_FALSE(import->isEnabled());
    QTest::keyClicks(role, QStringLiteral("h"));
    EXPECT_TRUE(import->isEnabled());
    auto* counted = dialog->findChild<QComboBox*>(QStringLiteral("tally_counted"));
    EXPECT_EQ(counted->currentText(), QStringLiteral("not known"));
    EXPECT_FALSE(counted->itemIcon(1).isNull());
    QTest::keyClick(counted, Qt::Key_Down);
    EXPECT_EQ(counted->currentText(), QStringLiteral("start exact, nearest return"));
    QTest::mouseClick(import, Qt::LeftButton);
    EXPECT_EQ(store->snapshot()->shots.size(), 2U);
    EXPECT_EQ(store->snapshot()->readings.begin()->habit, core::spin::CountingHabit::Nearest);
    screen->importTally(QString::fromStdString(folder.file("none.csv")));
    EXPECT_TRUE(textOf("trouble").contains(QStringLiteral("none.csv")));
}

TEST_F(PlanScreenTest, ModelsKeepQtsRules) {
    for (auto* view : screen->findChildren<QTableView*>()) {
        new QAbstractItemModelTester{view->model(),
                                     QAbstractItemModelTester::FailureReportingMode::Fatal, view};
    }
    planADay();
    ASSERT_TRUE(store->undo());
    ASSERT_TRUE(store->redo());
}

}  // namespace
}  // namespace ui::plan
