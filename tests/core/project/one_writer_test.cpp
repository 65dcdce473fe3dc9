#include <fcntl.h>
#include <gtest/gtest.h>
#include <sqlite3.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>
#include <csignal>

#include <fstream>

#include "core/project/file/writer_lock.h"
#include "tests/core/project/project_maker.h"
#include "tests/support/process.h"
#include "tests/support/reference_csv.h"

namespace tests::project {
namespace {

namespace fs = std::filesystem;
using core::ErrorCode;
using core::project::Store;

/// Another process that edits a project until it is killed.
class OtherWriter {
public:
    explicit OtherWriter(const fs::path& file) {
        int ends[2];
        if (::pipe2(ends, O_CLOEXEC) != 0) {
            return;
        }
        m_process = ::fork();
        if (m_process == 0) {
            ::dup2(ends[1], STDOUT_FILENO);
            ::execl(KILL_WRITER, KILL_WRITER, file.c_str(), "5", nullptr);
            ::_exit(127);
        }
        ::close(ends[1]);
        m_output = ends[0];
        waitForEdit();
    }
    ~OtherWriter() { kill(); }
    OtherWriter(const OtherWriter&) = delete;
    OtherWriter& operator=(const OtherWriter&) = delete;

    [[nodiscard]] int process() const { return m_process; }
    void waitForEdit() const {
        char line[4096];
        ASSERT_GT(::read(m_output, line, sizeof line), 0);
    }
    void kill() {
        if (m_process > 0) {
            ::kill(m_process, SIGKILL);
            ::waitpid(m_process, nullptr, 0);
            ::close(m_output);
            m_process = 0;
        }
    }

private:
    pid_t m_process{};
    int m_output{};
};

class OneWriter : public ::testing::Test {
protected:
    void SetUp() override {
        auto store = Store::create(file).value();
        fill(*store);
    }
    void writeLockOf(const std::string& host, const std::string& bootId) {
        std::ofstream{lock} << R"({"user": "ann", "host": ")" << host
                            << R"(", "program": "turnmark", "process": 4711,)"
                            << R"( "since": "2026-05-03T09:41:07Z", "boot_id": ")" << bootId
                            << "\"}";
    }

    TemporaryFolder folder;
    fs::path file = folder.path() / "p.turnmark";
    fs::path lock = folder.path() / "p.turnmark.open";
};

TEST_F(OneWriter, R30_WhileItIsOpenItsWriterIsNamedBesideIt) {
    {
        const auto store = Store::open(file).value();
        ASSERT_TRUE(fs::exists(lock));
        const std::string said = tests::bytesOf(lock);
        EXPECT_NE(said.find("\"process\": " + std::to_string(::getpid())), std::string::npos);
    }
    EXPECT_EQ(folder.names(), std::vector<std::string>{"p.turnmark"});
}

// Opening a pipe waits for its other end, which may never come (POSIX, open(), O_NONBLOCK).
TEST_F(OneWriter, R30_APipeInThePlaceOfTheLockIsNamedAndNotWaitedFor) {
    ASSERT_EQ(::mkfifo(lock.c_str(), 0600), 0);
    const auto refused = Store::open(file);
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().code, ErrorCode::WriteFailed);
    EXPECT_NE(refused.error().message.find(lock.string() + " is no file"), std::string::npos)
        << refused.error().message;
    EXPECT_TRUE(Store::openReadOnly(file));
}

TEST_F(OneWriter, R01_APipeInThePlaceOfTheJournalIsNamedAndNotWaitedFor) {
    for (const char* end : {"-journal", "-wal", "-shm"}) {
        const fs::path pipe = file.string() + end;
        ASSERT_EQ(::mkfifo(pipe.c_str(), 0600), 0);
        for (auto* open : {&Store::open, &Store::openReadOnly, &Store::openToRead}) {
            const auto refused = open(file);
            ASSERT_FALSE(refused);
            EXPECT_EQ(refused.error().code, ErrorCode::Unreadable);
            EXPECT_NE(refused.error().message.find(pipe.string()), std::string::npos)
                << refused.error().message;
        }
        fs::remove(pipe);
    }
    EXPECT_TRUE(Store::open(file));
}

// 255 bytes are the longest name of nearly every file system (POSIX, NAME_MAX).
TEST_F(OneWriter, ANameThatIsTooLongIsSaidInWords) {
    const auto created = Store::create(folder.path() / (std::string(300, 'a') + ".turnmark"));
    ASSERT_FALSE(created);
    EXPECT_EQ(created.error().code, ErrorCode::WriteFailed) << created.error().message;
    EXPECT_EQ(folder.names(), std::vector<std::string>{"p.turnmark"});
}

TEST_F(OneWriter, R07_AnotherProcessWritesAndThisOneLooksOn) {
    OtherWriter other{file};
    const auto refused = Store::open(file);
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().code, ErrorCode::Busy);
    EXPECT_NE(refused.error().message.find("process " + std::to_string(other.process())),
              std::string::npos)
        << refused.error().message;
    const auto opened = Store::openReadOnly(file);
    ASSERT_TRUE(opened) << opened.error().message;
    Store& store = *opened.value();
    const auto edit = store.addHitter({{}, "hitter Z"});
    ASSERT_FALSE(edit);
    EXPECT_EQ(edit.error().code, ErrorCode::Busy);
    EXPECT_EQ(edit.error().message, store.readOnlyReason());
    EXPECT_NE(store.readOnlyReason().find("project_kill_wr"), std::string::npos);
    EXPECT_EQ(store.noteSetting("a", "b").error().code, ErrorCode::Busy);
    EXPECT_EQ(store.undo().error().code, ErrorCode::Busy);
    const auto before = store.snapshot()->revision;
    other.waitForEdit();
    bool isTold = false;
    const auto listening = store.listen([&isTold](const Store::Change&) { isTold = true; });
    for (int i = 0; i < 1000 && store.snapshot()->revision == before; ++i) {
        ASSERT_TRUE(store.refresh());
        ::usleep(1000);
    }
    EXPECT_GT(store.snapshot()->revision, before);
    EXPECT_TRUE(isTold);
}

TEST_F(OneWriter, R30_AWriterThatWasKilledHoldsNobodyUp) {
    {
        OtherWriter other{file};
        other.kill();
    }
    ASSERT_TRUE(fs::exists(lock));
    {
        const auto looked = Store::openReadOnly(file);
        ASSERT_TRUE(looked) << looked.error().message;
        EXPECT_EQ(looked.value()->readOnlyReason().find("has it open"), std::string::npos);
    }
    {
        const auto store = Store::open(file);
        ASSERT_TRUE(store) << store.error().message;
        EXPECT_TRUE(store.value()->setReader("after the kill"));
    }
    EXPECT_EQ(folder.names(), std::vector<std::string>{"p.turnmark"});
}

TEST_F(OneWriter, R30_ALockFromBeforeTheMachineWasStartedAgainIsTakenOver) {
    char host[256] = {};
    ASSERT_EQ(::gethostname(host, sizeof host - 1), 0);
    writeLockOf(host, "00000000-0000-0000-0000-000000000000");
    EXPECT_TRUE(Store::open(file));
}

TEST_F(OneWriter, R30_ALockOfAnotherMachineIsSaidWithTheWayToClearIt) {
    writeLockOf("elsewhere.example", "00000000-0000-0000-0000-000000000000");
    const auto refused = Store::open(file);
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().code, ErrorCode::Busy);
    for (const std::string part : {"ann on elsewhere.example", "2026-05-03", lock.c_str()}) {
        EXPECT_NE(refused.error().message.find(part), std::string::npos) << refused.error().message;
    }
    ASSERT_TRUE(fs::exists(lock)) << "only a person may clear it";
    EXPECT_NE(Store::openReadOnly(file).value()->readOnlyReason().find("elsewhere.example"),
              std::string::npos);
    fs::remove(lock);
    EXPECT_TRUE(Store::open(file));
}

TEST_F(OneWriter, R30_ASymbolicLinkNamesTheSameProject) {
    fs::create_directory(folder.path() / "elsewhere");
    const auto link = folder.path() / "elsewhere" / "link.turnmark";
    fs::create_symlink(file, link);
    OtherWriter other{link};
    EXPECT_TRUE(fs::exists(lock));
    EXPECT_EQ(Store::open(file).error().code, ErrorCode::Busy);
}

TEST_F(OneWriter, R07_LookingOnWritesNothing) {
    const std::string before = tests::bytesOf(file);
    {
        const auto store = Store::openReadOnly(file).value();
        EXPECT_EQ(store->snapshot()->shots.size(), 3U);
        EXPECT_FALSE(store->history().value().empty());
        EXPECT_EQ(store->faults().value(), std::vector<std::string>{});
        EXPECT_FALSE(store->refresh().value());
    }
    EXPECT_EQ(tests::bytesOf(file), before);
    EXPECT_EQ(folder.names(), std::vector<std::string>{"p.turnmark"});
}

TEST_F(OneWriter, R07_AnOlderFormatIsBroughtUpToDateBeforeItIsLookedAt) {
    fs::remove(file);
    fs::copy_file(tests::dataFolder() / "project" / "v1_small.turnmark", file);
    EXPECT_EQ(Store::openReadOnly(file).error().code, ErrorCode::Unsupported);
    const auto store = Store::openToRead(file);
    ASSERT_TRUE(store) << store.error().message;
    EXPECT_EQ(store.value()->snapshot()->shots.size(), 3U);
}

TEST_F(OneWriter, R07_WhatAForeignProgramWroteMeanwhileIsNotOverwritten) {
    const auto store = Store::open(file).value();
    sqlite3* foreign = nullptr;
    ASSERT_EQ(sqlite3_open(file.c_str(), &foreign), SQLITE_OK);
    EXPECT_EQ(sqlite3_exec(foreign, "DELETE FROM picture_archive; CREATE TABLE t (a);", nullptr,
                           nullptr, nullptr),
              SQLITE_OK);
    sqlite3_close(foreign);
    const auto refused = store->addHitter({{}, "hitter Z"});
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().code, ErrorCode::Contradiction);
}

}  // namespace
}  // namespace tests::project
