#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>

#include "tests/support/process.h"
#include "tests/support/reference_csv.h"

/// Every command that writes a file named by a person, over files that are there already.
namespace {

namespace fs = std::filesystem;

class WrittenFiles : public ::testing::TestWithParam<std::vector<std::string>> {
protected:
    WrittenFiles() {
        fs::copy_file(tests::dataFolder() / "footage" / "half_120fps.mp4", film);
        std::ofstream{folder.file("implements.csv")} << "implement\nlathe\nplane\n";
        tests::runProgram({TURNMARK_CLI, "intake", project, film});
        tests::runProgram({TURNMARK_CLI, "plan", project, "--implements",
                           folder.file("implements.csv"), "--hitter", "A"});
    }
    /// The command with its last option given the file, and P and F standing for project and film.
    tests::Finished write(const std::string& to, bool overwrite) const {
        std::vector<std::string> command{TURNMARK_CLI};
        for (const std::string& part : GetParam()) {
            command.push_back(part == "P" ? project : part == "F" ? film : part);
        }
        command.push_back(to);
        if (overwrite) {
            command.emplace_back("--overwrite");
        }
        return tests::runProgram(command);
    }
    void expectStays(const std::string& file, bool overwrite) const {
        const std::string before = tests::bytesOf(file);
        const auto done = write(file, overwrite);
        EXPECT_EQ(done.status, 1) << done.output;
        EXPECT_NE(done.errors.find(file), std::string::npos) << done.errors;
        EXPECT_TRUE(tests::bytesOf(file) == before) << file << " was changed";
    }

    tests::TemporaryFolder folder;
    std::string project{folder.file("p.turnmark")};
    std::string film{folder.file("film.mp4")};
};

TEST_P(WrittenFiles, AFileOfSomebodyStaysUnlessOverwriteIsGiven) {
    const std::string mine = folder.file("mine");
    std::ofstream{mine} << "mine";
    expectStays(mine, false);
    if (GetParam().front() == "accuracy") {
        return;  // what it writes takes long to work out
    }
    const auto done = write(mine, true);
    EXPECT_EQ(done.status, 0) << done.errors;
    EXPECT_NE(tests::bytesOf(mine), "mine");
    EXPECT_EQ(write(folder.file("new"), false).status, 0);
}

TEST_P(WrittenFiles, TheProjectAndItsFilmStayWhateverIsGiven) {
    const bool hasProject = GetParam()[1] == "P";
    for (const bool overwrite : {false, true}) {
        expectStays(project, overwrite);
        if (hasProject || GetParam()[1] == "F") {
            expectStays(film, overwrite);
        }
    }
}

INSTANTIATE_TEST_SUITE_P(
    Commands, WrittenFiles,
    ::testing::Values(std::vector<std::string>{"history", "P", "--csv"},
                      std::vector<std::string>{"read", "F", "--json"},
                      std::vector<std::string>{"plan", "P", "--pdf"},
                      std::vector<std::string>{"plan", "P", "--cards"},
                      std::vector<std::string>{"pack", "P", "--without-footage", "--to"},
                      std::vector<std::string>{"accuracy", "--shots", "1", "--list"}),
    [](const auto& tested) { return tested.param.front() + "_" + tested.param.back().substr(2); });

}  // namespace
