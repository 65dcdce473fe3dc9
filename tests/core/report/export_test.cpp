#include "core/report/export.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "tests/core/report/small_project.h"

namespace core::report {
namespace {

using nlohmann::json;

project::ReadingEffort visitWithoutNames(project::ShotId shot, std::int64_t keys,
                                         std::int64_t clicks, double seconds) {
    project::ReadingEffort visit;
    visit.shot = shot;
    visit.keys = keys;
    visit.clicks = clicks;
    visit.activeSeconds = seconds;
    visit.namesHidden = true;
    return visit;
}

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

TEST(Export, ShotsSayWhatReadingCost) {
    tests::SmallProject project;
    const auto cell = project.addHitter("A");
    project.keep(project.addShot(cell), 2000.0, 0.0);
    project.addShot(cell);
    project.addShot(cell);
    auto visit = visitWithoutNames({1}, 7, 0, 4.0);
    project.timed(visit);
    visit = visitWithoutNames({1}, 1, 2, 2.25);
    visit.outcome = project::VisitOutcome::Kept;
    project.timed(visit);
    project.timed(visitWithoutNames({2}, 3, 0, 1.5));
    const auto snapshot = project.snapshot();
    const json shots = json::parse(shotsJson(*snapshot))["shots"];
    EXPECT_EQ(shots[0]["effort"],
              json({{"keys", 8}, {"clicks", 2}, {"active_s", 6.25}, {"names_hidden", true}}));
    EXPECT_EQ(shots[1]["effort"]["keys"], 3);
    EXPECT_TRUE(shots[1]["effort"]["names_hidden"].is_null()) << "no reading was kept";
    EXPECT_TRUE(shots[2]["effort"].is_null());
    const std::string csv = shotsCsv(*snapshot);
    EXPECT_NE(csv.find(",keys,clicks,active_s,names_hidden,shot_id,reading_id,"),
              std::string::npos);
    EXPECT_NE(csv.find(",8,2,6.25,true,1,"), std::string::npos);
    EXPECT_NE(csv.find(",3,0,1.5,,2,"), std::string::npos);
    EXPECT_NE(csv.find(",,,,,3,,"), std::string::npos);
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
