#include "core/project/backups.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <fstream>
#include <thread>

#include "core/base/files.h"
#include "tests/core/project/project_maker.h"
#include "tests/core/project/random_edits.h"
#include "tests/support/process.h"

namespace tests::project {
namespace {

namespace fs = std::filesystem;
using namespace core::project;
using core::ErrorCode;

class Backups : public ::testing::Test {
protected:
    void SetUp() override {
        store = Store::create(file).value();
        small = fill(*store);
    }
    std::string contentOfFile(const fs::path& of) {
        const auto opened = Store::openReadOnly(of);
        return opened ? contentOf(*opened.value()->snapshot()) : opened.error().message;
    }
    /// A copy made now, under an earlier name: two in one second would have one name.
    Backup made(const std::string& at) {
        const auto backup = makeBackup(file).value().value();
        const auto name = backup.file.parent_path() / fmt::format("p {}.turnmark", at);
        fs::rename(backup.file, name);
        return backupsOf(file).back();
    }

    TemporaryFolder folder;
    fs::path file = folder.path() / "p.turnmark";
    std::unique_ptr<Store> store;
    SmallProject small;
};

TEST_F(Backups, R31_ACopyIsAWholeProjectAndMadeOnlyAfterAChange) {
    const auto first = makeBackup(file);
    ASSERT_TRUE(first) << first.error().message;
    ASSERT_TRUE(first.value());
    EXPECT_EQ(first.value()->file.parent_path(), folder.path() / "p backups");
    EXPECT_EQ(contentOfFile(first.value()->file), contentOf(*store->snapshot()));
    EXPECT_FALSE(makeBackup(file).value());
    ASSERT_TRUE(store->setReader("B. Reader"));
    ::usleep(1'100'000);  // names go by the second
    EXPECT_TRUE(makeBackup(file).value());
    EXPECT_EQ(backupsOf(file).size(), 2U);
}

/// A program that was ended by force while it copied leaves its folder, which nobody sees and which
/// may be as large as the project; one in use is another program's.
TEST_F(Backups, WhatAStoppedProgramHasLeftGoesWithTheNextCopy) {
    const fs::path left = folder.path() / "p backups" / ".turnmark-part-aB3xYz";
    fs::create_directories(left);
    std::ofstream{left / "copy"} << "half of a copy";
    const auto inUse = core::StagingFolder::in(folder.path() / "p backups");
    ASSERT_TRUE(inUse);
    ASSERT_TRUE(makeBackup(file));
    EXPECT_FALSE(fs::exists(left));
    EXPECT_TRUE(fs::exists(inUse.value().path()));
}

TEST_F(Backups, AreMadeWhileTheProjectIsWrittenTo) {
    RandomEditor editor{*store, 3};
    for (int i = 0; i < 60; ++i) {
        (void)editor.edit();
    }
    core::Result<std::optional<Backup>> backup = std::optional<Backup>{};
    std::thread copying{[&] { backup = makeBackup(file); }};
    for (int i = 0; i < 60; ++i) {
        (void)editor.edit();
    }
    copying.join();
    ASSERT_TRUE(backup && backup.value()) << backup.error().message;
    const auto copy = Store::openReadOnly(backup.value()->file);
    ASSERT_TRUE(copy) << copy.error().message;
    EXPECT_EQ(copy.value()->faults().value(), std::vector<std::string>{});
    EXPECT_EQ(store->faults().value(), std::vector<std::string>{});
}

TEST_F(Backups, TheNewestTenAndOneADayForFourteenDaysStay) {
    std::vector<Backup> all;
    for (int hour = 0; hour < 24; ++hour) {  // 24 today, the newest at 23:00
        all.push_back({"", fmt::format("2026-05-30T{:02}:00:00Z", hour), 0});
    }
    for (int day = 1; day < 30; ++day) {  // two on each day before
        all.push_back({"", fmt::format("2026-05-{:02}T08:00:00Z", day), 0});
        all.push_back({"", fmt::format("2026-05-{:02}T20:00:00Z", day), 0});
    }
    const auto goes = backupsToLetGo(all);
    // 10 of today, and the evening ones of the 13 days before: 23 of 24 + 58 stay.
    EXPECT_EQ(goes.size(), 24U + 58U - 23U);
    for (const Backup& gone : goes) {
        EXPECT_FALSE(gone.madeAt >= "2026-05-30T14") << gone.madeAt;
        EXPECT_FALSE(gone.madeAt > "2026-05-17" && gone.madeAt < "2026-05-30" &&
                     gone.madeAt.substr(11, 2) == "20")
            << gone.madeAt;
    }
}

/// A clock that was set back: the copies that are there seem to come from years to come.
TEST_F(Backups, ACopyMadeNowStaysWhateverTheClockSays) {
    const Backup first = made("2099-01-01T00.00.00Z");
    for (int day = 2; day < 28; ++day) {
        fs::copy_file(first.file, first.file.parent_path() /
                                      fmt::format("p 2099-01-{:02}T00.00.00Z.turnmark", day));
    }
    ASSERT_TRUE(store->setReader("B. Reader"));
    const auto backup = makeBackup(file);
    ASSERT_TRUE(backup && backup.value());
    EXPECT_EQ(contentOfFile(backup.value()->file), contentOf(*store->snapshot()));
}

TEST_F(Backups, AFolderThatCannotBeMadeIsSaidAndTheProjectGoesOn) {
    std::ofstream{folder.path() / "p backups"} << "a file of that name";
    const auto backup = makeBackup(file);
    ASSERT_FALSE(backup);
    EXPECT_EQ(backup.error().code, ErrorCode::WriteFailed);
    EXPECT_TRUE(store->setReader("goes on"));
}

TEST_F(Backups, PreviewSaysWhatIsInside) {
    ASSERT_TRUE(store->keepReading(readingOf(small.shots[0], 1490)));
    const auto preview = previewOf(makeBackup(file).value().value());
    EXPECT_EQ(preview.trouble, "");
    EXPECT_EQ(preview.shots, 3U);
    EXPECT_EQ(preview.kept, 1U);
    EXPECT_EQ(preview.readings, 1U);
    EXPECT_EQ(preview.lastLine->what, store->history().value().back().what);
}

TEST_F(Backups, RestoringKeepsWhatWasThere) {
    const Backup backup = made("2026-05-03T09.41.07Z");
    const std::string then = contentOf(*store->snapshot());
    ASSERT_TRUE(store->addHitter({{}, "hitter Z"}));
    const std::string now = contentOf(*store->snapshot());
    EXPECT_EQ(restoreBackup(file, backup.file).error().code, ErrorCode::Busy);
    store.reset();
    const auto aside = restoreBackup(file, backup.file);
    ASSERT_TRUE(aside) << aside.error().message;
    EXPECT_EQ(contentOfFile(file), then);
    EXPECT_EQ(contentOfFile(aside.value()), now);
    EXPECT_TRUE(fs::exists(backup.file));
    EXPECT_TRUE(Store::open(file));
}

TEST_F(Backups, ADamagedProjectIsReplacedAndKeptWithItsJournal) {
    const Backup backup = made("2026-05-03T09.41.07Z");
    store.reset();
    std::ofstream{file, std::ios::binary} << "scribble";
    std::ofstream{fs::path{file} += "-journal", std::ios::binary} << "of an unfinished change";
    const auto aside = restoreBackup(file, backup.file);
    ASSERT_TRUE(aside) << aside.error().message;
    EXPECT_TRUE(Store::open(file));
    EXPECT_EQ(tests::bytesOf(aside.value()), "scribble");
    EXPECT_EQ(tests::bytesOf(fs::path{aside.value()} += "-journal"), "of an unfinished change");
}

TEST_F(Backups, FilesOfOthersBesideTheProjectStay) {
    const fs::path part = fs::path{file} += ".part";
    std::ofstream{part} << "mine";
    const Backup backup = made("2026-05-03T09.41.07Z");
    store.reset();
    ASSERT_TRUE(restoreBackup(file, backup.file));
    EXPECT_EQ(tests::bytesOf(part), "mine");
    fs::rename(part, folder.path() / "new.turnmark.part");
    ASSERT_TRUE(Store::create(folder.path() / "new.turnmark"));
    EXPECT_EQ(tests::bytesOf(folder.path() / "new.turnmark.part"), "mine");
}

TEST_F(Backups, AProjectThatIsGoneComesBack) {
    const Backup backup = made("2026-05-03T09.41.07Z");
    store.reset();
    fs::remove(file);
    EXPECT_EQ(restoreBackup(file, backup.file).value(), fs::path{});
    EXPECT_TRUE(Store::open(file));
}

TEST_F(Backups, ADamagedCopyIsRefusedAndNothingChanges) {
    const Backup backup = made("2026-05-03T09.41.07Z");
    store.reset();
    fs::resize_file(backup.file, fs::file_size(backup.file) / 2);
    const std::string before = tests::bytesOf(file);
    const auto names = folder.names();
    EXPECT_EQ(restoreBackup(file, backup.file).error().code, ErrorCode::Damaged);
    EXPECT_EQ(tests::bytesOf(file), before);
    EXPECT_EQ(folder.names(), names);
    EXPECT_NE(previewOf(backup).trouble, "");
}

}  // namespace
}  // namespace tests::project
