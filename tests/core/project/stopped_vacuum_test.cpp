#include <gtest/gtest.h>
#include <sqlite3.h>

#include <algorithm>

#include "tests/core/project/project_maker.h"

/// A stop between the commit of a VACUUM and the shortening of the file that follows it (pager.c of
/// SQLite, pager_end_transaction): the file is longer than its header says. That is no damage: how
/// many pages belong to it is what the header says (https://www.sqlite.org/fileformat2.html,
/// in-header database size).
namespace tests::project {
namespace {

using namespace core::project;
namespace fs = std::filesystem;

/// SQLite's own file functions. What is done to the length of a database is noted, and left out
/// when told so, as a stop does.
class WatchedLengths {
public:
    WatchedLengths() {
        s_calls.clear();
        s_leavesOut = false;
        s_original = sqlite3_vfs_find(nullptr);
        m_watched = *s_original;
        m_watched.zName = "watched lengths";
        m_watched.xOpen = [](sqlite3_vfs*, const char* name, sqlite3_file* file, int flags,
                             int* taken) {
            const int code = s_original->xOpen(s_original, name, file, flags, taken);
            if (code == SQLITE_OK && (flags & SQLITE_OPEN_MAIN_DB) != 0) {
                s_methods = *file->pMethods;
                s_own = *file->pMethods;
                s_own.xTruncate = [](sqlite3_file* shortened, sqlite3_int64 size) {
                    s_calls.emplace_back("truncate");
                    return s_leavesOut ? SQLITE_OK : s_methods.xTruncate(shortened, size);
                };
                s_own.xSync = [](sqlite3_file* synced, int how) {
                    s_calls.emplace_back("sync");
                    return s_methods.xSync(synced, how);
                };
                file->pMethods = &s_own;
            }
            return code;
        };
        sqlite3_vfs_register(&m_watched, 1);
    }
    ~WatchedLengths() {
        sqlite3_vfs_unregister(&m_watched);
        sqlite3_vfs_register(s_original, 1);
    }
    WatchedLengths(const WatchedLengths&) = delete;
    WatchedLengths& operator=(const WatchedLengths&) = delete;

    static void leaveOut() { s_leavesOut = true; }
    static std::vector<std::string>& calls() { return s_calls; }

private:
    static inline sqlite3_vfs* s_original{};
    static inline sqlite3_io_methods s_methods{};
    static inline sqlite3_io_methods s_own{};
    static inline std::vector<std::string> s_calls;
    static inline bool s_leavesOut{};
    sqlite3_vfs m_watched{};
};

class StoppedVacuum : public ::testing::Test {
protected:
    StoppedVacuum() {
        const StoredPictures large{
            "2026-05-03T09:41:07Z",
            "image/webp",
            {{{12}, 0.05, 310.0, 99.0, 88.0, 88, {}, std::string(300'000, 'x')}}};
        EXPECT_TRUE(store->notePictures(small.shots[0], large));
    }
    core::Result<void> dropPictures() { return store->dropPictures(std::vector{small.shots[0]}); }

    TemporaryFolder folder;
    WatchedLengths lengths;
    fs::path file = folder.path() / "p.turnmark";
    std::unique_ptr<Store> store = Store::create(file).value();
    SmallProject small = fill(*store);
};

TEST_F(StoppedVacuum, R06_AFileLongerThanItsHeaderSaysIsNotDamaged) {
    const std::string content = contentOf(*store->snapshot());
    const auto before = fs::file_size(file);
    WatchedLengths::leaveOut();
    ASSERT_TRUE(dropPictures());
    store.reset();
    ASSERT_EQ(fs::file_size(file), before);  // as after the stop: not yet shortened
    auto opened = Store::open(file);
    ASSERT_TRUE(opened) << opened.error().message;
    EXPECT_EQ(contentOf(*opened.value()->snapshot()), content);
    EXPECT_EQ(opened.value()->faults().value(), std::vector<std::string>{});
    EXPECT_TRUE(opened.value()->setMarks(small.shots[0], startAndReturn(12, 17)));
    opened.value().reset();
    EXPECT_TRUE(Store::openReadOnly(file));
}

TEST_F(StoppedVacuum, R09_TheShorterLengthIsBroughtToTheDisk) {
    WatchedLengths::calls().clear();
    ASSERT_TRUE(dropPictures());
    const std::vector<std::string>& calls = WatchedLengths::calls();
    ASSERT_TRUE(std::find(calls.begin(), calls.end(), "truncate") != calls.end());
    EXPECT_EQ(calls.back(), "sync");
}

}  // namespace
}  // namespace tests::project
