#include <gtest/gtest.h>
#include <sys/resource.h>
#include <cerrno>
#include <csignal>

#include <fstream>

#include "core/project/backups.h"
#include "tests/core/project/project_maker.h"
#include "tests/support/disk_steps.h"

/// A disk that is full, write-protected, broken or taken away while a project is open: nothing is
/// half written or lost, the person reads what it is and what to do, and the work goes on once the
/// cause is gone.
namespace tests::project {
namespace {

using namespace core::project;
using core::ErrorCode;
namespace fs = std::filesystem;

/// Names can be made while not a byte can be written, as on many a full disk (setrlimit(2),
/// RLIMIT_FSIZE).
class NoRoom {
public:
    NoRoom() {
        std::signal(SIGXFSZ, SIG_IGN);
        ::getrlimit(RLIMIT_FSIZE, &m_before);
        const rlimit none{0, m_before.rlim_max};
        ::setrlimit(RLIMIT_FSIZE, &none);
    }
    ~NoRoom() { ::setrlimit(RLIMIT_FSIZE, &m_before); }
    NoRoom(const NoRoom&) = delete;
    NoRoom& operator=(const NoRoom&) = delete;

private:
    rlimit m_before{};
};

class DiskThatRefuses : public ::testing::Test {
protected:
    /// An edit of many pages is refused, in these words, and nothing has changed.
    void expectRefused(const std::string& words) {
        const std::string before = contentOf(*store->snapshot());
        const auto edit =
            store->addClip(clipNamed("long.mp4", small.session, 60'000), framesOf(60'000));
        ASSERT_FALSE(edit);
        EXPECT_EQ(edit.error().code, ErrorCode::WriteFailed);
        EXPECT_NE(edit.error().message.find(words), std::string::npos) << edit.error().message;
        EXPECT_NE(edit.error().message.find("all that was kept before stays"), std::string::npos);
        EXPECT_EQ(contentOf(*store->snapshot()), before);
        EXPECT_EQ(store->diskTrouble(), edit.error().message);
        EXPECT_EQ(said, edit.error().message);
    }
    /// The same edits are kept again, and what is in the file is what the window shows.
    void expectGoesOn() {
        ASSERT_TRUE(store->setMarks(small.shots[0], startAndReturn(12, 17)));
        ASSERT_TRUE(store->addClip(clipNamed("long.mp4", small.session, 60'000), framesOf(60'000)));
        EXPECT_EQ(store->diskTrouble(), "");
        EXPECT_EQ(said, "");
        const std::string content = contentOf(*store->snapshot());
        store.reset();
        const auto again = Store::open(file);
        ASSERT_TRUE(again) << again.error().message;
        EXPECT_EQ(contentOf(*again.value()->snapshot()), content);
        EXPECT_EQ(again.value()->faults().value(), std::vector<std::string>{});
    }

    TemporaryFolder folder;
    fs::path inner = fs::path{folder.path() / "bench day"};
    bool isMade = fs::create_directory(inner);
    fs::path file = inner / "p.turnmark";
    std::unique_ptr<Store> store = Store::create(file).value();
    SmallProject small = fill(*store);
    std::string said;
    std::shared_ptr<void> listening =
        store->listenToDisk([this](const std::string& trouble) { said = trouble; });
};

TEST_F(DiskThatRefuses, IsFull) {
    {
        const tests::RefusingDisk full{inner, ENOSPC};
        expectRefused("The disk is full");
        EXPECT_FALSE(store->noteArchive(small.shots[0], {"key", std::string(20'000, 'a')}));
        EXPECT_FALSE(store->undo());
        const auto backup = makeBackup(file);
        ASSERT_FALSE(backup);
        EXPECT_EQ(backup.error().code, ErrorCode::WriteFailed);
        EXPECT_NE(backup.error().message.find("room"), std::string::npos);
        store.reset();
        const auto opened = Store::open(file);
        ASSERT_FALSE(opened);
        EXPECT_NE(opened.error().message.find("The disk is full"), std::string::npos)
            << opened.error().message;
    }
    store = Store::open(file).value();
    listening = store->listenToDisk([this](const std::string& trouble) { said = trouble; });
    said.clear();
    expectGoesOn();
}

TEST_F(DiskThatRefuses, IsWriteProtected) {
    {
        const tests::RefusingDisk readOnly{inner, EROFS};
        expectRefused("may write to the file and its folder");
    }
    expectGoesOn();
}

TEST_F(DiskThatRefuses, IsBroken) {
    {
        const tests::RefusingDisk broken{inner, EIO};
        expectRefused("Check that the disk is there, has room and is sound");
    }
    expectGoesOn();
}

TEST_F(DiskThatRefuses, HasItsFolderTakenAwayAndBroughtBack) {
    fs::rename(inner, folder.path() / "elsewhere");
    expectRefused("is not there any more");
    fs::rename(folder.path() / "elsewhere", inner);
    expectGoesOn();
}

/// SQLite writes into a file without a name as into any other: it would be lost on closing.
TEST_F(DiskThatRefuses, HasTheFileDeleted) {
    fs::remove(file);
    expectRefused("is not there any more");
    store.reset();
    EXPECT_EQ(Store::open(file).error().code, ErrorCode::NotFound);
}

TEST_F(DiskThatRefuses, HasAnotherFileInItsPlace) {
    fs::copy_file(file, folder.path() / "copy");
    fs::rename(folder.path() / "copy", file);
    expectRefused("is not there any more");
    const std::string bytes = tests::bytesOf(file);
    store.reset();
    EXPECT_EQ(tests::bytesOf(file), bytes);
    EXPECT_TRUE(Store::open(file));
}

TEST_F(DiskThatRefuses, IsFullWhenAProjectIsMade) {
    {
        const tests::RefusingDisk full{inner, ENOSPC};
        const auto made = Store::create(inner / "new.turnmark");
        ASSERT_FALSE(made);
        EXPECT_EQ(made.error().code, ErrorCode::WriteFailed);
    }
    EXPECT_FALSE(fs::exists(inner / "new.turnmark"));
    EXPECT_TRUE(Store::create(inner / "new.turnmark"));
}

/// Looking needs no room; whoever wants to write reads why not, and nothing is left behind.
TEST_F(DiskThatRefuses, IsFullWhenAProjectIsOpened) {
    const std::string content = contentOf(*store->snapshot());
    store.reset();
    const NoRoom full;
    auto looked = Store::openReadOnly(file);
    ASSERT_TRUE(looked) << looked.error().message;
    EXPECT_EQ(contentOf(*looked.value()->snapshot()), content);
    looked.value().reset();
    const auto opened = Store::open(file);
    ASSERT_FALSE(opened);
    EXPECT_EQ(opened.error().code, ErrorCode::WriteFailed);
    EXPECT_FALSE(fs::exists(inner / "p.turnmark.open"));
}

/// A refusal for another reason says nothing about the disk.
TEST_F(DiskThatRefuses, IsNotBlamedForWhatAPersonEntered) {
    EXPECT_FALSE(store->setAside(small.shots[0], ""));
    EXPECT_EQ(store->diskTrouble(), "");
    EXPECT_EQ(said, "");
}

}  // namespace
}  // namespace tests::project
