#include <gtest/gtest.h>
#include <sqlite3.h>

#include <cstdint>
#include <fstream>
#include <iterator>

#include "core/project/rescue.h"
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
        HostileSchema{"CheckBehindAComment",
                      "PRAGMA writable_schema = ON; UPDATE sqlite_schema SET sql = replace(sql, "
                      "'CHECK (name <> '''')', 'CHECK/*(name <> '''')*/(name GLOB "
                      "''*-*-*-*-*-*-*-*-*-*-*-*.'')') WHERE name = 'hitter'; "
                      "INSERT INTO hitter (name, row_check) "
                      "VALUES (replace(hex(zeroblob(500)), '0', '-'), 0);",
                      "table hitter"},
        HostileSchema{"ComputedColumn",
                      "ALTER TABLE hitter ADD COLUMN extra TEXT AS (hex(name)) VIRTUAL;",
                      "table hitter"},
        HostileSchema{"IndexOfAnExpression", "CREATE INDEX extra ON hitter (hex(name));",
                      "index extra"},
        HostileSchema{"AnotherTable", "CREATE TABLE extra (a);", "table extra"}),
    [](const auto& schema) { return std::string{schema.param.name}; });

/// Pages of b-trees that lead to one another on many ways, so that a small file holds rows without
/// end (https://www.sqlite.org/fileformat2.html, section 1.6). Pages have 4096 bytes.
class EndlessPages : public ::testing::Test {
protected:
    static constexpr std::size_t kPage = 4096;
    static constexpr char kInterior = 5;
    static constexpr char kLeaf = 13;

    EndlessPages() {
        auto store = Store::create(file).value();
        fill(*store);
    }
    static void put(std::string& bytes, std::size_t at, std::size_t number, std::size_t count) {
        for (std::size_t i = 0; i < count; ++i) {
            bytes[at + i] = static_cast<char>(number >> (8 * (count - 1 - i)) & 0xffU);
        }
    }
    /// A page of 401 ways to the page `next`, the first of them to `first`.
    static std::string ways(std::size_t first, std::size_t next) {
        constexpr std::size_t kWays = 400;
        std::string page(kPage, '\0');
        page[0] = kInterior;
        put(page, 3, kWays, 2);
        put(page, 5, kPage - 5 * kWays, 2);
        put(page, 8, next, 4);
        for (std::size_t i = 0; i < kWays; ++i) {
            const std::size_t cell = kPage - 5 * (i + 1);
            put(page, 12 + 2 * i, cell, 2);
            put(page, cell, i == 0 ? first : next, 4);
            page[cell + 4] = 1;  // the key
        }
        return page;
    }
    /// The file with one way from the page `root` to what was there, and then 400^4 to `leaf`.
    static std::string withWays(std::string bytes, std::size_t root, const std::string& leaf) {
        constexpr std::size_t kBytesMoved = 512;  // its header and where its cells are
        const std::size_t header = root == 1 ? 100 : 0;
        const std::size_t at = (root - 1) * kPage;
        const std::size_t last = bytes.size() / kPage;
        std::string old = bytes.substr(at, kPage);
        old.replace(0, kBytesMoved, old.substr(header, kBytesMoved));
        bytes += old;
        for (std::size_t way = last + 2; way < last + 6; ++way) {
            bytes += ways(way == last + 2 ? last + 1 : way + 1, way + 1);
        }
        bytes += leaf;
        if (root == 1) {  // the one page that may be a way without a cell
            put(bytes, at + header, kInterior, 1);
            put(bytes, at + header + 1, 0, 4);
            put(bytes, at + header + 8, last + 2, 4);
        } else {
            bytes.replace(at, kPage, ways(last + 1, last + 2));
        }
        put(bytes, 28, bytes.size() / kPage, 4);
        return bytes;
    }
    /// A leaf with one row of the id 1.
    static std::string leafWith(const std::string& row) {
        std::string leaf(kPage, '\0');
        const std::size_t cell = kPage - row.size() - 2;
        leaf[0] = kLeaf;
        put(leaf, 3, 1, 2);
        put(leaf, 5, cell, 2);
        put(leaf, 8, cell, 2);
        put(leaf, cell, row.size(), 1);
        put(leaf, cell + 1, 1, 1);
        leaf.replace(cell + 2, row.size(), row);
        return leaf;
    }
    void write(const std::string& bytes) const {
        std::ofstream{file, std::ios::binary | std::ios::trunc} << bytes;
    }

    TemporaryFolder folder;
    fs::path file = folder.path() / "p.turnmark";
};

/// SQLite reads the schema before anything can be held against it.
TEST_F(EndlessPages, R06_ASchemaWithoutEndIsRefused) {
    // An index of SQLite's own, which may be named again and again: five columns (section 2.1).
    const std::string row = std::string{"\x06\x17\x41\x1b\x01\x00", 6} +
                            "indexsqlite_autoindex_setting_1setting" + '\x03';
    const std::string hostile = withWays(tests::bytesOf(file), 1, leafWith(row));
    write(hostile);
    for (auto* open : {&Store::open, &Store::openReadOnly, &Store::openToRead}) {
        const auto opened = open(file);
        ASSERT_FALSE(opened);
        EXPECT_EQ(opened.error().code, ErrorCode::Damaged);
        EXPECT_NE(opened.error().message.find("would not come to an end"), std::string::npos)
            << opened.error().message;
    }
    EXPECT_EQ(tests::bytesOf(file), hostile);
    EXPECT_FALSE(rescueProject(file, folder.path() / "rescued.turnmark"));
}

/// What is saved of a table ends where its ids do not go on.
TEST_F(EndlessPages, RowsWithoutEndAreRefusedAndRescuedUpToThere) {
    const std::string bytes = tests::bytesOf(file);
    sqlite3* database = nullptr;
    ASSERT_EQ(sqlite3_open(file.c_str(), &database), SQLITE_OK);
    sqlite3_stmt* statement = nullptr;
    sqlite3_prepare_v2(database, "SELECT rootpage FROM sqlite_schema WHERE name = 'hitter'", -1,
                       &statement, nullptr);
    ASSERT_EQ(sqlite3_step(statement), SQLITE_ROW);
    const auto root = static_cast<std::size_t>(sqlite3_column_int64(statement, 0));
    sqlite3_finalize(statement);
    sqlite3_close(database);
    const std::string leaf = bytes.substr((root - 1) * kPage, kPage);
    write(withWays(bytes, root, leaf));
    EXPECT_EQ(Store::open(file).error().code, ErrorCode::Damaged);
    const fs::path rescued = folder.path() / "rescued.turnmark";
    const auto done = rescueProject(file, rescued);
    ASSERT_TRUE(done) << done.error().message;
    EXPECT_EQ(done.value().lostCount(), 1U);
    EXPECT_EQ(Store::open(rescued).value()->snapshot()->hitters.size(), 2U);
}

/// SQLite deletes the file that a journal names as its super-journal when no database is left that
/// names it too (https://www.sqlite.org/atomiccommit.html, section 5.5).
TEST_F(EndlessPages, R06_AJournalThatHasAnotherFileDeletedIsRefused) {
    const fs::path diary = folder.path() / "diary.txt";
    std::ofstream{diary} << "dear diary";
    const std::string name = diary.string();
    std::uint32_t sum = 0;
    for (const char each : name) {
        sum += static_cast<std::uint32_t>(each);
    }
    const auto number = [](std::uint32_t value) {
        std::string bytes;
        for (const int shift : {24, 16, 8, 0}) {
            bytes += static_cast<char>((value >> static_cast<unsigned>(shift)) & 0xFFU);
        }
        return bytes;
    };
    const fs::path journal = folder.path() / "p.turnmark-journal";
    std::ofstream{journal, std::ios::binary} << std::string(512, 'x') << number(1) << name
                                             << number(static_cast<std::uint32_t>(name.size()))
                                             << number(sum) << "\xd9\xd5\x05\xf9\x20\xa1\x63\xd7";
    for (auto* open : {&Store::open, &Store::openReadOnly, &Store::openToRead}) {
        const auto opened = open(file);
        EXPECT_TRUE(fs::exists(diary));
        ASSERT_FALSE(opened);
        EXPECT_EQ(opened.error().code, ErrorCode::ForeignFile) << opened.error().message;
    }
    EXPECT_FALSE(rescueProject(file, folder.path() / "rescued.turnmark"));
    EXPECT_TRUE(fs::exists(diary));
    EXPECT_TRUE(fs::exists(journal));
}

}  // namespace
}  // namespace tests::project
