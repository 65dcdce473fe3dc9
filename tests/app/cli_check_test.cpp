#include <gtest/gtest.h>

#include <filesystem>
#include <functional>
#include <limits>

#include "core/project/file/database.h"
#include "tests/support/demo_copy.h"
#include "tests/support/must.h"

/// `check` of projects with values that no row check shows: another program has put them there and
/// sealed the rows anew (core/project/FORMAT.md R08).
namespace {

using core::project::Database;
using core::project::Row;
using core::project::Value;
using tests::must;

class CheckCommand : public ::testing::Test {
protected:
    /// Changes one value of the first row of a table.
    void plant(const std::string& table, const std::string& column,
               const std::function<Value(const Value&)>& change) {
        const auto database = must(Database::open(project));
        const auto triggers =
            must(database->query("SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'"));
        for (const Row& trigger : triggers) {
            must(database->execute("DROP TRIGGER " + std::get<std::string>(trigger[0])));
        }
        const auto columns =
            must(database->query("SELECT name FROM pragma_table_info('" + table + "')"));
        Row row = must(database->query("SELECT * FROM " + table + " LIMIT 1")).at(0);
        row.pop_back();
        std::string assignments;
        for (std::size_t i = 0; i < columns.size(); ++i) {
            const auto& name = std::get<std::string>(columns[i][0]);
            assignments += (i == 0 ? "" : ", ") + name + " = ?";
            if (name == column) {
                row[i] = change(row[i]);
            }
        }
        const Value id = row.front();
        const std::string idColumn = std::get<std::string>(columns[0][0]);
        Row parameters = core::project::sealed(std::move(row));
        parameters.push_back(id);
        must(database->run(
            "UPDATE " + table + " SET " + assignments + " WHERE " + idColumn + " = ?", parameters));
        for (const Row& trigger : triggers) {
            must(database->execute(std::get<std::string>(trigger[1])));
        }
    }
    void plantInfinity(const std::string& table, const std::string& column) {
        plant(table, column,
              [](const Value&) { return Value{std::numeric_limits<double>::infinity()}; });
    }
    void expectFound(const std::string& words) {
        const auto done = tests::runProgram({TURNMARK_CLI, "check", project.string()});
        EXPECT_EQ(done.status, 1);
        EXPECT_NE(done.errors.find(words), std::string::npos) << done.errors;
        EXPECT_EQ(done.output.find("sound"), std::string::npos) << done.output;
    }

    tests::DemoCopy demo;
    std::filesystem::path project = demo.project();
};

TEST_F(CheckCommand, FindsNothingInTheDemo) {
    const auto done = tests::runProgram({TURNMARK_CLI, "check", project.string()});
    EXPECT_EQ(done.status, 0) << done.errors;
    EXPECT_NE(done.output.find("sound\n"), std::string::npos) << done.output;
}

TEST_F(CheckCommand, NamesTheClipOfAnInfiniteNumber) {
    plantInfinity("reading", "rate_sigma_rpm");
    expectFound("Reading 1 of shot 1 of clip strings_1_hitter_A.mp4: rate_sigma_rpm is no finite");
    const std::string rescued = project.parent_path() / "rescued.turnmark";
    const auto done =
        tests::runProgram({TURNMARK_CLI, "rescue", project.string(), "--to", rescued});
    EXPECT_NE(done.output.find("lost: reading 1: rate_sigma_rpm is no finite number"),
              std::string::npos)
        << done.output << done.errors;
    EXPECT_EQ(tests::runProgram({TURNMARK_CLI, "check", rescued}).status, 0);
    plantInfinity("clip", "clock_relative_sigma");
    expectFound("Clip strings_1_hitter_A.mp4: clock_relative_sigma is no finite number");
}

// Not-a-number cannot be planted: SQLite keeps it as NULL
// (https://www.sqlite.org/c3ref/bind_blob.html).
TEST_F(CheckCommand, ANumberThatIsNoneIsRefused) {
    const auto database = must(Database::open(project));
    const auto done = database->run("UPDATE clip SET clock_relative_sigma = ? WHERE id = 1",
                                    {std::numeric_limits<double>::quiet_NaN()});
    EXPECT_FALSE(done);
}

TEST_F(CheckCommand, NamesTheShotWhoseInputsAreBroken) {
    plant("reading", "inputs_json", [](const Value&) { return Value{std::string{"{\"a\":"}}; });
    expectFound("Reading 1 of shot 1 of clip strings_1_hitter_A.mp4 cannot be computed again");
}

TEST_F(CheckCommand, NamesTheShotWhosePicturesCannotBeDecoded) {
    plant("evidence", "pictures", [](const Value& before) {
        return Value{core::project::Blob(std::get<core::project::Blob>(before).size())};
    });
    expectFound("The kept pictures of shot 1 of clip strings_1_hitter_A.mp4 cannot be decoded");
}

TEST_F(CheckCommand, NamesTheStepThatCannotBeUndone) {
    plant("undo_step", "changeset", [](const Value& before) {
        auto bytes = std::get<core::project::Blob>(before);
        bytes.resize(bytes.size() / 2);
        return Value{bytes};
    });
    expectFound("Step 1 of undo, line ");
    plant("undo_position", "last_done_step_id",
          [](const Value&) { return Value{std::int64_t{99999}}; });
    expectFound("behind the last one there was");
}

}  // namespace
