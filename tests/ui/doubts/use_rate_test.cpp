#include <gtest/gtest.h>

#include <QPushButton>
#include <QSignalSpy>
#include <QTest>

#include "core/doubts/find_doubts.h"
#include "core/findings/findings.h"
#include "core/intake/clock_evidence.h"
#include "core/intake/day_setup.h"
#include "core/intake/reading_ahead.h"
#include "tests/core/intake/clip_project.h"
#include "tests/support/must.h"
#include "tests/support/named_widget.h"
#include "ui/doubts/doubt_card.h"

/// A doubted shot whose clip plays at 30 frames per second and was captured at 240; its ball is
/// 74 mm across (tests/data/footage/slow_240in30_tagged.json).
namespace ui::doubts {
namespace {

using tests::must;

class UseRate : public ::testing::Test, public tests::intake::ClipProject {
protected:
    UseRate() {
        auto known = must(core::intake::setUpOf(*store->snapshot(), record().session));
        known.session.ballDiameterMm = 74.0;
        must(core::intake::setUpDay(*store, known));
        must(core::intake::setReviewersWord(*store, clip, {.rate = {}, .areTagsSetAside = true}));
        core::project::Shot added;
        added.clip = clip;
        added.lastFrame = {record().frameCount - 1};
        shot = must(store->addShots(std::vector{added})).front();
        core::intake::ReadingAhead ahead{*store, {.begun = {}, .ended = [](const auto&) {}}};
        ahead.queue(shot);
        core::jobs::workOff(ahead, core::jobs::Pool::ofProgram(), 1);
    }
    /// One turn in six frames, kept on the wrong clock.
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

    bridge::JobRunner jobs{1};
    core::project::ShotId shot;
};

TEST_F(UseRate, OneButtonUsesTheRateThatTheFlightFits) {
    keepByMarks();
    const auto found = std::make_shared<const core::doubts::Doubts>(
        core::doubts::findDoubts(must(core::doubts::gatherAll(*store)),
                                 must(core::findings::findFindings(*store->snapshot()))));
    ASSERT_FALSE(found->items.empty());
    ASSERT_TRUE(found->items.front().has(core::doubts::Reason::ClockRefuted));
    DoubtCard card{*store, jobs};
    card.show(found, &found->items.front());
    card.resize(900, 320);
    card.QWidget::show();
    ASSERT_TRUE(QTest::qWaitForWindowExposed(&card));
    auto& use = tests::namedWidget<QPushButton>(card, "doubtUseRate");
    ASSERT_TRUE(use.isVisible());
    EXPECT_EQ(use.text(), QStringLiteral("Use 240 for 1 clip"));
    std::vector<core::project::ShotId> again;
    QObject::connect(&card, &DoubtCard::readAgainWanted,
                     [&again](const auto& shots) { again = shots; });
    QTest::mouseClick(&use, Qt::LeftButton);
    EXPECT_EQ(record().clock->stretch, core::timebase::Rational{8});
    EXPECT_EQ(again, std::vector{shot}) << "its marks were read on the wrong clock";
    must(store->undo());
    EXPECT_EQ(record().clock->stretch, core::timebase::Rational{1});
}

TEST_F(UseRate, WithoutAChoiceThereIsNoSuchButton) {
    DoubtCard card{*store, jobs};
    EXPECT_TRUE(tests::namedWidget<QPushButton>(card, "doubtUseRate").isHidden());
}

}  // namespace
}  // namespace ui::doubts
