// What a person made of shots stays when shots are found again. "Found" is what a search gave; it
// is handed in twice, as the search gives the same twice.
#include "core/intake/shot_corrections.h"

#include <gtest/gtest.h>

#include "core/intake/clip_shots.h"
#include "tests/core/intake/clip_project.h"

namespace tests::intake {
namespace {

using namespace core::intake;
using core::project::Shot;
using core::project::ShotId;

class ShotCorrections : public ::testing::Test, public ClipProject {
protected:
    /// Strike and last frame of each shot of the clip, in order.
    using Ranges = std::vector<std::pair<std::int64_t, std::int64_t>>;

    [[nodiscard]] Shot at(std::int64_t first, std::int64_t last) const {
        Shot shot;
        shot.clip = clip;
        shot.firstFrame = {first};
        shot.lastFrame = {last};
        shot.strikeFrame = {first};
        return shot;
    }
    void find() { ASSERT_TRUE(addNewShots(*store, clip, {at(4, 11), at(14, 20), at(24, 30)})); }
    [[nodiscard]] Ranges ranges() const {
        Ranges all;
        const auto snapshot = store->snapshot();
        for (const Shot* shot : shotsOfClip(*snapshot, clip)) {
            all.emplace_back(shot->firstFrame.value, shot->lastFrame.value);
        }
        return all;
    }
    [[nodiscard]] ShotId shot(std::size_t place) const {
        const auto snapshot = store->snapshot();
        return shotsOfClip(*snapshot, clip).at(place)->id;
    }
    /// Finding again changes nothing, neither now nor after closing; one undo takes the correction
    /// back.
    void expectKept(const Ranges& corrected) {
        EXPECT_EQ(ranges(), corrected);
        find();
        EXPECT_EQ(ranges(), corrected);
        const auto file = store->file();
        store.reset();
        store = must(core::project::Store::open(file));
        find();
        EXPECT_EQ(ranges(), corrected);
        EXPECT_EQ(must(store->faults()), std::vector<std::string>{});
        ASSERT_TRUE(store->undo());
        EXPECT_EQ(ranges(), kFound);
        ASSERT_TRUE(store->redo());
        find();
        EXPECT_EQ(ranges(), corrected);
    }

    const Ranges kFound{{4, 11}, {14, 20}, {24, 30}};
};

TEST_F(ShotCorrections, TheClipIsLongEnoughForTheseTests) {
    ASSERT_GT(record().frameCount, 40);
    find();
    EXPECT_EQ(ranges(), kFound);
}

TEST_F(ShotCorrections, ADroppedShotDoesNotComeBack) {
    find();
    const std::array dropped{shot(1)};
    ASSERT_TRUE(dropShots(*store, dropped));
    expectKept({{4, 11}, {24, 30}});
}

TEST_F(ShotCorrections, AllOfAShortClipDroppedDoNotComeBackAsOne) {
    find();
    const std::array dropped{shot(0), shot(1), shot(2)};
    ASSERT_TRUE(dropShots(*store, dropped));
    EXPECT_TRUE(must(addNewShots(*store, clip, {at(0, record().frameCount - 1)})).empty());
    expectKept({});
}

TEST_F(ShotCorrections, AMovedShotLeavesItsOldPlaceEmpty) {
    find();
    ASSERT_TRUE(moveShot(*store, shot(2), {33}, {38}, {{33}}));
    expectKept({{4, 11}, {14, 20}, {33, 38}});
}

TEST_F(ShotCorrections, AStrikeOutsideComesToTheNearerEnd) {
    find();
    ASSERT_TRUE(moveShot(*store, shot(2), {26}, {30}, {{24}}));
    EXPECT_EQ(store->snapshot()->shots.find(shot(2))->strikeFrame->value, 26);
}

TEST_F(ShotCorrections, ASplitShotStaysTwo) {
    find();
    const auto made = must(splitShot(*store, shot(0), {8}));
    EXPECT_EQ(store->snapshot()->shots.find(made)->strikeFrame->value, 8);
    expectKept({{4, 7}, {8, 11}, {14, 20}, {24, 30}});
}

TEST_F(ShotCorrections, JoinedShotsStayOne) {
    find();
    ASSERT_TRUE(joinWithNext(*store, shot(0)));
    expectKept({{4, 20}, {24, 30}});
    EXPECT_EQ(joinWithNext(*store, shot(1)).error().code, core::ErrorCode::NotFound);
}

TEST_F(ShotCorrections, AHandMadeShotKeepsFoundOnesOutAndLeavesNothingWhenDropped) {
    ASSERT_TRUE(store->addShots(std::vector{at(4, 11), at(14, 20)}));
    const auto made = must(addShotByHand(*store, clip, {22}));
    EXPECT_EQ(store->snapshot()->shots.find(made)->lastFrame.value, 22 + kHandMadeShotFrames - 1);
    find();
    EXPECT_EQ(ranges().size(), 3U);
    const std::array dropped{made};
    ASSERT_TRUE(dropShots(*store, dropped));
    find();
    EXPECT_EQ(ranges(), kFound) << "the found one was never dropped";
}

TEST_F(ShotCorrections, WorkOnAShotIsNotLostBySplittingOrJoining) {
    find();
    core::spin::MarkSet marks;
    marks.start = core::spin::StartMark{{16}, {}};
    ASSERT_TRUE(store->setMarks(shot(1), marks));
    EXPECT_EQ(joinWithNext(*store, shot(0)).error().code, core::ErrorCode::Contradiction);
    EXPECT_EQ(splitShot(*store, shot(1), {16}).error().code, core::ErrorCode::InvalidInput);
    EXPECT_EQ(splitShot(*store, shot(1), {14}).error().code, core::ErrorCode::InvalidInput);
    EXPECT_EQ(ranges(), kFound);
    ASSERT_TRUE(splitShot(*store, shot(1), {18}));
    EXPECT_EQ(store->snapshot()->shots.find(shot(1))->marks, marks);
}

}  // namespace
}  // namespace tests::intake
