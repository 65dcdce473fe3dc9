#include <gtest/gtest.h>
#include <unistd.h>

#include <filesystem>

#include "core/project/store.h"
#include "tests/support/demo_copy.h"

/// What others have done to the command line, or might.
namespace {

namespace fs = std::filesystem;

tests::Finished shell(const std::string& command) {
    return tests::runProgram({"bash", "-c", command});
}

class HostileCommands : public ::testing::Test {
protected:
    void SetUp() override { ASSERT_TRUE(core::project::Store::create(project)); }

    tests::TemporaryFolder folder;
    std::string project{folder.file("p.turnmark")};
    std::string program{TURNMARK_CLI};
};

// Every write to /dev/full fails for want of room (full(4)).
TEST_F(HostileCommands, AnAnswerThatDoesNotArriveIsNoSuccess) {
    for (const std::string& command :
         {std::string{" --help"}, std::string{" --version"}, " summary '" + project + "'",
          " check --json '" + project + "'",
          std::string{" rate --capture-rate 240 --start 12 --return 17 --json"}}) {
        const auto done = shell("'" + program + "'" + command + " > /dev/full");
        EXPECT_EQ(done.status, 1) << command;
        EXPECT_NE(done.errors.find("could not be written in full"), std::string::npos)
            << command << ": " << done.errors;
    }
}

TEST_F(HostileCommands, APlanCanBeLookedAtWithoutTheRightToWrite) {
    fs::permissions(project, fs::perms::owner_read | fs::perms::others_read);
    fs::permissions(folder.path(), fs::perms::owner_read | fs::perms::owner_exec |
                                       fs::perms::others_read | fs::perms::others_exec);
    const std::string asNobody =
        ::geteuid() == 0 ? "setpriv --reuid 65534 --regid 65534 --clear-groups " : "";
    const auto looked = shell(asNobody + "'" + program + "' plan --json '" + project + "'");
    EXPECT_EQ(looked.errors.find("cannot be written"), std::string::npos) << looked.errors;
    const auto changed = shell(asNobody + "'" + program + "' plan --hitter A '" + project + "'");
    EXPECT_EQ(changed.status, 1);
    EXPECT_NE(changed.errors.find("cannot be written"), std::string::npos) << changed.errors;
    fs::permissions(folder.path(), fs::perms::owner_all);
}

TEST_F(HostileCommands, WhatOnlyLooksNeedsNoRightToWrite) {
    const tests::DemoCopy demo;
    const auto setRights = [&demo](fs::perms ofFolder, fs::perms ofFiles) {
        for (const auto& entry : fs::directory_iterator{demo.folder()}) {
            fs::permissions(entry, ofFiles);
        }
        fs::permissions(demo.folder(), ofFolder);
    };
    setRights(fs::perms{0555}, fs::perms{0444});
    const std::string asNobody =
        ::geteuid() == 0 ? "setpriv --reuid 65534 --regid 65534 --clear-groups " : "";
    for (const char* command :
         {"plan", "summary", "check", "history", "doubts", "evidence", "settings", "copies"}) {
        const auto done =
            shell(asNobody + "'" + program + "' " + command + " '" + demo.project().string() + "'");
        EXPECT_EQ(done.status, 0) << command << ": " << done.errors;
        EXPECT_GT(done.output.size(), 20U) << command;
    }
    setRights(fs::perms{0755}, fs::perms{0644});
}

TEST_F(HostileCommands, NumbersBeyondAllReasonAreRefusedOrRead) {
    EXPECT_NE(shell("'" + program + "' accuracy --threads 100000 --shots 0").status, 0);
    EXPECT_NE(shell("'" + program + "' accuracy --threads -5 --shots 0").status, 0);
    const std::string rate = "'" + program + "' rate --start 12 --return 17 --capture-rate ";
    for (const char* ending : {"1e308", "1e-308", "nan", "inf", "-240", "0"}) {
        const auto done = shell(rate + ending);
        EXPECT_TRUE(done.status == 1 || done.status == 2) << ending;
        EXPECT_GT(done.errors.size(), 20U);
    }
    const auto narrow = shell(rate + "240 --start-spread 1e-10");
    EXPECT_EQ(narrow.status, 0) << narrow.errors;
    // As with an exact start: 5 frames at 240 frames per second are 2880 rpm.
    EXPECT_NE(narrow.output.find("2880.0 rpm"), std::string::npos) << narrow.output;
}

TEST_F(HostileCommands, PicturesAreRemovedForGoodByADayOfTheCalendarOnly) {
    for (const std::string day : {"2026-13-45", "2026-02-30", "2026-1-1", "yesterday", ""}) {
        const auto done =
            tests::runProgram({program, "evidence", project, "--prune-before=" + day, "--confirm"});
        EXPECT_NE(done.status, 0) << day;
    }
}

}  // namespace
