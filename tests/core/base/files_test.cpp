#include "core/base/files.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>

#include "tests/support/disk_steps.h"
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

/// Two files written while a recorder looks on: one in the place of an older one, one anew.
class FilesAtALossOfPower : public FilesTest {
protected:
    FilesAtALossOfPower() {
        std::ofstream{folder.path() / "old.csv"} << older;
        const tests::DiskRecorder recorder{folder.path()};
        EXPECT_TRUE(writeFile(folder.path() / "old.csv", newer, kOverwrite));
        written = recorder.steps().size();
        EXPECT_TRUE(writeFile(folder.path() / "new.csv", newer));
        steps = recorder.steps();
        start = recorder.atStart();
    }
    /// The content; "absent" when there is no such file.
    static std::string in(const tests::DiskState& state, const std::string& name) {
        const auto at = state.names.find(name);
        if (at == state.names.end()) {
            return "absent";
        }
        const auto content = state.contents.find(at->second);
        return content == state.contents.end() ? std::string{} : content->second;
    }

    std::string older = std::string(9'000, 'o');
    std::string newer = std::string(100'000, 'n');
    std::vector<tests::DiskStep> steps;
    std::size_t written{};
    tests::DiskState start;
};

TEST_F(FilesAtALossOfPower, AreWholeOrAsBeforeAndThereOnceTheyWereWritten) {
    int outcomes = 0;
    for (std::size_t count = 0; count <= steps.size(); ++count) {
        for (std::uint64_t seed = 0; seed < 20; ++seed, ++outcomes) {
            const auto left = tests::afterPowerLoss(start, steps, count, seed);
            const std::string old = in(left, "old.csv");
            const std::string fresh = in(left, "new.csv");
            ASSERT_TRUE(old == newer || (old == older && count < written)) << count;
            ASSERT_TRUE(fresh == newer || (fresh == "absent" && count < steps.size())) << count;
        }
    }
    EXPECT_GT(outcomes, 200);
}

TEST_F(FilesAtALossOfPower, TheContentIsSyncedBeforeTheNameAndTheFolderAfterIt) {
    using Kind = tests::DiskStep::Kind;
    const auto place = [this](Kind kind, const auto& fits) {
        const auto at = std::find_if(steps.begin(), steps.end(), [&](const tests::DiskStep& step) {
            return step.kind == kind && fits(step);
        });
        EXPECT_NE(at, steps.end());
        return at - steps.begin();
    };
    const auto renamed =
        place(Kind::Rename, [](const tests::DiskStep& step) { return step.newName == "old.csv"; });
    const std::uint64_t file = steps[static_cast<std::size_t>(renamed)].file;
    const auto synced =
        place(Kind::Sync, [file](const tests::DiskStep& step) { return step.file == file; });
    const auto folderSynced =
        place(Kind::SyncFolder, [](const tests::DiskStep& step) { return step.name.empty(); });
    EXPECT_LT(synced, renamed);
    EXPECT_LT(renamed, folderSynced);
}

/// The recorder misses nothing: its steps lead to what lies in the folder.
TEST_F(FilesTest, TheRecordedStepsLeadToTheFolder) {
    tests::DiskRecorder recorder{folder.path()};
    ASSERT_TRUE(writeFile(folder.path() / "a.csv", "one"));
    fs::copy_file(folder.path() / "a.csv", folder.path() / "b.csv");
    fs::resize_file(folder.path() / "b.csv", 2);
    std::ofstream{folder.path() / "b.csv", std::ios::app} << "more";
    std::ofstream{folder.path() / "other.csv"} << "new";
    fs::create_directory(folder.path() / "inner");
    fs::rename(folder.path() / "a.csv", folder.path() / "inner" / "a.csv");
    fs::create_hard_link(folder.path() / "b.csv", folder.path() / "c.csv");
    fs::remove(folder.path() / "b.csv");
    const auto all =
        tests::stateAfter(recorder.atStart(), recorder.steps(), recorder.steps().size());
    const auto present = recorder.present();
    EXPECT_EQ(all.names, present.names);
    for (const auto& [name, file] : present.names) {
        EXPECT_EQ(file == 0 || all.contents.at(file) == present.contents.at(file), true) << name;
    }
}

}  // namespace
}  // namespace core
