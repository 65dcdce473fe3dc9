#include <fcntl.h>
#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>
#include <csignal>

#include <chrono>
#include <cstdlib>
#include <functional>
#include <map>
#include <random>
#include <sstream>
#include <string>
#include <thread>

#include "tests/core/project/project_maker.h"

namespace tests::project {
namespace {

using core::project::Store;

constexpr int kKills = 90;
constexpr int kShortestMs = 30;  // a few edits at least, on a slow disk too
constexpr int kSpreadMs = 150;

/// TURNMARK_KILLS=1000 for a long run.
int killsAsked() {
    const char* asked = std::getenv("TURNMARK_KILLS");
    return asked != nullptr ? std::atoi(asked) : kKills;
}

/// What the killed program had acknowledged: the last edit, the last archive, and the newest
/// pictures of every shot. Archives and pictures carry a rising number.
struct Acknowledged {
    long long revision{};
    std::size_t hash{};
    int lines{};
    std::pair<std::int64_t, int> archive{};
    std::map<std::int64_t, int> pictures;
};

/// Starts the writer, kills it after some time, and gives back its complete lines.
std::string writeAndKill(const std::filesystem::path& file, int seed, int milliseconds) {
    int ends[2];
    if (::pipe2(ends, O_CLOEXEC) != 0) {
        return {};
    }
    const std::string seedText = std::to_string(seed);
    const pid_t child = ::fork();
    if (child == 0) {
        ::dup2(ends[1], STDOUT_FILENO);
        ::execl(KILL_WRITER, KILL_WRITER, file.c_str(), seedText.c_str(), nullptr);
        ::_exit(127);
    }
    ::close(ends[1]);
    std::string output(1, '\0');
    // The time counts from the first acknowledged edit, so that no run ends before it began.
    if (::read(ends[0], output.data(), 1) != 1) {
        output.clear();
    }
    std::thread killer{[child, milliseconds] {
        std::this_thread::sleep_for(std::chrono::milliseconds{milliseconds});
        ::kill(child, SIGKILL);
    }};
    char piece[4096];
    for (ssize_t got = 0; (got = ::read(ends[0], piece, sizeof piece)) > 0;) {
        output.append(piece, static_cast<std::size_t>(got));
    }
    killer.join();
    ::waitpid(child, nullptr, 0);
    ::close(ends[0]);
    return output.substr(0, output.rfind('\n') + 1);
}

Acknowledged lastOf(const std::string& output) {
    Acknowledged last;
    std::istringstream lines{output};
    for (char kind = 0; lines >> kind; ++last.lines) {
        std::int64_t shot = 0;
        int number = 0;
        if (kind == 'E') {
            lines >> last.revision >> last.hash;
        } else if (kind == 'A') {
            lines >> last.archive.first >> last.archive.second;
        } else if (kind == 'V') {
            lines >> shot >> number;
            last.pictures[shot] = number;
        } else {
            ADD_FAILURE() << "a line of another kind: " << kind;
        }
    }
    return last;
}

/// What was noted beside the edits is there, or something newer that was no more acknowledged.
void expectNoted(const Store& store, const Acknowledged& last) {
    if (store.snapshot()->shots.find({last.archive.first}) != nullptr) {
        const auto archive = store.archiveOf({last.archive.first});
        ASSERT_TRUE(archive && archive.value());
        EXPECT_GE(std::stoi(archive.value()->key), last.archive.second);
    }
    for (const auto& [shot, number] : last.pictures) {
        const auto pictures = store.picturesOf({shot});
        ASSERT_TRUE(pictures && pictures.value()) << "shot " << shot;
        EXPECT_GE(std::stoi(pictures.value()->madeAt), number);
    }
}

std::size_t hashOf(const Store& store) {
    return std::hash<std::string>{}(contentOf(*store.snapshot()));
}

/// The content is the acknowledged one. An edit that was complete on the disk and not acknowledged
/// any more may follow it; taking that back must lead there.
void expectAcknowledged(Store& store, const Acknowledged& last) {
    const std::int64_t revision = store.snapshot()->revision;
    if (revision == last.revision) {
        EXPECT_EQ(hashOf(store), last.hash);
        return;
    }
    ASSERT_EQ(revision, last.revision + 1);
    const auto history = store.history();
    ASSERT_TRUE(history) << history.error().message;
    const bool wasUndo = history.value().back().what.starts_with("Undid: ");
    const auto back = wasUndo ? store.redo() : store.undo();
    ASSERT_TRUE(back) << back.error().message;
    EXPECT_EQ(hashOf(store), last.hash);
}

TEST(ProjectFormatKilled, R09_NoAcknowledgedEditIsLostWhenTheWriterIsKilled) {
    const TemporaryFolder folder;
    const auto file = folder.path() / "killed.turnmark";
    {
        auto store = Store::create(file);
        ASSERT_TRUE(store) << store.error().message;
        fill(*store.value());
    }
    std::mt19937 random{20260503};
    int acknowledged = 0;
    const int kills = killsAsked();
    for (int run = 0; run < kills; ++run) {
        const int wait = kShortestMs + static_cast<int>(random() % kSpreadMs);
        const Acknowledged last = lastOf(writeAndKill(file, run, wait));
        ASSERT_GT(last.lines, 0) << "run " << run << " did nothing";
        acknowledged += last.lines;
        auto store = Store::open(file);
        ASSERT_TRUE(store) << "run " << run << ": " << store.error().message;
        expectNoted(*store.value(), last);
        expectAcknowledged(*store.value(), last);
        const auto faults = store.value()->faults();
        ASSERT_TRUE(faults) << faults.error().message;
        EXPECT_EQ(faults.value(), std::vector<std::string>{}) << "run " << run;
    }
    RecordProperty("kills", kills);
    RecordProperty("acknowledged", acknowledged);
    {
        // A journal that was begun and holds nothing yet stays until the next edit; then it goes.
        auto store = Store::open(file);
        ASSERT_TRUE(store) << store.error().message;
        ASSERT_TRUE(store.value()->setReader("after the kills"));
    }
    EXPECT_EQ(folder.names(), std::vector<std::string>{"killed.turnmark"});
}

}  // namespace
}  // namespace tests::project
