#include "core/intake/day_setup.h"

#include <gtest/gtest.h>

#include "core/intake/read_again.h"
#include "core/intake/refuted_clock.h"
#include "core/reading/project_reading.h"
#include "tests/core/intake/clip_project.h"
#include "tests/core/intake/clip_readings.h"

/// A filming day with a clip whose tag states 240 frames per second (it plays at 30) and one that
/// plays at 120 and states nothing (tests/data/footage/README.md).
namespace tests::intake {
namespace {

using core::intake::DaySetUp;
using core::project::ClipId;
using core::project::ShotId;
using core::timebase::CaptureRate;
using core::timebase::Rational;

class DaySetUpTest : public ::testing::Test, public ClipProject {
protected:
    DaySetUpTest() { silent = add("half_120fps.mp4"); }
    ClipId add(const std::string& name) {
        const auto file = clipFile.parent_path() / name;
        std::filesystem::copy_file(dataFolder() / "footage" / name, file);
        return must(core::intake::addPreparedClip(
            *store, record().session, must(core::intake::prepareClip(file, store->file()))));
    }
    [[nodiscard]] DaySetUp setUp() const {
        return must(core::intake::setUpOf(*store->snapshot(), record().session));
    }
    void useRate(int framesPerSecond) {
        DaySetUp changed = setUp();
        changed.captureRate = CaptureRate{Rational{framesPerSecond}};
        must(core::intake::setUpDay(*store, changed));
    }
    /// Frames per second at which the clip is taken to be captured.
    [[nodiscard]] double capturedAt(ClipId id) const {
        const auto snapshot = store->snapshot();
        const auto* found = snapshot->clips.find(id);
        return (found->playbackRate->fps * found->clock->stretch).toDouble();
    }
    ShotId keepFirstShot(ClipId of) {
        const auto id = readWholeClip(*store, of);
        keepPictures(*store, id);
        return id;
    }
    core::intake::ReadAgainReport readAgain(const std::vector<ShotId>& shots) {
        core::intake::ReadAgain again{*store, shots};
        core::jobs::workOff(again, core::jobs::Pool::ofProgram(), 1);
        return must(again.keep());
    }
    [[nodiscard]] double countingRpm(ShotId shot) const {
        const auto snapshot = store->snapshot();
        return snapshot->readings.find(*snapshot->shots.find(shot)->counting)->rate.value.rpm;
    }

    ClipId silent;
};

TEST_F(DaySetUpTest, TheRateOfTheDayIsThatOfEveryClipThatStatesNone) {
    useRate(480);
    EXPECT_DOUBLE_EQ(capturedAt(silent), 480.0);
    EXPECT_DOUBLE_EQ(capturedAt(clip), 240.0) << "its file says so";
    const auto differ = core::intake::differencesFromDay(*store->snapshot());
    ASSERT_EQ(differ.size(), 1U);
    EXPECT_EQ(differ.begin()->first, clip);
    EXPECT_EQ(differ.begin()->second,
              "Captured at 240 frames per second, and the set-up of the day says 480.");
}

TEST_F(DaySetUpTest, AClipThatComesLaterFollowsAndSoDoesAnotherRate) {
    useRate(480);
    const ClipId later = add("quarter_120fps.mp4");
    EXPECT_DOUBLE_EQ(capturedAt(later), 480.0);
    useRate(240);
    EXPECT_DOUBLE_EQ(capturedAt(later), 240.0);
    EXPECT_DOUBLE_EQ(capturedAt(silent), 240.0);
    EXPECT_TRUE(core::intake::differencesFromDay(*store->snapshot()).empty() ||
                !core::intake::differencesFromDay(*store->snapshot()).contains(later));
}

TEST_F(DaySetUpTest, SettingUpIsOneStepOfUndo) {
    DaySetUp all = setUp();
    all.session.ballDiameterMm = 67.0;
    all.session.note = "Side camera, 8 m";
    all.captureRate = CaptureRate{Rational{480}};
    must(core::intake::setUpDay(*store, all));
    EXPECT_EQ(setUp(), all);
    must(store->undo());
    EXPECT_EQ(setUp().session.ballDiameterMm, std::nullopt);
    EXPECT_EQ(setUp().captureRate, std::nullopt);
    EXPECT_DOUBLE_EQ(capturedAt(silent), 120.0);
    must(store->redo());
    EXPECT_EQ(setUp(), all);
}

TEST_F(DaySetUpTest, AClipWithAWordOfItsOwnKeepsIt) {
    must(core::intake::useRate(*store, CaptureRate{Rational{960}}, std::vector{silent}));
    useRate(480);
    EXPECT_DOUBLE_EQ(capturedAt(silent), 960.0);
    EXPECT_TRUE(core::intake::differencesFromDay(*store->snapshot()).contains(silent));
}

TEST_F(DaySetUpTest, TheGapsAreFilledFromThePlanAndFromTheDayBefore) {
    core::plan::Plan plan;
    plan.filming.captureFps = 240.0;
    plan.filming.exposureSeconds = 0.001;
    must(store->setPlan(plan));
    const auto first = core::intake::proposedSetUp(*store->snapshot(), setUp());
    EXPECT_TRUE(first.isFromPlan);
    EXPECT_EQ(first.setUp.captureRate, CaptureRate{Rational{240}});
    EXPECT_EQ(first.setUp.session.exposureSeconds, 0.001);
    EXPECT_EQ(first.fromDayBefore, "");
    DaySetUp known = setUp();
    known.session.ballDiameterMm = 67.0;
    known.session.readoutSeconds = 0.008;
    must(core::intake::setUpDay(*store, known));
    core::project::Session next;
    next.name = "next";
    const auto id = must(store->addSession(next));
    const auto second = core::intake::proposedSetUp(
        *store->snapshot(), must(core::intake::setUpOf(*store->snapshot(), id)));
    EXPECT_EQ(second.fromDayBefore, "day");
    EXPECT_EQ(second.setUp.session.ballDiameterMm, 67.0);
    EXPECT_EQ(second.setUp.session.readoutSeconds, 0.008);
}

/// At half the capture rate every turn takes twice as long: the spin is half of it.
TEST_F(DaySetUpTest, KeptShotsAreReadAgainWhenTheRateChangesAndTheOldNumberStays) {
    const ShotId shot = keepFirstShot(clip);
    const double before = countingRpm(shot);
    const CaptureRate half{Rational{120}};
    const auto change = must(core::intake::rateChangeOf(*store, half, std::vector{clip}));
    const auto resting = core::intake::keptShotsRestingOn(*store->snapshot(), change);
    ASSERT_EQ(resting, std::vector{shot});
    EXPECT_EQ(core::intake::namesOfShots(*store->snapshot(), resting, 3), "1 of slow.mp4");
    must(core::intake::useRate(*store, half, std::vector{clip}));
    const auto report = readAgain(resting);
    EXPECT_EQ(report.kept, 1U);
    EXPECT_TRUE(report.refused.empty());
    EXPECT_NEAR(countingRpm(shot), before / 2.0, 0.001 * before);
    const auto snapshot = store->snapshot();
    EXPECT_EQ(core::project::readingsOfShot(*snapshot, shot).size(), 2U);
    EXPECT_EQ(snapshot->shots.find(shot)->standing, core::project::ShotStanding::Kept);
    must(store->undo());
    EXPECT_DOUBLE_EQ(countingRpm(shot), before);
}

TEST_F(DaySetUpTest, WhatRestsOnAFactIsNamedBeforeItChanges) {
    const ShotId shot = keepFirstShot(clip);
    DaySetUp changed = setUp();
    const auto resting = [&] {
        return core::intake::keptShotsRestingOn(*store->snapshot(),
                                                must(core::intake::factChangeOf(*store, changed)));
    };
    changed.session.note = "another lens cap";
    EXPECT_TRUE(resting().empty());
    changed.session.readoutSeconds = 0.01;
    EXPECT_EQ(resting(), std::vector{shot});
    changed = setUp();
    changed.session.ballDiameterMm = 67.0;
    EXPECT_EQ(resting(), std::vector{shot});
    changed = setUp();
    changed.session.marking = core::project::BallMarking::Band;
    EXPECT_EQ(resting(), std::vector{shot});
    must(store->reopen(shot));
    EXPECT_TRUE(resting().empty());
}

TEST_F(DaySetUpTest, ACancelledSecondReadingChangesNothing) {
    const ShotId shot = keepFirstShot(clip);
    const double before = countingRpm(shot);
    must(core::intake::useRate(*store, CaptureRate{Rational{120}}, std::vector{clip}));
    core::intake::ReadAgain again{*store, {shot}};
    again.cancel();
    core::jobs::workOff(again, core::jobs::Pool::ofProgram(), 1);
    const auto report = must(again.keep());
    EXPECT_TRUE(report.isCancelled);
    EXPECT_EQ(report.kept, 0U);
    EXPECT_DOUBLE_EQ(countingRpm(shot), before);
}

TEST_F(DaySetUpTest, TheRateIsUsedForAllClipsOfTheSameClockInOneStep) {
    const ClipId other = add("quarter_120fps.mp4");
    const auto same = core::intake::clipsOfTheSameClock(*store->snapshot(), silent);
    ASSERT_EQ(same, (std::vector{silent, other}));
    must(core::intake::useRate(*store, CaptureRate{Rational{240}}, same));
    EXPECT_DOUBLE_EQ(capturedAt(silent), 240.0);
    EXPECT_DOUBLE_EQ(capturedAt(other), 240.0);
    must(store->undo());
    EXPECT_DOUBLE_EQ(capturedAt(silent), 120.0);
    EXPECT_DOUBLE_EQ(capturedAt(other), 120.0);
}

}  // namespace
}  // namespace tests::intake
