#include "core/intake/find_clip.h"

#include <gtest/gtest.h>

#include "tests/core/intake/clip_project.h"

namespace tests::intake {
namespace {

namespace fs = std::filesystem;
using core::ErrorCode;
using core::intake::findClip;
using core::intake::missingClips;
using core::intake::pointToClip;

class FindClip : public ::testing::Test, public ClipProject {
protected:
    fs::path elsewhere{folder.path() / "other disk" / "renamed.mp4"};
    void moveAway() {
        fs::create_directories(elsewhere.parent_path());
        fs::rename(clipFile, elsewhere);
    }
};

TEST_F(FindClip, AClipMovedWithinTheFolderIsFoundByItsContent) {
    const fs::path moved = clipFile.parent_path() / "day 1" / "a.mp4";
    fs::create_directories(moved.parent_path());
    fs::rename(clipFile, moved);
    EXPECT_EQ(must(findClip(*store, clip)), moved);
    EXPECT_EQ(record().path, "day 1/a.mp4");
}

TEST_F(FindClip, AClipOutsideTheFolderIsMissingUntilItIsPointedAt) {
    moveAway();
    EXPECT_EQ(missingClips(*store->snapshot(), store->file()),
              std::vector<std::string>{"slow.mp4"});
    const auto lost = findClip(*store, clip);
    ASSERT_FALSE(lost);
    EXPECT_EQ(lost.error().code, ErrorCode::NotFound);
    ASSERT_TRUE(pointToClip(*store, clip, elsewhere));
    EXPECT_TRUE(fs::equivalent(must(findClip(*store, clip)), elsewhere));
    EXPECT_TRUE(missingClips(*store->snapshot(), store->file()).empty());
}

TEST_F(FindClip, AFileWithOtherContentIsRefused) {
    moveAway();
    const auto other = dataFolder() / "footage" / "slow_240in30_untagged.mp4";
    const auto done = pointToClip(*store, clip, other);
    ASSERT_FALSE(done);
    EXPECT_EQ(done.error().code, ErrorCode::InvalidInput);
    EXPECT_EQ(record().path, "slow.mp4");
}

}  // namespace
}  // namespace tests::intake
