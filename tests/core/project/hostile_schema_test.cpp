#include <gtest/gtest.h>
#include <sqlite3.h>

#include <fstream>
#include <iterator>

#include "tests/core/project/project_maker.h"

/// Files whose schema was made to harm whoever opens them: what SQLite would run by itself is held
/// against what a project has before any of it runs (https://www.sqlite.org/security.html, section
/// 1, "untrusted SQLite database files").
namespace tests::project {
namespace {

using namespace core::project;
using core::ErrorCode;
namespace fs = std::filesystem;

struct HostileSchema {
    const char* name;
    const char* sql;
    const char* named;  ///< what the refusal must name
};

void PrintTo(const HostileSchema& schema, std::ostream* out) {
    *out << schema.name;
}

/// Counts without end: what a query of it, or of a view or check that holds it, would do.
#define ENDLESS \
    "(WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n) SELECT count(*) FROM n)"

class HostileProject : public ::testing::TestWithParam<HostileSchema> {
protected:
    HostileProject() { auto store = Store::create(file).value(); }

    void execute(const std::string& sql) const {
        sqlite3* database = nullptr;
        ASSERT_EQ(sqlite3_open(file.c_str(), &database), SQLITE_OK);
        char* error = nullptr;
        EXPECT_EQ(sqlite3_exec(database, sql.c_str(), nullptr, nullptr, &error), SQLITE_OK)
            << error;
        sqlite3_free(error);
        sqlite3_close(database);
    }
    [[nodiscard]] std::string onDisk() const {
        std::ifstream stream{file, std::ios::binary};
        return {std::istreambuf_iterator<char>{stream}, {}};
    }

    TemporaryFolder folder;
    fs::path file = folder.path() / "p.turnmark";
};

TEST_P(HostileProject, R06_IsRefusedUnreadAndStaysAsItIs) {
    execute(GetParam().sql);
    const std::string before = onDisk();
    for (auto* open : {&Store::open, &Store::openReadOnly, &Store::openToRead}) {
        const auto opened = open(file);
        ASSERT_FALSE(opened);
        EXPECT_EQ(opened.error().code, ErrorCode::Damaged);
        EXPECT_NE(opened.error().message.find(GetParam().named), std::string::npos)
            << opened.error().message;
    }
    EXPECT_EQ(onDisk(), before);
}

INSTANTIATE_TEST_SUITE_P(
    Schemas, HostileProject,
    ::testing::Values(
        HostileSchema{"EndlessView",
                      "DROP TABLE hitter; CREATE VIEW hitter AS SELECT " ENDLESS " AS id;",
                      "view hitter"},
        HostileSchema{"AnotherView", "CREATE VIEW extra AS SELECT " ENDLESS ";", "view extra"},
        HostileSchema{"PlantedTrigger",
                      "CREATE TRIGGER extra AFTER INSERT ON history BEGIN DELETE FROM shot; END;",
                      "trigger extra"},
        HostileSchema{"ChangedTrigger",
                      "DROP TRIGGER reading_never_changes; CREATE TRIGGER reading_never_changes "
                      "BEFORE UPDATE ON reading BEGIN SELECT " ENDLESS "; END;",
                      "trigger reading_never_changes"},
        HostileSchema{"EndlessCheck",
                      "PRAGMA writable_schema = ON; UPDATE sqlite_schema SET sql = replace(sql, "
                      "'CHECK (name <> '''')', 'CHECK (length(randomblob(1000000000)) > 0)') "
                      "WHERE name = 'hitter';",
                      "table hitter"},
        HostileSchema{"CheckInOtherWords",
                      "PRAGMA writable_schema = ON; UPDATE sqlite_schema SET sql = replace(sql, "
                      "'CHECK (name <> '''')', 'check/**/(name <> '''' or hex(name))') "
                      "WHERE name = 'hitter';",
                      "table hitter"},
        HostileSchema{"ComputedColumn",
                      "ALTER TABLE hitter ADD COLUMN extra TEXT AS (hex(name)) VIRTUAL;",
                      "table hitter"},
        HostileSchema{"IndexOfAnExpression", "CREATE INDEX extra ON hitter (hex(name));",
                      "index extra"},
        HostileSchema{"AnotherTable", "CREATE TABLE extra (a);", "table extra"}),
    [](const auto& schema) { return std::string{schema.param.name}; });

}  // namespace
}  // namespace tests::project
