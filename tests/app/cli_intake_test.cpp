#include <fcntl.h>
#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <csignal>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <optional>
#include <random>
#include <thread>

#include "core/project/store.h"
#include "tests/support/process.h"
#include "tests/support/reference_csv.h"

/// Taking in a filming day by the real program, killed as often as it may be.
namespace {

namespace fs = std::filesystem;

class IntakeCommand : public testing::Test {
protected:
    IntakeCommand() {
        fs::create_directories(card);
        for (const char* film : {"half_120fps.mp4", "band_240fps.mp4"}) {
            fs::copy_file(tests::dataFolder() / "footage" / film, card / film);
        }
    }
    /// With shots found and read.
    [[nodiscard]] std::vector<std::string> commandFor(const std::string& project) const {
        return {TURNMARK_CLI, "intake", folder.file(project), card.string(),
                "--session",  "day",    "--find-shots",       "--read"};
    }
    /// Everything that counts of a project: clips, shots and what was read, in order.
    [[nodiscard]] std::string contentOf(const std::string& project) const {
        const auto opened = core::project::Store::open(folder.path() / project);
        if (!opened) {
            return opened.error().message;
        }
        const auto& store = *opened.value();
        const auto snapshot = store.snapshot();
        std::string content = "sessions " + std::to_string(snapshot->sessions.size()) + '\n';
        for (const auto& clip : snapshot->clips) {
            content += std::to_string(clip.id.value) + ' ' + clip.path + ' ' + clip.fingerprint;
            for (const auto& remark : core::project::allRemarks(clip)) {
                content += ' ' + remark.kind;
            }
            content += clip.wasSearchedForShots ? " searched" : "";
            content += '\n';
        }
        for (const auto* shot : core::project::shotsInOrder(*snapshot)) {
            const auto archive = store.archiveOf(shot->id);
            content += std::to_string(shot->clip.value) + ' ' +
                       std::to_string(shot->firstFrame.value) + ' ' +
                       std::to_string(shot->lastFrame.value) + ' ' +
                       (archive && archive.value() ? archive.value()->key + archive.value()->bytes
                                                   : "not read") +
                       '\n';
        }
        return content;
    }
    tests::TemporaryFolder folder;
    fs::path card{folder.path() / "card"};
};

/// Runs a program and kills it after a while; its status, or nothing when it was killed.
std::optional<int> runUntil(const std::vector<std::string>& command,
                            std::chrono::milliseconds limit) {
    const pid_t child = fork();
    if (child == 0) {
        const int nowhere = open("/dev/null", O_WRONLY);
        dup2(nowhere, STDOUT_FILENO);
        dup2(nowhere, STDERR_FILENO);
        std::vector<char*> arguments;
        for (const auto& argument : command) {
            arguments.push_back(const_cast<char*>(argument.c_str()));
        }
        arguments.push_back(nullptr);
        execv(arguments.front(), arguments.data());
        _exit(127);
    }
    const auto end = std::chrono::steady_clock::now() + limit;
    int status = 0;
    while (waitpid(child, &status, WNOHANG) == 0) {
        if (std::chrono::steady_clock::now() >= end) {
            kill(child, SIGKILL);
            waitpid(child, &status, 0);
            break;
        }
        std::this_thread::sleep_for(std::chrono::milliseconds{1});
    }
    return WIFEXITED(status) ? std::optional{WEXITSTATUS(status)} : std::nullopt;
}

TEST_F(IntakeCommand, TakesAFolderInAndSaysWhatItDid) {
    std::ofstream{card / "broken.mp4"} << "no film\n";
    const auto done = tests::runProgram(
        {TURNMARK_CLI, "intake", folder.file("p.turnmark"), card.string(), "--session", "day"});
    EXPECT_EQ(done.status, 1);
    EXPECT_NE(done.output.find("2 clips added, 0 already there"), std::string::npos) << done.output;
    EXPECT_NE(done.errors.find("adding clips 3 of 3 (100 %)"), std::string::npos) << done.errors;
    EXPECT_NE(done.errors.find("broken.mp4: "), std::string::npos) << done.errors;
    fs::remove(card / "broken.mp4");
    const auto again = tests::runProgram(
        {TURNMARK_CLI, "intake", folder.file("p.turnmark"), card.string(), "--session", "day"});
    EXPECT_EQ(again.status, 0) << again.errors;
    EXPECT_NE(again.output.find("0 clips added, 2 already there"), std::string::npos);
}

/// A film whose pictures change from one size to another in the middle.
void filmTwoSizes(const fs::path& film) {
    const tests::TemporaryFolder parts;
    std::ofstream list{parts.path() / "list"};
    for (const char* size : {"1280x720", "640x480"}) {
        const auto part = parts.file(std::string{size} + ".ts");
        ASSERT_EQ(tests::runProgram({"ffmpeg", "-v", "error", "-f", "lavfi", "-i",
                                     std::string{"testsrc2=rate=240:size="} + size, "-frames:v",
                                     "60", "-c:v", "libx264", "-pix_fmt", "yuv420p", part})
                      .status,
                  0);
        list << "file '" << part << "'\n";
    }
    list.close();
    ASSERT_EQ(tests::runProgram({"ffmpeg", "-v", "error", "-f", "concat", "-safe", "0", "-i",
                                 parts.file("list"), "-c", "copy", film.string()})
                  .status,
              0);
}

TEST_F(IntakeCommand, AFilmWhosePictureSizeChangesIsNamedAndTheOthersAreDone) {
    filmTwoSizes(card / "a.ts");
    const std::vector<std::string> command{TURNMARK_CLI, "intake", folder.file("p.turnmark"),
                                           card.string(), "--find-shots"};
    const auto done = tests::runProgram(command);
    EXPECT_EQ(done.status, 1) << done.errors;
    EXPECT_NE(done.errors.find("Frame 60 is 640 × 480 pixels large and the clip 1280 × 720"),
              std::string::npos)
        << done.errors;
    EXPECT_NE(done.output.find("2 clips searched, 2 shots found"), std::string::npos)
        << done.output;
    EXPECT_EQ(tests::runProgram(command).status, 1);  // named again, and nothing worse
}

// TURNMARK_KILLS sets how often it is killed; the time of each is drawn (seeded) up to the time
// that a whole run takes.
TEST_F(IntakeCommand, KilledAnywhereItGoesOnWithoutDuplicateOrLoss) {
    const auto began = std::chrono::steady_clock::now();
    ASSERT_EQ(tests::runProgram(commandFor("whole.turnmark")).status, 0);
    const auto whole = std::chrono::duration_cast<std::chrono::milliseconds>(
        std::chrono::steady_clock::now() - began);
    const char* wished = std::getenv("TURNMARK_KILLS");
    const int kills = wished != nullptr ? std::atoi(wished) : 4;
    std::mt19937 random{6};
    std::uniform_int_distribution<std::int64_t> moment{1, whole.count()};
    const auto command = commandFor("killed.turnmark");
    int killed = 0;
    for (int i = 0; i < kills; ++i) {
        const auto status = runUntil(command, std::chrono::milliseconds{moment(random)});
        ASSERT_TRUE(!status || *status == 0) << *status;
        killed += status ? 0 : 1;
        if (status) {
            EXPECT_EQ(contentOf("killed.turnmark"), contentOf("whole.turnmark"));
            fs::remove(folder.path() / "killed.turnmark");
        }
    }
    EXPECT_GE(killed, 1);
    const auto done = tests::runProgram(command);
    ASSERT_EQ(done.status, 0) << done.errors;
    EXPECT_EQ(contentOf("killed.turnmark"), contentOf("whole.turnmark"));
    EXPECT_EQ(contentOf("whole.turnmark").find("not read"), std::string::npos);
    const auto check = tests::runProgram({TURNMARK_CLI, "check", folder.file("killed.turnmark")});
    EXPECT_EQ(check.status, 0) << check.errors;
}

}  // namespace
