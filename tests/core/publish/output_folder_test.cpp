#include "core/publish/output_folder.h"

#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <fstream>
#include <map>
#include <nlohmann/json.hpp>

#include "tests/support/disk_steps.h"
#include "tests/support/process.h"

namespace core::publish {
namespace {

namespace fs = std::filesystem;

class OutputFolderTest : public ::testing::Test {
protected:
    fs::path target() const { return folder.path() / "out"; }
    void publishOnce(const std::string& name, const std::string& content) const {
        auto out = OutputFolder::open(target(), {});
        ASSERT_TRUE(out.has_value()) << out.error().message;
        const auto put = out.value().put(name, content);
        ASSERT_TRUE(put.has_value()) << put.error().message;
        const auto done = out.value().commit("test");
        ASSERT_TRUE(done.has_value()) << done.error().message;
    }
    std::size_t entries() const {
        return static_cast<std::size_t>(
            std::distance(fs::directory_iterator{target()}, fs::directory_iterator{}));
    }
    /// In memory where that is to be had: what is tested is what is written, not how fast.
    tests::TemporaryFolder folder{::access("/dev/shm", W_OK) == 0 ? fs::path{"/dev/shm"}
                                                                  : fs::temp_directory_path()};
};

TEST_F(OutputFolderTest, FilesAppearAtCommitAndNotBefore) {
    auto out = OutputFolder::open(target(), {});
    ASSERT_TRUE(out.has_value());
    ASSERT_TRUE(out.value().put("figures/a.svg", "x").has_value());
    EXPECT_FALSE(fs::exists(target() / "figures" / "a.svg"));
    const auto done = out.value().commit("test");
    ASSERT_TRUE(done.has_value()) << done.error().message;
    EXPECT_EQ(tests::bytesOf(target() / "figures" / "a.svg"), "x");
    EXPECT_EQ(done.value().files.size(), 2U);
}

TEST_F(OutputFolderTest, WithoutCommitNothingStays) {
    {
        auto out = OutputFolder::open(target(), {});
        ASSERT_TRUE(out.has_value());
        ASSERT_TRUE(out.value().put("a.csv", "x").has_value());
    }
    EXPECT_EQ(entries(), 0U);
}

TEST_F(OutputFolderTest, OwnFileIsReplacedAForeignOneIsNot) {
    publishOnce("a.csv", "first");
    publishOnce("a.csv", "second");
    EXPECT_EQ(tests::bytesOf(target() / "a.csv"), "second");
    std::ofstream{target() / "b.csv"} << "mine";
    auto out = OutputFolder::open(target(), {});
    const auto put = out.value().put("b.csv", "theirs");
    ASSERT_FALSE(put.has_value());
    EXPECT_EQ(put.error().code, ErrorCode::InvalidInput);
    EXPECT_NE(put.error().message.find("b.csv"), std::string::npos);
    EXPECT_EQ(tests::bytesOf(target() / "b.csv"), "mine");
}

TEST_F(OutputFolderTest, OwnFileThatSomebodyChangedIsForeign) {
    publishOnce("a.csv", "first");
    std::ofstream{target() / "a.csv", std::ios::app} << " and a note";
    auto out = OutputFolder::open(target(), {});
    EXPECT_FALSE(out.value().put("a.csv", "second").has_value());
}

TEST_F(OutputFolderTest, ForeignFileIsOverwrittenOnRequest) {
    fs::create_directories(target());
    std::ofstream{target() / "a.csv"} << "mine";
    auto out = OutputFolder::open(target(), {Existing::Overwrite});
    ASSERT_TRUE(out.value().put("a.csv", "new").has_value());
    ASSERT_TRUE(out.value().commit("test").has_value());
    EXPECT_EQ(tests::bytesOf(target() / "a.csv"), "new");
}

TEST_F(OutputFolderTest, AFilmOfTheProjectStaysEvenOnRequest) {
    fs::create_directories(target());
    std::ofstream{target() / "a.mp4"} << "the film";
    auto out = OutputFolder::open(target(), {Existing::Overwrite, {target() / "a.mp4"}});
    EXPECT_FALSE(out.value().put("a.mp4", "new").has_value());
}

TEST_F(OutputFolderTest, DatedLineMakesNoFileForeign) {
    const std::string mark{kDatedLineMark};
    publishOnce("index.html", "a\n<p " + mark + ">1 May</p>\nb\n");
    EXPECT_EQ(contentFingerprint("a\n<p " + mark + ">1 May</p>\nb\n"),
              contentFingerprint("a\n<p " + mark + ">2 June, longer</p>\nb\n"));
    publishOnce("index.html", "a\n<p " + mark + ">2 May</p>\nb\n");
}

// A link planted in the folder must not let a file land outside it.
TEST_F(OutputFolderTest, NothingIsWrittenThroughALink) {
    const auto outside = folder.path() / "outside";
    fs::create_directories(outside);
    fs::create_directories(target());
    fs::create_directory_symlink(outside, target() / "figures");
    std::ofstream{outside / "real.csv"} << "mine";
    fs::create_symlink(outside / "real.csv", target() / "a.csv");
    auto out = OutputFolder::open(target(), {Existing::Overwrite});
    EXPECT_FALSE(out.value().put("figures/a.svg", "x").has_value());
    ASSERT_TRUE(out.value().put("a.csv", "new").has_value());
    ASSERT_TRUE(out.value().commit("test").has_value());
    EXPECT_EQ(tests::bytesOf(outside / "real.csv"), "mine");
    EXPECT_EQ(tests::bytesOf(target() / "a.csv"), "new");
}

TEST_F(OutputFolderTest, FilesOfBeforeStayAndAreNamed) {
    publishOnce("old.svg", "x");
    auto out = OutputFolder::open(target(), {});
    ASSERT_TRUE(out.value().put("new.svg", "y").has_value());
    const auto done = out.value().commit("test");
    ASSERT_TRUE(done.has_value());
    ASSERT_EQ(done.value().leftOver.size(), 1U);
    EXPECT_EQ(done.value().leftOver.front().filename(), "old.svg");
    EXPECT_TRUE(fs::exists(target() / "old.svg"));
    publishOnce("old.svg", "z");
}

// As a shell completes it; this never came to an end.
TEST_F(OutputFolderTest, ASlashAtTheEndOfTheFolderIsNoOtherFolder) {
    auto out = OutputFolder::open(target() / "", {});
    ASSERT_TRUE(out.value().put("figures/a.svg", "x"));
    ASSERT_TRUE(out.value().commit("test"));
    EXPECT_EQ(tests::bytesOf(target() / "figures" / "a.svg"), "x");
}

/// A publication over an earlier one that was stopped, and the next one after it. One file is new,
/// one has changed, one is as before, one is not written any more, and one is somebody else's.
class StoppedPublication : public OutputFolderTest {
protected:
    using Names = std::map<std::string, std::string>;

    static Names firstFiles() {
        return {{"a.csv", "first"}, {"figures/b.svg", "<b/>"}, {"old.csv", "old"}};
    }
    static Names secondFiles() {
        return {{"a.csv", std::string(9'000, 's')}, {"figures/b.svg", "<b/>"}, {"n/c.csv", "new"}};
    }
    static Result<void> write(const fs::path& to, const Names& files) {
        BOOST_OUTCOME_TRY(out, OutputFolder::open(to, {}));
        for (const auto& [name, content] : files) {
            BOOST_OUTCOME_TRY(out.put(name, content));
        }
        BOOST_OUTCOME_TRY(out.commit("test"));
        return ok();
    }
    static void begin(const fs::path& in) {
        ASSERT_TRUE(write(in, firstFiles()));
        std::ofstream{in / "notes.txt"} << "mine";
    }
    /// Folders by a slash at the end.
    static Names everythingIn(const fs::path& in) {
        Names all;
        for (const auto& entry : fs::recursive_directory_iterator{in}) {
            const std::string name = fs::relative(entry.path(), in).string();
            all[entry.is_directory() ? name + "/" : name] = tests::bytesOf(entry.path());
        }
        return all;
    }
    /// A folder after a publication that nothing stopped.
    Names clean() const {
        const fs::path in = folder.path() / "clean";
        begin(in);
        EXPECT_TRUE(write(in, secondFiles()));
        return everythingIn(in);
    }
};

TEST_F(StoppedPublication, IsFinishedByTheNextOneWhereverItWasKilled) {
    const Names expected = clean();
    bool wasKilled = true;
    std::size_t kills = 0;
    for (; wasKilled && kills < 500; ++kills) {
        const fs::path in = folder.path() / std::to_string(kills);
        begin(in);
        const pid_t child = ::fork();
        if (child == 0) {
            tests::DiskRecorder recorder{in};
            recorder.killAfter(kills + 1);
            ::_exit(write(in, secondFiles()) ? 0 : 1);
        }
        int status = 0;
        ::waitpid(child, &status, 0);
        wasKilled = WIFSIGNALED(status);
        ASSERT_TRUE(wasKilled || WEXITSTATUS(status) == 0);
        const auto again = write(in, secondFiles());
        ASSERT_TRUE(again) << kills << ": " << again.error().message;
        ASSERT_EQ(everythingIn(in), expected) << kills;
        fs::remove_all(in);
    }
    EXPECT_GT(kills, 30U);  // calls that change the folder
    RecordProperty("kills", static_cast<int>(kills));
}

TEST_F(StoppedPublication, IsFinishedByTheNextOneWhateverALossOfPowerLeaves) {
    const Names expected = clean();
    begin(target());
    std::vector<tests::DiskStep> steps;
    tests::DiskState start;
    {
        tests::DiskRecorder recorder{target()};
        ASSERT_TRUE(write(target(), secondFiles()));
        steps = recorder.steps();
        start = recorder.atStart();
    }
    for (std::size_t count = 0; count <= steps.size(); ++count) {
        const fs::path in = folder.path() / std::to_string(count);
        fs::create_directory(in);
        tests::writeState(tests::afterPowerLoss(start, steps, count, count), in);
        const auto again = write(in, secondFiles());
        ASSERT_TRUE(again) << count << ": " << again.error().message;
        ASSERT_EQ(everythingIn(in), expected) << count;
    }
}

/// Stopped after the first file had moved: what has been changed since is somebody's.
TEST_F(StoppedPublication, LeavesAloneWhatWasChangedSince) {
    begin(target());
    const pid_t child = ::fork();
    if (child == 0) {
        tests::DiskRecorder recorder{target()};
        recorder.killAtName("a.csv");
        ::_exit(write(target(), secondFiles()) ? 0 : 1);
    }
    int status = 0;
    ::waitpid(child, &status, 0);
    ASSERT_TRUE(WIFSIGNALED(status));
    EXPECT_EQ(tests::bytesOf(target() / "a.csv"), secondFiles()["a.csv"]);
    EXPECT_FALSE(fs::exists(target() / "n" / "c.csv"));
    std::ofstream{target() / "a.csv"} << "mine now";
    ASSERT_FALSE(write(target(), secondFiles()));
    EXPECT_EQ(tests::bytesOf(target() / "a.csv"), "mine now");
    EXPECT_EQ(tests::bytesOf(target() / "notes.txt"), "mine");
}

TEST_F(StoppedPublication, WhatAnotherProgramIsWritingStays) {
    auto other = OutputFolder::open(target(), {});
    std::ofstream{other.value().scratch("film.mp4")} << "x";
    ASSERT_TRUE(write(target(), firstFiles()));
    EXPECT_TRUE(other.value().take("film.mp4", other.value().scratch("film.mp4")));
}

/// Midway: a folder cannot be made because its place was taken while the files were made ready.
TEST_F(StoppedPublication, AFailureMidwaySaysSoAndTheNextOneFinishes) {
    begin(target());
    {
        auto out = OutputFolder::open(target(), {});
        for (const auto& [name, content] : secondFiles()) {
            ASSERT_TRUE(out.value().put(name, content));
        }
        std::ofstream{target() / "n"} << "in the way";
        const auto done = out.value().commit("test");
        ASSERT_FALSE(done);
        EXPECT_NE(done.error().message.find("write into this folder again"), std::string::npos);
    }
    fs::remove(target() / "n");
    ASSERT_TRUE(write(target(), secondFiles()));
    EXPECT_EQ(everythingIn(target()), clean());
}

/// A list that somebody has planted does not reach outside, and replaces nothing unknown.
TEST_F(StoppedPublication, APlantedListIsHarmless) {
    begin(target());
    const fs::path planted = target() / ".turnmark-part-abcdef";
    fs::create_directory(planted);
    std::ofstream{folder.path() / "victim"} << "x";
    std::ofstream{planted / "notes.txt"} << "theirs";
    std::ofstream{planted / ".moves.json"}
        << R"([{"path": "notes.txt", "replaces": ""}, {"path": "../victim", "replaces": ""}, 7])";
    ASSERT_TRUE(write(target(), secondFiles()));
    EXPECT_EQ(everythingIn(target()), clean());
    EXPECT_EQ(tests::bytesOf(folder.path() / "victim"), "x");
}

TEST_F(OutputFolderTest, FileInThePlaceOfTheFolderIsRefused) {
    std::ofstream{target()} << "a file";
    const auto out = OutputFolder::open(target(), {Existing::Overwrite});
    ASSERT_FALSE(out.has_value());
    EXPECT_EQ(out.error().code, ErrorCode::InvalidInput);
}

TEST_F(OutputFolderTest, ForgedListDoesNotReachOutside) {
    fs::create_directories(target());
    std::ofstream{folder.path() / "victim"} << "x";
    const nlohmann::json forged{
        {"files", {{{"path", "../victim"}, {"sha256", contentFingerprint("x")}}, 7, "text"}}};
    std::ofstream{target() / kContentsFile} << forged.dump();
    auto out = OutputFolder::open(target(), {});
    ASSERT_TRUE(out.value().put("a.csv", "new").has_value());
    const auto done = out.value().commit("test");
    ASSERT_TRUE(done.has_value()) << done.error().message;
    EXPECT_TRUE(done.value().leftOver.empty());
    EXPECT_EQ(tests::bytesOf(folder.path() / "victim"), "x");
}

}  // namespace
}  // namespace core::publish
