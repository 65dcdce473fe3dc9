#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>

#include "core/project/store.h"
#include "tests/support/demo_copy.h"

namespace {

using nlohmann::json;
namespace fs = std::filesystem;

const tests::DemoCopy& demo() {
    static const tests::DemoCopy copy;
    return copy;
}

std::string demoProject() {
    return demo().project().string();
}

json contentOf(const fs::path& file) {
    std::ifstream stream{file};
    return json::parse(stream);
}

class ProjectCommands : public ::testing::Test {
protected:
    tests::TemporaryFolder folder;
};

TEST_F(ProjectCommands, DemoIsEightImplementsTwoHittersSixShots) {
    const auto done = tests::runProgram({TURNMARK_CLI, "summary", "--json", demoProject()});
    ASSERT_EQ(done.status, 0) << done.errors;
    const json summary = json::parse(done.output);
    EXPECT_EQ(summary["implements"].size(), 8U);
    ASSERT_EQ(summary["cells"].size(), 16U);
    int kept = 0;
    int open = 0;
    for (const auto& cell : summary["cells"]) {
        kept += cell["counts"]["kept"].get<int>();
        open += cell["counts"]["open"].get<int>();
    }
    EXPECT_EQ(kept + open, 96);
    EXPECT_EQ(open, 2);
}

TEST_F(ProjectCommands, ExportIsRepeatableToTheByte) {
    for (const char* name : {"one", "two"}) {
        const auto done =
            tests::runProgram({TURNMARK_CLI, "export", demoProject(), "--to", folder.file(name)});
        ASSERT_EQ(done.status, 0) << done.errors;
    }
    for (const char* file : {"shots.csv", "shots.json", "summary.csv", "summary.json"}) {
        const std::string a = tests::bytesOf(folder.path() / "one" / file);
        const std::string b = tests::bytesOf(folder.path() / "two" / file);
        EXPECT_FALSE(a.empty()) << file;
        EXPECT_EQ(a, b) << file;
    }
}

TEST_F(ProjectCommands, ExportAgainIntoTheSameFolderReplacesItsOwnFiles) {
    for (int round = 0; round < 2; ++round) {
        const auto done =
            tests::runProgram({TURNMARK_CLI, "export", demoProject(), "--to", folder.file("out")});
        ASSERT_EQ(done.status, 0) << done.errors;
    }
    const json contents = contentOf(folder.path() / "out" / "contents.json");
    EXPECT_EQ(contents["files"].size(), 5U);
}

TEST_F(ProjectCommands, ForeignFileInTheWayIsLeftAlone) {
    const auto target = folder.path() / "out";
    fs::create_directories(target);
    std::ofstream{target / "summary.csv"} << "my own notes\n";
    const auto done =
        tests::runProgram({TURNMARK_CLI, "export", demoProject(), "--to", target.string()});
    EXPECT_EQ(done.status, 1);
    EXPECT_NE(done.errors.find("summary.csv"), std::string::npos) << done.errors;
    EXPECT_FALSE(fs::exists(target / "shots.csv"));
    std::ifstream kept{target / "summary.csv"};
    std::string line;
    std::getline(kept, line);
    EXPECT_EQ(line, "my own notes");
}

TEST_F(ProjectCommands, ForeignFileInTheWayIsReplacedWhenAsked) {
    const auto target = folder.path() / "out";
    fs::create_directories(target);
    std::ofstream{target / "summary.csv"} << "my own notes\n";
    const auto done = tests::runProgram(
        {TURNMARK_CLI, "export", demoProject(), "--to", target.string(), "--overwrite"});
    ASSERT_EQ(done.status, 0) << done.errors;
    EXPECT_EQ(tests::bytesOf(target / "summary.csv").find("my own notes"), std::string::npos);
}

TEST_F(ProjectCommands, CheckFindsTheDemoSound) {
    const auto done = tests::runProgram({TURNMARK_CLI, "check", demoProject()});
    EXPECT_EQ(done.status, 0) << done.errors;
    EXPECT_NE(done.output.find("sound"), std::string::npos);
}

TEST_F(ProjectCommands, CheckNamesAMissingClip) {
    fs::copy(demo().folder(), folder.path() / "copy");
    fs::path removed;
    for (const auto& entry : fs::directory_iterator{folder.path() / "copy"}) {
        if (entry.path().extension() == ".mp4") {
            removed = entry.path();
        }
    }
    ASSERT_FALSE(removed.empty());
    fs::remove(removed);
    const auto done = tests::runProgram(
        {TURNMARK_CLI, "check", folder.file("copy/stringing bench (invented).turnmark")});
    EXPECT_EQ(done.status, 1);
    EXPECT_NE(done.errors.find(removed.filename().string()), std::string::npos) << done.errors;
}

TEST_F(ProjectCommands, MovedClipIsFoundUnderTheProjectsFolder) {
    fs::copy(demo().folder(), folder.path() / "copy");
    fs::create_directories(folder.path() / "copy" / "day one");
    for (const auto& entry : fs::directory_iterator{demo().folder()}) {
        if (entry.path().extension() == ".mp4") {
            const auto name = entry.path().filename();
            fs::rename(folder.path() / "copy" / name, folder.path() / "copy" / "day one" / name);
        }
    }
    const auto done = tests::runProgram(
        {TURNMARK_CLI, "check", folder.file("copy/stringing bench (invented).turnmark")});
    EXPECT_EQ(done.status, 0) << done.errors;
}

TEST_F(ProjectCommands, TextNamedAsAProjectIsRefusedAndUntouched) {
    const auto file = folder.file("notes.turnmark");
    std::ofstream{file} << "not a project\n";
    const auto done = tests::runProgram({TURNMARK_CLI, "summary", file});
    EXPECT_EQ(done.status, 1);
    EXPECT_NE(done.errors.find("notes.turnmark"), std::string::npos) << done.errors;
    EXPECT_EQ(fs::file_size(file), 14U);
}

TEST_F(ProjectCommands, DemoIsNotWrittenOverAnotherOne) {
    const auto done = tests::runProgram({TURNMARK_CLI, "demo", demo().folder().string()});
    EXPECT_EQ(done.status, 1);
    EXPECT_NE(done.errors.find("already"), std::string::npos) << done.errors;
}

// The demo's mishit and its odd cell are there to be found (core/synthesis/demo_footage.h).
TEST(DoubtsCommand, ListsWhatDeservesASecondLook) {
    const auto told = tests::runProgram({TURNMARK_CLI, "doubts", demoProject(), "--json"});
    ASSERT_EQ(told.status, 0) << told.errors;
    const json doubts = json::parse(told.output);
    EXPECT_EQ(doubts["kept_shots"], 94);
    ASSERT_GE(doubts["doubts"].size(), 2U);
    std::string reasons;
    for (const auto& item : doubts["doubts"]) {
        for (const auto& reason : item["reasons"]) {
            reasons += reason["reason"].get<std::string>() + ' ';
            EXPECT_FALSE(reason["sentence"].get<std::string>().empty());
        }
    }
    EXPECT_NE(reasons.find("outlier"), std::string::npos);
    EXPECT_NE(reasons.find("hitters_differ"), std::string::npos);
    const auto words = tests::runProgram({TURNMARK_CLI, "doubts", demoProject()});
    EXPECT_NE(words.output.find("among 94 kept shots"), std::string::npos) << words.output;
}

TEST_F(ProjectCommands, SettingsAreKeptShownAndTakenAway) {
    const std::string project = folder.file("settings.turnmark");
    ASSERT_TRUE(core::project::Store::create(project));
    std::ofstream{folder.file("strings.csv")} << "name,condition\ngut,new\ngut,worn\n";
    const auto run = [&](std::vector<std::string> more) {
        std::vector<std::string> arguments{TURNMARK_CLI, "settings", project, "--json"};
        arguments.insert(arguments.end(), more.begin(), more.end());
        return tests::runProgram(arguments);
    };
    const std::vector<std::string> planned{
        TURNMARK_CLI, "plan", project, "--implements", folder.file("strings.csv"), "--hitter", "A"};
    ASSERT_EQ(tests::runProgram(planned).status, 0);
    const auto set =
        run({"--step", "300 rpm", "--bands", "low 1200 high", "--control", "gut (worn)"});
    ASSERT_EQ(set.status, 0) << set.errors;
    const json expected{{"noticeable_step_rpm", 300.0}, {"bands", "low 1200 high"},
                        {"control", "gut (worn)"},      {"author", nullptr},
                        {"licence", nullptr},           {"cite_as", nullptr}};
    EXPECT_EQ(json::parse(set.output), expected);
    const auto wrong = run({"--step", "250", "--control", "gutt"});
    EXPECT_EQ(wrong.status, 1);
    EXPECT_NE(wrong.errors.find("\"gutt\""), std::string::npos) << wrong.errors;
    EXPECT_EQ(json::parse(run({}).output), expected);  // nothing of it was kept
    const auto without =
        run({"--bands", "", "--control", "", "--author", "Bench team", "--licence", "CC BY 4.0"});
    EXPECT_EQ(json::parse(without.output), (json{{"noticeable_step_rpm", 300.0},
                                                 {"bands", ""},
                                                 {"control", nullptr},
                                                 {"author", "Bench team"},
                                                 {"licence", "CC BY 4.0"},
                                                 {"cite_as", nullptr}}));
}

}  // namespace
