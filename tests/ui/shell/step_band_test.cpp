#include "ui/shell/step_band.h"

#include <gtest/gtest.h>

#include <QActionGroup>
#include <QLabel>
#include <QMenuBar>
#include <QPushButton>
#include <QStandardPaths>
#include <QTest>

#include "tests/support/demo_copy.h"
#include "tests/support/must.h"
#include "ui/doubts/doubts_screen.h"
#include "ui/publish/publish_screen.h"
#include "ui/reading/reading_screen.h"
#include "ui/shell/jobs_button.h"
#include "ui/shell/main_window.h"
#include "ui/shell/project_button.h"

/// The band over a copy of the demo, by real key and mouse events.
namespace ui::shell {
namespace {

using core::project::ShotStanding;

constexpr int kBandPatience = 60000;  // for computing on a busy machine
enum Step { kPlan, kFootage, kReading, kDoubts, kFindings, kPublish };

class StepBandTest : public ::testing::Test {
protected:
    void SetUp() override {
        QStandardPaths::setTestModeEnabled(true);
        QCoreApplication::setOrganizationName(QStringLiteral("turnmark-tests"));
        window = std::make_unique<MainWindow>();
        ASSERT_TRUE(window->openProject(demo.project()));
        window->show();
        ASSERT_TRUE(QTest::qWaitForWindowActive(window.get(), kBandPatience));
    }
    [[nodiscard]] StepBand& band() const { return *window->findChild<StepBand*>(); }
    [[nodiscard]] QList<StepButton*> steps() const {
        return band().findChildren<StepButton*>(Qt::FindDirectChildrenOnly);
    }
    [[nodiscard]] bool waitForWords(Step step, const QString& words) const {
        return QTest::qWaitFor([&] { return band().stateOf(step).words.contains(words); },
                               kBandPatience);
    }

    tests::DemoCopy demo;
    std::unique_ptr<MainWindow> window;
};

TEST_F(StepBandTest, StepsLeadToTheirScreensByPointerAndKey) {
    ASSERT_EQ(steps().size(), 6);
    auto* publish = window->findChild<publish::PublishScreen*>();
    auto* doubts = window->findChild<doubts::DoubtsScreen*>();
    QTest::mouseClick(steps()[kPublish], Qt::LeftButton);
    EXPECT_TRUE(publish->isVisible());
    EXPECT_TRUE(steps()[kPublish]->isChecked());
    QTest::mouseClick(steps()[kDoubts], Qt::LeftButton);
    EXPECT_TRUE(doubts->isVisible());
    EXPECT_FALSE(steps()[kPublish]->isChecked());
    QTest::keyClick(window.get(), Qt::Key_6, Qt::ControlModifier);
    EXPECT_TRUE(publish->isVisible());
}

// The demo has 96 shots in 16 clips, two of them to read, eight implements, and an odd cell.
TEST_F(StepBandTest, StepsSayHowFarTheWorkIs) {
    EXPECT_TRUE(waitForWords(kFootage, QStringLiteral("16 clips")));
    EXPECT_TRUE(waitForWords(kReading, QStringLiteral("94 of 96 read")));
    EXPECT_TRUE(waitForWords(kFindings, QStringLiteral("8 ranked")));
    EXPECT_TRUE(waitForWords(kPublish, QStringLiteral("not yet")));
    auto& store = *window->store();
    for (const auto& shot : store.snapshot()->shots) {
        if (shot.standing == ShotStanding::Open) {
            tests::must(store.setAside(shot.id, "mishit"));
            break;
        }
    }
    EXPECT_TRUE(waitForWords(kReading, QStringLiteral("95 of 96 read")));
}

// Nobody has looked at Doubts or Findings: what is open is counted once the project is quiet.
TEST_F(StepBandTest, OpenDoubtsAreCountedOnTheirStepBeforeAnybodyLooks) {
    ASSERT_TRUE(window->findChild<reading::ReadingScreen*>()->isVisible());
    ASSERT_TRUE(
        QTest::qWaitFor([this] { return band().stateOf(kDoubts).need != StepState::Need::Nothing; },
                        kBandPatience));
    const auto open = window->findChild<doubts::DoubtsScreen*>()->unsettled();
    ASSERT_TRUE(open.has_value());
    EXPECT_GT(*open, 0U);
    EXPECT_TRUE(band().stateOf(kDoubts).words.startsWith(QString::number(*open)))
        << band().stateOf(kDoubts).words.toStdString();
    QTest::keyClick(window.get(), Qt::Key_6, Qt::ControlModifier);
    auto* answer =
        window->findChild<publish::PublishScreen*>()->findChild<QLabel*>(QStringLiteral("answer"));
    EXPECT_TRUE(answer->text().contains(QStringLiteral("to settle first")))
        << answer->text().toStdString();
}

TEST(StepBand, NothingIsCutWhereItIsNarrow) {
    bridge::JobRunner jobs{1};
    StepBand alone;
    QActionGroup steps{nullptr};
    QAction undo;
    QAction redo;
    alone.menus().addMenu(QStringLiteral("Project"));
    for (const char* name : {"Plan", "Footage", "Reading", "Doubts", "Findings", "Publish"}) {
        auto* step = steps.addAction(QString::fromLatin1(name));
        step->setCheckable(true);
        alone.addStep(step, style::Sign::Plan);
    }
    steps.actions().at(kReading)->setChecked(true);
    auto* project = new ProjectButton;
    project->setProject(QString{60, QLatin1Char{'w'}});
    alone.addRight(new JobsButton{jobs}, project, &undo, &redo);
    for (int step = kPlan; step <= kPublish; ++step) {
        alone.setState(step, {0.5, StepState::Need::Grave, QStringLiteral("1234 of 10000 read")});
    }
    alone.show();
    for (const int width : {1920, 1366, 1024, 960, 800}) {
        alone.resize(width, 54);
        QTest::qWait(20);
        ASSERT_EQ(alone.width(), width);
        int right = 0;
        for (const auto* child : alone.findChildren<QWidget*>(Qt::FindDirectChildrenOnly)) {
            if (child->isHidden()) {
                continue;
            }
            EXPECT_GE(child->x(), right) << child->metaObject()->className() << " at " << width;
            EXPECT_GE(child->width(), child->minimumSizeHint().width()) << width;
            right = child->x() + child->width();
        }
        EXPECT_LE(right, width);
    }
    EXPECT_TRUE(project->isHidden());
}

TEST_F(StepBandTest, ThereAreNoStepsWithoutAProject) {
    window->closeProject();
    for (const StepButton* step : steps()) {
        EXPECT_FALSE(step->isVisible());
    }
}

}  // namespace
}  // namespace ui::shell
