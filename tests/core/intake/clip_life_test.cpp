#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <vector>

#include "core/intake/clip_places.h"
#include "core/intake/find_clip.h"
#include "core/intake/read_again.h"
#include "core/intake/take_in.h"
#include "tests/core/project/project_maker.h"
#include "tests/support/demo_copy.h"
#include "tests/support/must.h"

namespace tests::intake {
namespace {

namespace fs = std::filesystem;
using core::project::ClipId;
using core::project::Store;

/// What happens to the clips of a season, on a copy of the demo (16 clips, 96 shots, 94 of them
/// kept): after every step the project is as sound as `turnmark-cli check` asks.
class LifeOfClips : public ::testing::Test {
protected:
    LifeOfClips() {
        for (const auto& clip : store->snapshot()->clips) {
            clips.push_back(clip.id);
        }
        noteStep("as it was");
    }
    /// Notes what the project holds now and asks whether it is sound.
    void noteStep(const std::string& step) {
        expectSound(step);
        contents.push_back(now());
    }
    void expectSound(const std::string& step) const {
        EXPECT_EQ(must(store->faults()), std::vector<std::string>{}) << step;
        const auto missing = core::intake::missingClips(*store->snapshot(), store->file());
        EXPECT_EQ(missing, std::vector<std::string>{}) << step;
    }
    [[nodiscard]] std::string now() const { return project::contentOf(*store->snapshot()); }
    [[nodiscard]] fs::path fileOf(ClipId clip) const {
        return must(core::intake::findClip(*store, clip));
    }
    /// Reads again what rests on a change, as the window does.
    void readAgain(const std::vector<core::project::ShotId>& shots) {
        core::intake::ReadAgain again{*store, shots};
        core::jobs::workOff(again, core::jobs::Pool::ofProgram(), 1);
        must(again.keep());
    }

    DemoCopy demo;
    std::unique_ptr<Store> store{must(Store::open(demo.project()))};
    std::vector<ClipId> clips;
    std::vector<std::string> contents;  ///< after each step, one edit each
};

TEST_F(LifeOfClips, MovedRenamedRemovedAndTurnedThenUndoneAndDoneAgain) {
    ASSERT_GE(clips.size(), 4U);
    const auto moved =
        must(core::intake::moveToNewDay(*store, std::vector{clips[0], clips[1]}, "rain"));
    noteStep("moved to a new day");

    // Renamed by a person, and found again by its content in the folder that is taken in anew.
    const fs::path old = fileOf(clips[2]);
    const fs::path renamed = demo.folder() / "renamed" / "another name.mp4";
    fs::create_directories(renamed.parent_path());
    fs::rename(old, renamed);
    core::intake::TakeIn intake{*store, moved.day, std::vector{renamed.parent_path()}, {}};
    core::jobs::workOff(intake, core::jobs::Pool::ofProgram(), 1);
    EXPECT_EQ(intake.report().foundAgain, 1U);
    EXPECT_EQ(fileOf(clips[2]), renamed);
    noteStep("renamed and found again");

    const auto resting = must(core::intake::turnClips(*store, std::vector{clips[3]}, 180));
    EXPECT_FALSE(resting.empty());
    noteStep("turned");
    readAgain(resting);
    noteStep("read again after the turn");

    must(store->removeClips(std::vector{clips[0]}));
    noteStep("removed");
    must(core::intake::moveToDay(*store, std::vector{clips[1]},
                                 store->snapshot()->clips.find(clips[3])->session));
    noteStep("moved back");

    const auto last = contents.size() - 1;
    for (std::size_t step = last; step > 0; --step) {
        must(store->undo());
        expectSound("back to step " + std::to_string(step - 1));
        EXPECT_EQ(now(), contents[step - 1]) << "back to step " << step - 1;
    }
    for (std::size_t step = 1; step <= last; ++step) {
        must(store->redo());
        expectSound("step " + std::to_string(step) + " done again");
        EXPECT_EQ(now(), contents[step]) << "step " << step << " done again";
    }
    EXPECT_EQ(fileOf(clips[2]), renamed);

    store.reset();
    store = must(Store::open(demo.project()));
    expectSound("opened again");
    EXPECT_EQ(now(), contents[last]);
}

}  // namespace
}  // namespace tests::intake
