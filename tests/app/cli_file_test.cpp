#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>

#include "tests/support/demo_copy.h"

namespace {

using nlohmann::json;
namespace fs = std::filesystem;

/// A copy of the demo with its clips, so that files may go.
class FileCommands : public ::testing::Test {
protected:
    json answer(std::vector<std::string> arguments) {
        arguments.insert(arguments.begin(), TURNMARK_CLI);
        arguments.emplace_back("--json");
        const auto done = tests::runProgram(arguments);
        EXPECT_EQ(done.status, 0) << done.errors;
        return json::parse(done.output, nullptr, false);
    }

    tests::TemporaryFolder folder;
    tests::DemoCopy demo;
    std::string project = demo.project().string();
};

TEST_F(FileCommands, HistoryIsATableOfWhoDidWhatWhen) {
    const json history = answer({"history", project})["history"];
    ASSERT_FALSE(history.empty());
    EXPECT_EQ(history[0]["what"], "Created the project.");
    const auto file = folder.file("history.csv");
    EXPECT_EQ(tests::runProgram({TURNMARK_CLI, "history", project, "--csv", file}).status, 0);
    std::ifstream stream{file};
    std::string header;
    std::getline(stream, header);
    EXPECT_EQ(header, "line,at,reader,what,clip,shot\r");
}

TEST_F(FileCommands, HistoryOfAShotThatIsNotThereSaysHowToWriteIt) {
    const auto done =
        tests::runProgram({TURNMARK_CLI, "history", project, "--shot", "shot 99 of clip x.mp4"});
    EXPECT_EQ(done.status, 1);
    EXPECT_NE(done.errors.find("shot 3 of clip b.mp4"), std::string::npos) << done.errors;
}

TEST_F(FileCommands, EvidenceIsGatheredListedAndLetGo) {
    // 94 of the 96 shots of the demo are kept.
    const json listed = answer({"evidence", project});
    EXPECT_EQ(listed["shots"].size(), 94U);
    EXPECT_TRUE(listed["kept_without_pictures"].empty());
    RecordProperty("evidence_bytes", listed["bytes"].get<int>());
    EXPECT_EQ(answer({"evidence", project, "--prune-all"})["would_let_go"].size(), 94U);
    EXPECT_EQ(answer({"evidence", project})["shots"].size(), 94U);  // nothing went
    EXPECT_EQ(answer({"evidence", project, "--prune-all", "--confirm"})["let_go"].size(), 94U);
    EXPECT_EQ(answer({"evidence", project})["bytes"], 0);
    EXPECT_EQ(answer({"evidence", project})["kept_without_pictures"].size(), 94U);
    EXPECT_EQ(answer({"evidence", project, "--gather"})["made"], 94);
    EXPECT_EQ(answer({"evidence", project})["shots"].size(), 94U);
    EXPECT_EQ(answer({"check", project})["sound"], true);
}

TEST_F(FileCommands, ABackupIsListedAndRestored) {
    const json summary = answer({"summary", project});
    ASSERT_EQ(answer({"copies", project})["copies"].size(), 0U);
    const json backups = answer({"copies", project, "--now"})["copies"];
    ASSERT_EQ(backups.size(), 1U);
    EXPECT_EQ(backups[0]["shots"], 96);
    EXPECT_EQ(backups[0]["kept"], 94);
    fs::resize_file(project, fs::file_size(project) / 2);
    EXPECT_EQ(tests::runProgram({TURNMARK_CLI, "summary", project}).status, 1);
    const json restored =
        answer({"restore", project, "--from", backups[0]["file"].get<std::string>()});
    EXPECT_TRUE(fs::exists(restored["before"].get<std::string>()));
    EXPECT_EQ(answer({"summary", project}), summary);
}

TEST_F(FileCommands, PackedAndUnpackedElsewhereTheSummaryIsTheSame) {
    const json summary = answer({"summary", project});
    const json packed = answer({"pack", project, "--to", folder.file("p.tar")});
    EXPECT_FALSE(packed["clips"].empty());
    EXPECT_TRUE(packed["remarks"].empty());
    const json unpacked = answer({"unpack", folder.file("p.tar"), "--to", folder.file("there")});
    fs::remove_all(fs::path{project}.parent_path());
    const auto moved = unpacked["project"].get<std::string>();
    EXPECT_EQ(answer({"summary", moved}), summary);
    EXPECT_EQ(answer({"check", moved})["sound"], true);  // its clips are there as well
}

TEST_F(FileCommands, WithoutFootageTheKeptPicturesGoAlong) {
    ASSERT_TRUE(
        answer({"pack", project, "--to", folder.file("p.tar"), "--without-footage"})["clips"]
            .empty());
    const json unpacked = answer({"unpack", folder.file("p.tar"), "--to", folder.file("there")});
    EXPECT_EQ(unpacked["files"].size(), 1U);
    const json evidence = answer({"evidence", unpacked["project"].get<std::string>()});
    EXPECT_EQ(evidence["shots"].size(), 94U);
}

}  // namespace
