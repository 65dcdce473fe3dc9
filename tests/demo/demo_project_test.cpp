#include "core/demo/demo_project.h"

#include <gtest/gtest.h>

#include <fstream>
#include <map>

#include "core/project/store.h"
#include "tests/demo/demo_footage.h"
#include "tests/support/must.h"
#include "tests/support/process.h"

namespace tests::demo {
namespace {

using core::demo::unpackDemo;

TEST(DemoProject, OverwritesNothing) {
    const TemporaryFolder folder;
    const auto clip = folder.path() / "strings_1_hitter_A.mp4";
    std::ofstream{clip} << "mine";
    EXPECT_FALSE(unpackDemo(folder.path()));
    EXPECT_EQ(bytesOf(clip), "mine");
    EXPECT_FALSE(std::filesystem::exists(core::demo::demoProjectFile(folder.path())));
}

TEST(DemoProject, IsUnpackedOnce) {
    const TemporaryFolder folder;
    const auto project = must(unpackDemo(folder.path() / "far" / "demo"));
    EXPECT_EQ(project, core::demo::demoProjectFile(folder.path() / "far" / "demo"));
    const auto again = unpackDemo(folder.path() / "far" / "demo");
    ASSERT_FALSE(again);
    EXPECT_NE(again.error().message.find("already"), std::string::npos);
}

// What the project says of each shot is compared with the scene that its clip was rendered from.
TEST(DemoProject, ItsReadingsHoldTheTruthOfTheirScenes) {
    const TemporaryFolder folder;
    const auto store = must(core::project::Store::open(must(unpackDemo(folder.path()))));
    const auto snapshot = store->snapshot();
    std::map<std::string, const DemoClip*> truths;
    const auto plan = must(planDemoFootage());
    for (const auto& clip : plan.manifest.clips) {
        truths[clip.fileName] = &clip;
    }
    int kept = 0;
    int fromPictures = 0;
    int holds = 0;
    for (const auto* shot : core::project::shotsInOrder(*snapshot)) {
        if (!shot->counting) {
            continue;
        }
        const auto& reading = *snapshot->readings.find(*shot->counting);
        const auto& clip = *truths.at(snapshot->clips.find(shot->clip)->path);
        const double truth = clip.shots.at(static_cast<std::size_t>(shot->ordinal - 1)).spin.rpm;
        ++kept;
        fromPictures += reading.method == core::project::ReadingMethod::RotationFit ? 1 : 0;
        holds +=
            reading.interval95.low.rpm <= truth && truth <= reading.interval95.high.rpm ? 1 : 0;
        EXPECT_NEAR(reading.rate.value.rpm, truth, 0.02 * truth) << clip.fileName;
    }
    EXPECT_EQ(kept, 94);
    EXPECT_GE(fromPictures, 90);
    // Binomial: of 94 intervals with a coverage of 95 %, fewer than 83 hold in 1 of 500 tries.
    EXPECT_GE(holds, 83);
}

}  // namespace
}  // namespace tests::demo
