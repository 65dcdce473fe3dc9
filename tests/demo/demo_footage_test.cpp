#include "tests/demo/demo_footage.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

namespace tests::demo {
namespace {

DemoPlan plan() {
    auto planned = planDemoFootage();
    EXPECT_TRUE(planned.has_value());
    return std::move(planned.value());
}

TEST(DemoFootage, HasEightSetUpsTwoHittersAndSixShotsACell) {
    const DemoPlan demo = plan();
    EXPECT_EQ(demo.manifest.implements.size(), 8U);
    EXPECT_EQ(demo.manifest.hitters.size(), 2U);
    ASSERT_EQ(demo.manifest.clips.size(), 16U);
    std::set<std::pair<std::size_t, std::size_t>> cells;
    for (const DemoClip& clip : demo.manifest.clips) {
        cells.emplace(clip.implement, clip.hitter);
        EXPECT_EQ(clip.shots.size(), 6U) << clip.fileName;
    }
    EXPECT_EQ(cells.size(), 16U);
    EXPECT_NE(demo.manifest.statement.find("Invented"), std::string::npos);
}

TEST(DemoFootage, EveryShotIsWhollyVisibleForSixteenToTwentyFourFramesAndReturns) {
    for (const DemoClip& clip : plan().manifest.clips) {
        for (const synthesis::ShotTruth& shot : clip.shots) {
            const auto inside = std::count_if(
                shot.frames.begin(), shot.frames.end(),
                [](const synthesis::FrameTruth& frame) { return frame.isFullyInside; });
            EXPECT_GE(inside, 16) << clip.fileName;
            EXPECT_LE(inside, 24) << clip.fileName;
            EXPECT_NEAR(2.0 * shot.frames[shot.frames.size() / 2].radiusPx, 40.0, 5.0);
            EXPECT_GE(synthesis::nearestReturnFrames(shot, 3).size(), 1U) << clip.fileName;
        }
    }
}

TEST(DemoFootage, ShotsDoNotOverlap) {
    for (const DemoClip& clip : plan().manifest.clips) {
        for (std::size_t i = 1; i < clip.shots.size(); ++i) {
            EXPECT_LT(clip.shots[i - 1].frames.back().frame, clip.shots[i].strikeFrame);
        }
    }
}

}  // namespace
}  // namespace tests::demo
