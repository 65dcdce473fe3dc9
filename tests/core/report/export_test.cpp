#include "core/report/export.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "tests/core/report/small_project.h"

namespace core::report {
namespace {

using nlohmann::json;

TEST(Export, ShotsJsonHoldsEveryShotWithItsStandingAndReason) {
    const json shots = json::parse(shotsJson(*tests::oneOfEachStanding()))["shots"];
    ASSERT_EQ(shots.size(), 4U);
    EXPECT_EQ(shots[0]["standing"], "kept");
    EXPECT_EQ(shots[0]["reading"]["rate_rpm"], 2000.0);
    EXPECT_EQ(shots[2]["standing"], "set aside");
    EXPECT_EQ(shots[2]["reason"], "mishit");
    EXPECT_TRUE(shots[3]["reading"].is_null());
}

TEST(Export, ShotsCsvHasOneRowAShotUnderTheHeader) {
    const std::string csv = shotsCsv(*tests::oneOfEachStanding());
    EXPECT_EQ(std::count(csv.begin(), csv.end(), '\n'), 5);
    EXPECT_EQ(csv.rfind("session,implement,condition,hitter,clip,shot,", 0), 0U);
}

TEST(Export, HostileNamesComeOutHarmless) {
    tests::SmallProject project;
    project.implements().front().name = "=cmd(\"x\"),\n<script>";
    project.keep(project.addShot(project.addHitter("+B")), 2000.0, 0.0);
    const auto snapshot = project.snapshot();
    EXPECT_NE(shotsCsv(*snapshot).find("\"'=cmd(\"\"x\"\"),\n<script>\""), std::string::npos);
    EXPECT_NE(shotsCsv(*snapshot).find(",'+B,"), std::string::npos);
    EXPECT_EQ(json::parse(shotsJson(*snapshot))["shots"][0]["implement"], "=cmd(\"x\"),\n<script>");
}

TEST(Export, SummaryJsonSaysNullWhereThereIsNothingToSay) {
    const auto summary = summarise(*tests::oneOfEachStanding());
    ASSERT_TRUE(summary.has_value());
    const json cells = json::parse(summaryJson(summary.value()))["cells"];
    EXPECT_EQ(cells[0]["spin"]["mean_rpm"], 2000.0);
    EXPECT_TRUE(cells[0]["spin"]["interval_rpm"].is_null());
}

}  // namespace
}  // namespace core::report
