#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "tests/core/publish/published_folder.h"

namespace core::publish {
namespace {

using nlohmann::json;

class PublishedTables : public tests::PublishedFolder {};

// RFC 4180 and Table Schema as check_tables.py names them; 3 implements x 2 hitters x (6 kept + 1
// set aside) shots; 6 cells and 3 implements in the summary; ranking and pairs with both hitters
// and with each: 3 x 3 and 3 x 3.
TEST_F(PublishedTables, PythonReadsThemWithTheTypesOfThePackage) {
    publishInto("out", tests::inventedMaterial({}));
    const auto read =
        tests::runProgram({"python3", tests::scriptFile("check_tables.py"), folder.file("out")});
    ASSERT_EQ(read.status, 0) << read.errors;
    const json counts = json::parse(read.output);
    EXPECT_EQ(counts["shots"], 42);
    EXPECT_EQ(counts["readings"], 36);
    EXPECT_EQ(counts["summary"], 9);
    EXPECT_EQ(counts["ranking"], 9);
    EXPECT_EQ(counts["pairs"], 9);
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
