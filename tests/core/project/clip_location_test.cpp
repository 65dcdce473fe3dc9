#include "core/project/clip_location.h"

#include <gtest/gtest.h>

#include <fstream>

#include "tests/core/project/project_maker.h"

namespace tests::project {
namespace {

using namespace core::project;
using core::ErrorCode;
namespace fs = std::filesystem;

class ClipLocationTest : public ::testing::Test {
protected:
    ClipLocationTest() {
        clip.path = "clips/ä b.mp4";
        clip.sizeBytes = 5;
        clip.fingerprint = "print of right";
    }
    void write(const fs::path& name, const std::string& content) const {
        fs::create_directories((folder.path() / name).parent_path());
        std::ofstream{folder.path() / name} << content;
    }
    /// Stands for the media module's fingerprint: the content itself.
    [[nodiscard]] auto locate() {
        return locateClip(project, clip, [this](const fs::path& file) -> core::Result<std::string> {
            looked.push_back(file.filename().string());
            std::string content;
            std::ifstream{file} >> content;
            return "print of " + content;
        });
    }

    TemporaryFolder folder;
    fs::path project = folder.path() / "p.turnmark";
    Clip clip;
    std::vector<std::string> looked;
};

TEST_F(ClipLocationTest, AtItsPlaceItIsTrustedBySize) {
    write("clips/ä b.mp4", "right");
    const auto found = locate();
    ASSERT_TRUE(found) << found.error().message;
    EXPECT_EQ(found.value().file, folder.path() / "clips/ä b.mp4");
    EXPECT_FALSE(found.value().isMoved);
    EXPECT_TRUE(looked.empty());
}

TEST_F(ClipLocationTest, MovedItIsFoundByContentAndNotByName) {
    write("clips/ä b.mp4", "longer than before");
    write("a/wrong.mp4", "wrong");
    write("new place/other name.mp4", "right");
    write("q.turnmark", "right");  // a project is never looked into
    const auto found = locate();
    ASSERT_TRUE(found) << found.error().message;
    EXPECT_EQ(found.value().file, folder.path() / "new place/other name.mp4");
    EXPECT_TRUE(found.value().isMoved);
    EXPECT_EQ(looked, (std::vector<std::string>{"wrong.mp4", "other name.mp4"}));
    EXPECT_EQ(pathToKeep(project, found.value().file), "new place/other name.mp4");
}

TEST_F(ClipLocationTest, GoneItIsNamedWithThePlaces) {
    write("a/wrong.mp4", "wrong");
    const auto found = locate();
    ASSERT_FALSE(found);
    EXPECT_EQ(found.error().code, ErrorCode::NotFound);
    EXPECT_NE(found.error().message.find("ä b.mp4"), std::string::npos);
    EXPECT_NE(found.error().message.find(folder.path().string()), std::string::npos);
}

TEST_F(ClipLocationTest, APathBesideTheFolderIsKeptRelative) {
    EXPECT_EQ(pathToKeep(folder.path() / "one" / "p.turnmark", folder.path() / "two" / "c.mp4"),
              "../two/c.mp4");
}

}  // namespace
}  // namespace tests::project
