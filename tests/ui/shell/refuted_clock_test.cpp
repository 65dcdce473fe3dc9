#include <gtest/gtest.h>

#include <QPushButton>
#include <QStandardPaths>
#include <QTableView>
#include <QTest>

#include "core/intake/assign_shots.h"
#include "core/intake/clock_evidence.h"
#include "core/intake/day_setup.h"
#include "core/intake/reading_ahead.h"
#include "core/report/summary.h"
#include "tests/core/intake/clip_project.h"
#include "tests/support/named_widget.h"
#include "ui/shell/main_window.h"

/// A kept shot whose clip plays at 30 frames per second and was captured at 240; its ball is 74 mm
/// across and turns at 2470 rpm (tests/data/footage/slow_240in30_tagged.json). The file's tag is
/// set aside, so that nothing but the ball's fall tells of the slow motion.
namespace ui::shell {
namespace {

using tests::must;

constexpr int kClockPatienceMs = 60000;  // for reading on a busy machine

class RefutedClock : public ::testing::Test, public tests::intake::ClipProject {
protected:
    void SetUp() override {
        QStandardPaths::setTestModeEnabled(true);
        QCoreApplication::setOrganizationName(QStringLiteral("turnmark-tests"));
        auto known = must(core::intake::setUpOf(*store->snapshot(), record().session));
        known.session.ballDiameterMm = 74.0;
        must(core::intake::setUpDay(*store, known));
        must(core::intake::setReviewersWord(*store, clip, {.rate = {}, .areTagsSetAside = true}));
        core::project::Shot added;
        added.clip = clip;
        added.lastFrame = {record().frameCount - 1};
        shot = must(store->addShots(std::vector{added})).front();
        must(core::intake::assignShots(*store, std::vector{shot}, {"gut", "A"}));
        core::intake::ReadingAhead ahead{*store, {.begun = {}, .ended = [](const auto&) {}}};
        ahead.queue(shot);
        core::jobs::workOff(ahead, core::jobs::Pool::ofProgram(), 1);
        keepByMarks();
        project = store->file();
        store.reset();
    }
    /// One turn in six frames of the file.
    void keepByMarks() {
        core::spin::MarkSet marks;
        marks.start = core::spin::StartMark{{16}, {}};
        marks.returns = {core::spin::ReturnMark::nearest({22}, 1)};
        must(store->setMarks(shot, marks));
        const auto snapshot = store->snapshot();
        const auto& marked = *snapshot->shots.find(shot);
        const auto frames = must(store->clipFrames(clip));
        const auto read = must(core::reading::readMarks(*snapshot, marked, *frames));
        must(store->keepReading(core::reading::makeMarksReading(*snapshot, marked, *frames, read)));
    }
    [[nodiscard]] static core::report::Summary summary(const MainWindow& window) {
        return must(core::report::summarise(*window.store()->snapshot()));
    }

    core::project::ShotId shot;
    std::filesystem::path project;
};

TEST_F(RefutedClock, ItsShotsComeBackIntoTheSummaryOnceTheClockPanelUsesTheFlightsRate) {
    MainWindow window;
    ASSERT_TRUE(window.openProject(project));
    window.resize(1366, 740);
    window.show();
    ASSERT_TRUE(QTest::qWaitForWindowActive(&window, kClockPatienceMs));
    auto before = summary(window);
    ASSERT_EQ(before.implements.size(), 1U);
    EXPECT_EQ(before.implements[0].counts.leftOut, 1U);
    EXPECT_FALSE(before.implements[0].mean.has_value());

    QTest::keyClick(&window, Qt::Key_2, Qt::ControlModifier);
    auto& use = tests::namedWidget<QPushButton>(window, "use_flight");
    const auto isSeen = [&] { return use.visibleRegion().contains(use.rect().center()); };
    ASSERT_TRUE(QTest::qWaitFor(isSeen, kClockPatienceMs));
    EXPECT_EQ(use.text(), QStringLiteral("Use 240 for 1 clip"));
    QTest::mouseClick(&use, Qt::LeftButton);
    ASSERT_TRUE(QTest::qWaitFor([&] { return summary(window).implements[0].mean.has_value(); },
                                kClockPatienceMs));
    EXPECT_FALSE(use.isVisible());
    const auto after = summary(window);
    EXPECT_EQ(after.implements[0].counts.leftOut, 0U);
    EXPECT_EQ(after.implements[0].counts.kept, 1U);
    // Six frames a turn at 240 frames per second are 2400 rpm; half a frame at the return is 200.
    ASSERT_TRUE(QTest::qWaitFor(
        [&] { return summary(window).implements[0].mean->meanRpm > 2000.0; }, kClockPatienceMs));
    EXPECT_NEAR(summary(window).implements[0].mean->meanRpm, 2400.0, 200.0);

    QTest::keyClick(&window, Qt::Key_Z, Qt::ControlModifier);
    QTest::keyClick(&window, Qt::Key_Z, Qt::ControlModifier);
    EXPECT_EQ(summary(window).implements[0].counts.leftOut, 1U) << "undo takes it back";
}

}  // namespace
}  // namespace ui::shell
