#include "ui/shell/step_state.h"

#include <gtest/gtest.h>

#include <vector>

/// Counted by hand from a few entities.
namespace ui::shell {
namespace {

using core::doubts::Doubt;
using core::doubts::Doubted;
using core::doubts::Grade;
using core::project::CellId;
using core::project::Clip;
using core::project::ClipId;
using core::project::ClockSetting;
using core::project::Entities;
using core::project::Shot;
using core::project::ShotId;
using core::project::ShotStanding;
using core::project::Snapshot;

Clip clip(std::int64_t id, bool hasClock) {
    Clip made;
    made.id = ClipId{id};
    made.clock = hasClock ? std::optional{ClockSetting{}} : std::nullopt;
    return made;
}

Shot shot(std::int64_t id, std::int64_t ofClip, bool isAssigned, ShotStanding standing) {
    Shot made;
    made.id = ShotId{id};
    made.clip = ClipId{ofClip};
    made.cell = isAssigned ? std::optional{CellId{1}} : std::nullopt;
    made.standing = standing;
    return made;
}

TEST(StepState, FootageNamesWhatIsUnsureBeforeWhatIsNotAssigned) {
    Snapshot project;
    EXPECT_EQ(footageState(project).words, QStringLiteral("no clips"));
    EXPECT_EQ(footageState(project).share, 0.0);
    project.clips = Entities<Clip>{{clip(1, true), clip(2, false), clip(3, true), clip(4, true)}};
    project.shots = Entities<Shot>{
        {shot(1, 1, true, ShotStanding::Open), shot(2, 3, false, ShotStanding::Open)}};
    EXPECT_EQ(footageState(project).words, QStringLiteral("1 of 4 unsure"));
    EXPECT_EQ(footageState(project).need, StepState::Need::Question);
    EXPECT_DOUBLE_EQ(footageState(project).share, 0.5);  // clips 1 and 4
    project.clips = Entities<Clip>{{clip(1, true), clip(3, true)}};
    EXPECT_EQ(footageState(project).words, QStringLiteral("1 not assigned"));
    project.shots = Entities<Shot>{{shot(1, 1, true, ShotStanding::Open)}};
    EXPECT_EQ(footageState(project).words, QStringLiteral("2 clips"));
    EXPECT_DOUBLE_EQ(footageState(project).share, 1.0);
}

TEST(StepState, ReadingCountsShotsThatAreDecided) {
    Snapshot project;
    EXPECT_EQ(readingState(project).words, QStringLiteral("no shots"));
    project.shots = Entities<Shot>{
        {shot(1, 1, true, ShotStanding::Kept), shot(2, 1, true, ShotStanding::SetAside),
         shot(3, 1, true, ShotStanding::Open), shot(4, 1, true, ShotStanding::Open)}};
    EXPECT_EQ(readingState(project).words, QStringLiteral("2 of 4 read"));
    EXPECT_DOUBLE_EQ(readingState(project).share, 0.5);
}

TEST(StepState, DoubtsCountWhatIsOpenAndSayWhatIsGrave) {
    EXPECT_EQ(doubtsState(nullptr).words, QStringLiteral("–"));
    core::doubts::Doubts doubts;
    doubts.keptShots = 9;
    EXPECT_EQ(doubtsState(&doubts).words, QStringLiteral("all settled"));
    EXPECT_DOUBLE_EQ(doubtsState(&doubts).share, 1.0);
    const auto item = [](Grade grade, bool isSettled) {
        Doubted made;
        made.doubts = {Doubt{{}, grade, 0.0, {}}};
        made.isSettled = isSettled;
        return made;
    };
    doubts.items = {item(Grade::Question, false), item(Grade::Grave, true)};
    EXPECT_EQ(doubtsState(&doubts).words, QStringLiteral("1 to check"));
    EXPECT_EQ(doubtsState(&doubts).need, StepState::Need::Question);
    doubts.items.insert(doubts.items.begin(), item(Grade::Grave, false));
    EXPECT_EQ(doubtsState(&doubts).words, QStringLiteral("2 open · 1 grave"));
    EXPECT_EQ(doubtsState(&doubts).need, StepState::Need::Grave);
    EXPECT_NEAR(doubtsState(&doubts).share, 1.0 / 3.0, 1e-12);
}

TEST(StepState, PublishSaysWhetherThePublishedIsStillWhatIsFound) {
    Snapshot project;
    core::findings::Findings findings;
    findings.fingerprint = 17;
    EXPECT_EQ(publishState(project, &findings).words, QStringLiteral("not yet"));
    project.settings["published"] = "2026-05-16 17 /home/bench/out of doors";
    EXPECT_EQ(publishState(project, &findings).words, QStringLiteral("published"));
    EXPECT_EQ(publishState(project, nullptr).words, QStringLiteral("published"));
    findings.fingerprint = 18;
    EXPECT_EQ(publishState(project, &findings).words, QStringLiteral("changed since"));
    EXPECT_EQ(publishState(project, &findings).need, StepState::Need::Question);
    project.settings["published"] = "nonsense";
    EXPECT_EQ(publishState(project, &findings).words, QStringLiteral("not yet"));
}

}  // namespace
}  // namespace ui::shell
