#include "core/publish/output_folder.h"

#include <gtest/gtest.h>

#include <fstream>
#include <nlohmann/json.hpp>

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
    tests::TemporaryFolder folder;
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
