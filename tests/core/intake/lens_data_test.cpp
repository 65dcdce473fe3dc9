#include <gtest/gtest.h>

#include "core/media/file/lens.h"
#include "core/reading/project_reading.h"
#include "tests/core/intake/clip_project.h"

namespace tests::intake {
namespace {

using core::reading::requestOf;

/// One shot in a film that names its lens.
class LensOfAClip : public ::testing::Test {
protected:
    LensOfAClip() {
        const auto film = folder.path() / "lens.mp4";
        const auto made =
            runProgram({"ffmpeg", "-v", "error", "-i",
                        (dataFolder() / "footage" / "slow_240in30_tagged.mp4").string(), "-c",
                        "copy", "-map_metadata", "0", "-movflags", "use_metadata_tags", "-metadata",
                        "camera.focal_length.35mm_equivalent=26", film.string()});
        if (made.status != 0) {
            throw std::runtime_error(made.errors);
        }
        store = must(core::project::Store::create(folder.path() / "p.turnmark"));
        session.name = "day";
        session.id = must(store->addSession(session));
        core::project::Shot one;
        one.clip = must(core::intake::addPreparedClip(
            *store, session.id, must(core::intake::prepareClip(film, store->file()))));
        one.firstFrame = {5};
        one.lastFrame = {20};
        shot = must(store->addShots(std::span{&one, 1})).front();
    }
    [[nodiscard]] std::optional<core::Measured<core::Radians>> fieldOfView() const {
        return must(requestOf(*store->snapshot(), shot)).facts.fieldOfView;
    }

    TemporaryFolder folder;
    std::unique_ptr<core::project::Store> store;
    core::project::Session session;
    core::project::ShotId shot;
};

TEST_F(LensOfAClip, IsWhatReadingsRestOn) {
    const auto clip = *store->snapshot()->clips.begin();
    const auto expected = core::media::fieldOfViewAcrossLongerSide(26.0, clip.width, clip.height);
    ASSERT_TRUE(fieldOfView());
    EXPECT_EQ(fieldOfView()->value, expected.value);
    EXPECT_EQ(fieldOfView()->sigma, expected.sigma);
}

TEST_F(LensOfAClip, GivesWayToWhatTheTesterEnters) {
    session.fieldOfViewDeg = 60.0;
    ASSERT_TRUE(store->changeSession(session));
    ASSERT_TRUE(fieldOfView());
    EXPECT_NEAR(core::toDegrees(fieldOfView()->value), 60.0, 1e-9);
}

TEST_F(LensOfAClip, IsStillKnownAfterOpeningAgain) {
    const auto before = fieldOfView();
    const auto file = store->file();
    store.reset();
    store = must(core::project::Store::open(file));
    ASSERT_TRUE(fieldOfView() && before);
    EXPECT_EQ(fieldOfView()->value, before->value);
}

}  // namespace
}  // namespace tests::intake
