#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "core/base/version.h"
#include "tests/core/publish/published_folder.h"

namespace core::publish {
namespace {

using nlohmann::json;

class PublishedTables : public tests::PublishedFolder {};

// RFC 4180 and Table Schema as check_tables.py names them; 3 implements x 2 hitters x (6 kept + 1
// set aside) shots; 6 cells, each with a part of the clock; ranking and pairs with both hitters
// together, 3 and 3, and with each, 2 x 3 and 2 x 3; three comparisons; a drift of each hitter.
TEST_F(PublishedTables, PythonReadsThemWithTheTypesOfThePackage) {
    publishInto("out", tests::inventedMaterial({}));
    const auto read =
        tests::runProgram({"python3", tests::scriptFile("check_tables.py"), folder.file("out")});
    ASSERT_EQ(read.status, 0) << read.errors;
    const json counts = json::parse(read.output);
    EXPECT_EQ(counts["shots"], 42);
    EXPECT_EQ(counts["readings"], 36);
    EXPECT_EQ(counts["summary"], 6);
    EXPECT_EQ(counts["cell_parts"], 6);
    EXPECT_EQ(counts["shared_parts"], 1);
    EXPECT_EQ(counts["implements"], 3);
    EXPECT_EQ(counts["hitters"], 2);
    EXPECT_EQ(counts["days"], 1);
    EXPECT_EQ(counts["ranking"], 3);
    EXPECT_EQ(counts["ranking_by_hitter"], 6);
    EXPECT_EQ(counts["pairs"], 3);
    EXPECT_EQ(counts["pairs_by_hitter"], 6);
    EXPECT_EQ(counts["comparisons"], 3);
    EXPECT_EQ(counts["drift"], 2);
}

TEST_F(PublishedTables, PythonReadsHostileNames) {
    publishInto("out", tests::inventedMaterial(tests::hostileNames()));
    const auto read =
        tests::runProgram({"python3", tests::scriptFile("check_tables.py"), folder.file("out")});
    EXPECT_EQ(read.status, 0) << read.errors;
}

// Means, medians and deviations of the summary against those that R computes from the shots.
TEST_F(PublishedTables, RFindsTheSameMeansFromTheShots) {
    if (!tests::hasProgram("Rscript")) {
        GTEST_SKIP() << "Rscript is not installed";
    }
    publishInto("out", tests::inventedMaterial({}));
    const auto read =
        tests::runProgram({"Rscript", tests::scriptFile("check_tables.R"), folder.file("out")});
    EXPECT_EQ(read.status, 0) << read.errors;
    EXPECT_EQ(read.output, "6 cells agree\n");
}

TEST_F(PublishedTables, ShotsSayWhatReadingCost) {
    auto material = tests::inventedMaterial({});
    auto snapshot = *material.snapshot;
    project::ReadingEffort visit;
    visit.id = {1};
    visit.shot = {1};
    visit.keys = 8;
    visit.activeSeconds = 6.25;
    visit.outcome = project::VisitOutcome::Kept;
    snapshot.efforts = project::Entities{std::vector{visit}};
    material.snapshot = std::make_shared<const project::Snapshot>(std::move(snapshot));
    publishInto("out", material);
    const auto read =
        tests::runProgram({"python3", tests::scriptFile("check_tables.py"), folder.file("out")});
    EXPECT_EQ(read.status, 0) << read.errors;
    const std::string shots = tests::bytesOf(folder.path() / "out" / "shots.csv");
    EXPECT_NE(shots.find(",8,0,6.25,false,1,1,1,1,1,1,1,\r\n"), std::string::npos);
    const json package = json::parse(tests::bytesOf(folder.path() / "out" / "datapackage.json"));
    const auto& resources = package["resources"];
    const auto resource = std::find_if(resources.begin(), resources.end(),
                                       [](const json& one) { return one["name"] == "shots"; });
    ASSERT_NE(resource, resources.end());
    const auto& fields = (*resource)["schema"]["fields"];
    const auto time = std::find_if(fields.begin(), fields.end(),
                                   [](const json& field) { return field["name"] == "active_s"; });
    ASSERT_NE(time, fields.end());
    EXPECT_EQ((*time)["type"], "number");
    EXPECT_EQ((*time)["unit"], "s");
    EXPECT_NE(tests::bytesOf(folder.path() / "out" / "index.html")
                  .find("Reading took 6 s of a person&#39;s time for 1 of the 36 kept shots"),
              std::string::npos);
}

TEST_F(PublishedTables, FindingsJsonSaysWhereItComesFrom) {
    publishInto("out", tests::inventedMaterial({}));
    const json said = json::parse(tests::bytesOf(folder.path() / "out" / "findings.json"));
    EXPECT_EQ(said["revision"], 57);
    EXPECT_EQ(said["program"], programName());
    EXPECT_EQ(said["project"], "invented bench");
    ASSERT_EQ(said["comparisons"].size(), 3U);
    EXPECT_EQ(said["comparisons"][0]["ranked"][0]["implement"], "implement three");
}

}  // namespace
}  // namespace core::publish
