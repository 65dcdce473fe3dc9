#include <gtest/gtest.h>

#include <fstream>
#include <nlohmann/json.hpp>

#include "core/project/store.h"
#include "tests/support/process.h"

namespace {

using nlohmann::json;

/// The commands plan and assign on a new project.
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
    json plan = json::parse(done.output);
    EXPECT_EQ(plan["implements_encoding"], "UTF-8");
    plan.erase("implements_encoding");  // of the table that was read then
    EXPECT_EQ(plan["shots"], 60);       // 3 implements, 2 hitters, 10 each
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

// "Schläger" in Windows-1252, which iconv(1) calls a name of its own.
TEST_F(PlanCommands, ATableInAnotherEncodingIsReadAndThatIsSaid) {
    std::ofstream{folder.file("faces.csv")} << "name;mass\nSchl\xE4ger 1;90\n";
    const auto done =
        run({"plan", project, "--implements", folder.file("faces.csv"), "--hitter", "A"});
    ASSERT_EQ(done.status, 0) << done.errors;
    EXPECT_NE(done.output.find("read as Windows-1252"), std::string::npos) << done.output;
    EXPECT_NE(done.output.find("Schl\u00E4ger 1"), std::string::npos) << done.output;
}

TEST_F(PlanCommands, AssigningNeedsASessionAndAWay) {
    ASSERT_EQ(planTheDay().status, 0);
    EXPECT_EQ(run({"assign", project}).status, 1);
    const auto done = run({"assign", project, "--order"});
    EXPECT_EQ(done.status, 1);
    EXPECT_NE(done.errors.find("filming day"), std::string::npos) << done.errors;
}

}  // namespace
