#include "core/project/store/migrations.h"

#include <gtest/gtest.h>

#include <array>

#include "core/project/file/schema.h"
#include "tests/core/project/project_maker.h"

namespace tests::project {
namespace {

using namespace core::project;
using core::ErrorCode;
using core::Result;

/// Two steps of formats to come, made up: each adds a column.
std::vector<Migration> inventedSteps() {
    return {{kSchemaVersion,
             [](Database& db) { return db.execute("ALTER TABLE hitter ADD COLUMN hand TEXT"); }},
            {kSchemaVersion + 1,
             [](Database& db) { return db.execute("ALTER TABLE hitter ADD COLUMN grip TEXT"); }}};
}

class ProjectMigration : public ::testing::Test {
protected:
    ProjectMigration() {
        fill(*Store::create(file).value());
        database = Database::open(file).value();
    }
    [[nodiscard]] std::int64_t version() const {
        return database->integer("PRAGMA user_version").value();
    }

    TemporaryFolder folder;
    std::filesystem::path file = folder.path() / "p.turnmark";
    std::unique_ptr<Database> database;
};

TEST_F(ProjectMigration, R05_StepsRunInOrderAndTheOldFileIsKept) {
    const Result<void> done = migrate(*database, inventedSteps(), kSchemaVersion + 2);
    ASSERT_TRUE(done) << done.error().message;
    EXPECT_EQ(version(), kSchemaVersion + 2);
    EXPECT_TRUE(database->query("SELECT hand, grip FROM hitter"));
    database.reset();
    EXPECT_EQ(folder.names(), (std::vector<std::string>{"p (format 7).turnmark", "p.turnmark"}));
    const auto old = Store::open(folder.path() / "p (format 7).turnmark");
    ASSERT_TRUE(old) << old.error().message;
    EXPECT_EQ(old.value()->snapshot()->hitters.size(), 2U);
    EXPECT_EQ(Store::open(file).error().code, ErrorCode::NewerVersion);
}

TEST_F(ProjectMigration, R05_AFailingStepLeavesTheFileAndNoCopy) {
    auto steps = inventedSteps();
    steps[1].run = [](Database& db) { return db.execute("UPDATE no_such_table SET x = 1"); };
    EXPECT_FALSE(migrate(*database, steps, kSchemaVersion + 2));
    EXPECT_EQ(version(), kSchemaVersion);
    EXPECT_FALSE(database->query("SELECT hand FROM hitter"));
    database.reset();
    EXPECT_EQ(folder.names(), std::vector<std::string>{"p.turnmark"});
    EXPECT_TRUE(Store::open(file));
}

// The refusal says that nothing was changed: that holds for files of older formats too, whose rows
// can only be read once they are up to date.
TEST_F(ProjectMigration, R06_ADamagedFileOfAnOlderFormatStaysAsItIs) {
    const auto old = folder.path() / "old.turnmark";
    std::filesystem::copy_file("project/v3_second.turnmark", old);
    {
        const auto planted = Database::open(old).value();
        ASSERT_TRUE(planted->execute("PRAGMA foreign_keys = OFF"));
        ASSERT_TRUE(planted->run(
            "UPDATE cell SET session_id = ?2, row_check = ?5 WHERE id = ?1",
            sealed({std::int64_t{1}, std::int64_t{77}, std::int64_t{1}, std::int64_t{1}})));
    }
    const std::string before = tests::bytesOf(old);
    const auto opened = Store::open(old);
    ASSERT_FALSE(opened);
    EXPECT_EQ(opened.error().code, ErrorCode::Damaged) << opened.error().message;
    EXPECT_NE(opened.error().message.find("table cell, row 1"), std::string::npos)
        << opened.error().message;
    EXPECT_EQ(tests::bytesOf(old), before);
    EXPECT_FALSE(std::filesystem::exists(folder.path() / "old (format 3).turnmark"));
}

TEST_F(ProjectMigration, R05_ACopyThatIsThereIsNotOverwritten) {
    { Store::create(folder.path() / "p (format 7).turnmark").value(); }
    const Result<void> done = migrate(*database, inventedSteps(), kSchemaVersion + 2);
    ASSERT_FALSE(done);
    EXPECT_EQ(done.error().code, ErrorCode::WriteFailed);
    EXPECT_EQ(version(), kSchemaVersion);
}

TEST_F(ProjectMigration, R05_TheCopyOfAnAttemptThatWasStoppedServes) {
    const auto before = folder.path() / "before";
    database.reset();
    std::filesystem::copy_file(file, before);
    database = Database::open(file).value();
    ASSERT_TRUE(migrate(*database, inventedSteps(), kSchemaVersion + 2));
    database.reset();
    std::filesystem::rename(before, file);  // as before the commit of the steps
    database = Database::open(file).value();
    const Result<void> again = migrate(*database, inventedSteps(), kSchemaVersion + 2);
    ASSERT_TRUE(again) << again.error().message;
    EXPECT_EQ(version(), kSchemaVersion + 2);
    EXPECT_TRUE(Store::open(folder.path() / "p (format 7).turnmark"));
}

TEST_F(ProjectMigration, R05_AMissingStepIsSaid) {
    const std::vector<Migration> none;
    const Result<void> done = migrate(*database, none, kSchemaVersion + 1);
    ASSERT_FALSE(done);
    EXPECT_EQ(done.error().code, ErrorCode::Unsupported);
    EXPECT_EQ(version(), kSchemaVersion);
}

TEST_F(ProjectMigration, R05_ThePresentFormatNeedsNoCopy) {
    EXPECT_TRUE(migrate(*database, inventedSteps(), kSchemaVersion));
    EXPECT_EQ(folder.names().front(), "p.turnmark");
}

TEST(ProjectMigrations, LeadFromTheFirstFormatToThePresentOne) {
    std::int64_t version = 1;
    for (const Migration& step : migrations()) {
        EXPECT_EQ(step.from, version++);
    }
    EXPECT_EQ(version, kSchemaVersion);
}

}  // namespace
}  // namespace tests::project
