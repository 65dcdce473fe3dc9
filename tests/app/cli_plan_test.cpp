#include <gtest/gtest.h>

#include <fstream>
#include <nlohmann/json.hpp>

#include "core/project/store.h"
#include "tests/support/process.h"

namespace {

using nlohmann::json;

/// The commands plan, assign and tallies on a new project.
class PlanCommands : public ::testing::Test {
protected:
    void SetUp() override {
        ASSERT_TRUE(core::project::Store::create(project));
        std::ofstream{folder.file("faces.csv")} << "name;mass\nface 1;90\nface 2;95\nface 3;99\n";
    }
    tests::Finished run(std::vector<std::string> arguments) const {
        arguments.insert(arguments.begin(), TURNMARK_CLI);
        return tests::runProgram(arguments);
    }
    tests::Finished planTheDay(const std::vector<std::string>& more = {}) const {
        std::vector<std::string> arguments{
            "plan",     project, "--implements", folder.file("faces.csv"), "--hitter", "A",
            "--hitter", "Zoë",   "--json"};
        arguments.insert(arguments.end(), more.begin(), more.end());
        return run(arguments);
    }

    tests::TemporaryFolder folder;
    std::string project{folder.file("p.turnmark")};
};

TEST_F(PlanCommands, PlanIsMadePrintedAndKept) {
    const auto done =
        planTheDay({"--pdf", folder.file("list.pdf"), "--cards", folder.file("cards.pdf")});
    ASSERT_EQ(done.status, 0) << done.errors;
    const json plan = json::parse(done.output);
    EXPECT_EQ(plan["shots"], 60);  // 3 implements, 2 hitters, 10 each
    EXPECT_EQ(plan["plan"]["implements"].size(), 3U);
    for (const char* name : {"list.pdf", "cards.pdf"}) {
        EXPECT_EQ(tests::bytesOf(folder.path() / name).substr(0, 5), "%PDF-");
    }
    const auto again = run({"plan", project, "--pdf", folder.file("list.pdf")});
    EXPECT_EQ(again.status, 1);
    EXPECT_NE(again.errors.find("--overwrite"), std::string::npos);
    const auto kept = run({"plan", project, "--json"});
    EXPECT_EQ(json::parse(kept.output), plan);
}

TEST_F(PlanCommands, AnEmptyPlanSaysWhatIsMissing) {
    const auto done = run({"plan", project});
    EXPECT_EQ(done.status, 1);
    EXPECT_NE(done.errors.find("no implement"), std::string::npos) << done.errors;
}

// 60·240/11 and 60·240/9: limits of ten whole frames counted at 240 a second.
TEST_F(PlanCommands, TalliesAreTakenOnce) {
    std::ofstream{folder.file("t.csv")} << "Racket,Player,Count\ngut,A,10\n";
    const std::vector<std::string> arguments{"tallies",        project, folder.file("t.csv"),
                                             "--capture-rate", "240",   "--session",
                                             "notes",          "--json"};
    const auto first = run(arguments);
    ASSERT_EQ(first.status, 0) << first.errors;
    EXPECT_EQ(json::parse(first.output)["added"], 1);
    const auto second = run(arguments);
    EXPECT_EQ(json::parse(second.output)["added"], 0);
    EXPECT_EQ(json::parse(second.output)["already_there"], 1);
    const auto store = core::project::Store::open(project).value();
    const auto& reading = *store->snapshot()->readings.begin();
    constexpr double kArithmetic = 1e-6;
    EXPECT_NEAR(reading.bounds->low.rpm, 14400.0 / 11.0, kArithmetic);
    EXPECT_NEAR(reading.bounds->high.rpm, 1600.0, kArithmetic);
}

// 14400/10 and 14400/9: ten frames at 240 a second, the last one at or past the turn.
TEST_F(PlanCommands, TalliesMakeTheProjectAndKeepHowWasCounted) {
    std::ofstream{folder.file("t.csv")} << "Racket,Player,Count\ngut,A,10\n";
    const std::string made = folder.file("new.turnmark");
    const auto wrong =
        run({"tallies", made, folder.file("t.csv"), "--capture-rate", "240", "--counted", "exact"});
    EXPECT_EQ(wrong.status, 1);
    EXPECT_NE(wrong.errors.find("nearest"), std::string::npos) << wrong.errors;
    EXPECT_FALSE(std::filesystem::exists(made));
    const auto done =
        run({"tallies", made, folder.file("t.csv"), "--capture-rate", "240", "--counted", "after"});
    ASSERT_EQ(done.status, 0) << done.errors;
    const auto store = core::project::Store::open(made).value();
    const auto& reading = *store->snapshot()->readings.begin();
    EXPECT_EQ(reading.habit, core::spin::CountingHabit::After);
    EXPECT_NEAR(reading.bounds->low.rpm, 1440.0, 1e-6);
    EXPECT_NEAR(reading.bounds->high.rpm, 1600.0, 1e-6);
}

TEST_F(PlanCommands, TallyTroubleNamesRowAndColumn) {
    std::ofstream{folder.file("t.csv")} << "Racket,Player,Count\ngut,A,10\ngut,,11\n";
    const auto done = run({"tallies", project, folder.file("t.csv"), "--capture-rate", "240"});
    EXPECT_EQ(done.status, 1);
    EXPECT_NE(done.errors.find("Row 3, column B"), std::string::npos) << done.errors;
    const auto column = run({"tallies", project, folder.file("t.csv"), "--capture-rate", "240",
                             "--column", "hitter=Nobody"});
    EXPECT_EQ(column.status, 1);
    EXPECT_NE(column.errors.find("Nobody"), std::string::npos) << column.errors;
    EXPECT_EQ(run({"check", project}).status, 0) << "nothing was left half done";
}

TEST_F(PlanCommands, AssigningNeedsASessionAndAWay) {
    ASSERT_EQ(planTheDay().status, 0);
    EXPECT_EQ(run({"assign", project}).status, 1);
    const auto done = run({"assign", project, "--order"});
    EXPECT_EQ(done.status, 1);
    EXPECT_NE(done.errors.find("session"), std::string::npos) << done.errors;
}

}  // namespace
