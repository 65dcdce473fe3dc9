#include "core/base/files.h"

#include <gtest/gtest.h>

#include <fstream>

#include "tests/support/process.h"

namespace core {
namespace {

namespace fs = std::filesystem;

constexpr WriteRule kOverwrite{Existing::Overwrite};

class FilesTest : public ::testing::Test {
protected:
    void SetUp() override { std::ofstream{other} << "mine"; }
    /// What lies in the folder, temporary files included.
    std::size_t entries() const {
        return static_cast<std::size_t>(
            std::distance(fs::directory_iterator{folder.path()}, fs::directory_iterator{}));
    }

    tests::TemporaryFolder folder;
    fs::path other = folder.path() / "other.csv";
};

TEST_F(FilesTest, AFreeNameIsTaken) {
    const fs::path file = folder.path() / "größe.csv";
    ASSERT_TRUE(writeFile(file, std::string_view{"a\0b", 3}));
    EXPECT_EQ(tests::bytesOf(file), std::string("a\0b", 3));
    EXPECT_EQ(entries(), 2U);
}

TEST_F(FilesTest, AFileThatIsThereStaysUnlessOverwritingWasAskedFor) {
    const auto refused = writeFile(other, "new");
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().code, ErrorCode::InvalidInput);
    EXPECT_NE(refused.error().message.find("other.csv"), std::string::npos);
    EXPECT_EQ(tests::bytesOf(other), "mine");
    ASSERT_TRUE(writeFile(other, "new", kOverwrite));
    EXPECT_EQ(tests::bytesOf(other), "new");
    EXPECT_EQ(entries(), 1U);
}

TEST_F(FilesTest, FilesInUseProjectsAndFoldersAlwaysStay) {
    EXPECT_FALSE(
        writeFile(other, "new", {Existing::Overwrite, {folder.path() / "." / "other.csv"}}));
    const fs::path link = folder.path() / "link.csv";
    fs::create_symlink(other, link);
    EXPECT_FALSE(writeFile(link, "new", {Existing::Overwrite, {other}}));
    // The header of a project: https://www.sqlite.org/fileformat2.html, application id at byte 68.
    std::string header{"SQLite format 3\0", 16};
    header.resize(68, 'x');
    const fs::path project = folder.path() / "p";
    std::ofstream{project} << header << "TMRK and so on";
    EXPECT_FALSE(writeFile(project, "new", kOverwrite));
    std::ofstream{project} << header << "GPKG and so on";  // another program's
    EXPECT_TRUE(writeFile(project, "new", kOverwrite));
    EXPECT_FALSE(writeFile(folder.path(), "new", kOverwrite));
}

TEST_F(FilesTest, ALinkIsReplacedAndNotFollowed) {
    const fs::path link = folder.path() / "link.csv";
    fs::create_symlink(other, link);
    EXPECT_FALSE(writeFile(link, "new"));
    ASSERT_TRUE(writeFile(link, "new", kOverwrite));
    EXPECT_FALSE(fs::is_symlink(link));
    EXPECT_EQ(tests::bytesOf(other), "mine");
    fs::create_symlink(folder.path() / "nowhere", folder.path() / "dangling");
    EXPECT_FALSE(writeFile(folder.path() / "dangling", "new"));
    EXPECT_FALSE(fs::exists(folder.path() / "nowhere"));
}

TEST_F(FilesTest, WhatCannotBeWrittenLeavesNothing) {
    EXPECT_EQ(writeFile(folder.path() / "no folder" / "a", "x").error().code,
              ErrorCode::WriteFailed);
    EXPECT_EQ(moveToPlace(folder.path() / "gone", folder.path() / "a").error().code,
              ErrorCode::WriteFailed);
    EXPECT_EQ(entries(), 1U);
}

TEST_F(FilesTest, TwoStagingFoldersAreTwoAndGoWithWhatIsInThem) {
    {
        const auto first = StagingFolder::beside(other).value();
        const auto second = StagingFolder::in(folder.path()).value();
        EXPECT_NE(first.path(), second.path());
        std::ofstream{first.path() / "left"} << "x";
        EXPECT_EQ(entries(), 3U);
    }
    EXPECT_EQ(entries(), 1U);
}

}  // namespace
}  // namespace core
