#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "core/words/findings.h"
#include "tests/core/findings/made_project.h"

namespace {

using core::findings::Trend;
using core::words::sentence;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using tests::MadeProject;

TEST(Drift, SlopeIsFoundAlthoughTheImplementsDiffer) {
    MadeProject project;
    const auto x = project.implement("X");
    const auto y = project.implement("Y");
    for (int shot = 1; shot <= 20; ++shot) {
        const double noise = shot % 4 < 2 ? 3.0 : -3.0;
        const bool isX = shot % 2 == 0;
        project.keep(isX ? x : y, "A", (isX ? 1500.0 : 1000.0) - 5.0 * shot + noise);
    }
    const auto found = project.findings();
    ASSERT_EQ(found.drifts.size(), 1U);
    const auto& drift = found.drifts.front();
    ASSERT_TRUE(drift.perShot) << drift.perShot.whyNot().message;
    EXPECT_LT(drift.perShot->interval.low, -5.0);
    EXPECT_GT(drift.perShot->interval.high, -5.0);
    EXPECT_LT(drift.perShot->interval.high, 0.0);
    EXPECT_THAT(sentence(drift), HasSubstr("spin fell from shot to shot"));
    ASSERT_EQ(drift.points.size(), 20U);
    EXPECT_EQ(drift.points.front().x, 1.0);
    EXPECT_EQ(drift.points.front().shot, core::project::ShotId{1});
}

TEST(Drift, ImplementsFilmedOneAfterTheOtherAreNoDrift) {
    // Five shots with each of three implements in turn, the later ones with more spin.
    const auto found = tests::ladder({1000.0, 1200.0, 1400.0}, 2.0, {"A"}, 5).findings();
    ASSERT_EQ(found.drifts.size(), 1U);
    ASSERT_TRUE(found.drifts.front().perShot);
    EXPECT_GE(found.drifts.front().perShot->pValue, 0.05);
    EXPECT_THAT(sentence(found.drifts.front()), HasSubstr("no drift shown"));
}

TEST(Drift, TwoShotsSayWhyNothingCanBeSaid) {
    MadeProject project;
    const auto x = project.implement("X");
    project.keep(x, "A", 1000.0);
    project.keep(x, "A", 1001.0);
    const auto found = project.findings();
    EXPECT_FALSE(found.drifts.front().perShot);
    EXPECT_THAT(sentence(found.drifts.front()), HasSubstr("cannot be said"));
}

// Counts of 5 and 4 at 120 frames per second (1440 and 1800 rpm) of shots that differ by little: a
// line through them is a line through steps.
TEST(Drift, CoarseCountsSayThatTheyCannotTell) {
    MadeProject project;
    const auto x = project.implement("X");
    for (int shot = 0; shot < 10; ++shot) {
        project.keepCount(x, "A", shot < 5 ? 5.0 : 4.0);
    }
    const auto found = project.findings();
    EXPECT_FALSE(found.drifts.front().perShot);
    EXPECT_THAT(sentence(found.drifts.front()), HasSubstr("too coarse"));
}

TEST(Control, IsThePlansToo) {
    MadeProject project;
    const auto x = project.implement("X");
    for (int shot = 0; shot < 3; ++shot) {
        project.keep(x, "A", 1000.0 + shot);
    }
    auto snapshot = project.snapshot();
    EXPECT_TRUE(core::findings::findFindings(snapshot, {}, {}).value().controls.empty());
    core::project::PlanRecord plan;
    plan.id = {1};
    plan.plan.implements = {{"Y", "", {}}, {"X", "", {}}};
    plan.plan.control = 1;
    snapshot.plans = core::project::Entities{std::vector{plan}};
    const auto found = core::findings::findFindings(snapshot, {}, {}).value();
    ASSERT_EQ(found.controls.size(), 1U);
    EXPECT_EQ(found.controls.front().implement, x);
}

TEST(Control, EndIsHeldAgainstTheStart) {
    MadeProject project;
    const auto control = project.implement("C", "control");
    const auto x = project.implement("X");
    for (const double level : {1000.0, 990.0, 950.0}) {
        for (const double noise : {-2.0, 2.0}) {
            project.keep(control, "A", level + noise);
        }
        for (int i = 0; i < 4; ++i) {
            project.keep(x, "A", 1200.0 + i);
        }
    }
    const auto found = project.findings();
    ASSERT_EQ(found.controls.size(), 1U);
    const auto& ends = found.controls.front();
    ASSERT_TRUE(ends.endLessStart) << ends.endLessStart.whyNot().message;
    EXPECT_NEAR(ends.endLessStart->estimate, -50.0, 1e-9);
    ASSERT_EQ(ends.thirds.size(), 3U);
    EXPECT_NEAR(ends.thirds[1].value, 990.0, 1e-9);
}

TEST(Sessions, DifferenceOverSharedCellsWithBothClocks) {
    MadeProject project;
    const auto x = project.implement("X");
    const auto y = project.implement("Y");
    for (const double noise : {-10.0, 0.0, 10.0}) {
        project.keep(x, "A", 2000.0 + noise, 0.0, 0.01, "first");
        project.keep(x, "A", 2100.0 + noise, 0.0, 0.02, "second");
        project.keep(y, "A", 2500.0 + noise, 0.0, 0.02, "second");
    }
    const auto found = project.findings();
    ASSERT_EQ(found.sessions.size(), 1U);
    const auto& link = found.sessions.front();
    EXPECT_EQ(link.sharedCells, 1U);
    EXPECT_NEAR(link.difference->estimate, -100.0, 1e-9);
    // Scatter 2 * 100/3, clocks 1 % of 2000 and 2 % of 2100.
    EXPECT_NEAR(link.difference->standardError, std::sqrt(200.0 / 3.0 + 20.0 * 20.0 + 42.0 * 42.0),
                1e-9);
    // Y is compared with X through the session that they share.
    const auto* pair = found.together().pair(x, y);
    ASSERT_NE(pair, nullptr);
    EXPECT_NEAR(pair->differenceRpm, 400.0, 1e-9);
}

TEST(Sessions, WithoutSharedImplementTheyCannotBeLinked) {
    MadeProject project;
    const auto x = project.implement("X");
    const auto y = project.implement("Y");
    for (const double noise : {-10.0, 0.0, 10.0}) {
        project.keep(x, "A", 2000.0 + noise, 0.0, 0.0, "first");
        project.keep(y, "A", 2500.0 + noise, 0.0, 0.0, "second");
    }
    const auto found = project.findings();
    EXPECT_FALSE(found.sessions.front().difference);
    EXPECT_THAT(sentence(found.sessions.front()), HasSubstr("cannot be linked"));
    EXPECT_THAT(found.together().pairs, IsEmpty());
}

MadeProject withThickness(const std::vector<std::string>& thickness) {
    MadeProject project;
    for (std::size_t i = 0; i < thickness.size(); ++i) {
        const auto implement = project.implement("implement " + std::to_string(i + 1), "",
                                                 {{"thickness", thickness[i]}});
        for (const double noise : {-10.0, 0.0, 10.0}) {
            project.keep(implement, "A", 1000.0 + 100.0 * static_cast<double>(i * i) + noise);
        }
    }
    return project;
}

TEST(Attributes, GrowingSpinHasARankCorrelationOfOneAndAWarning) {
    const auto found =
        withThickness({"1.10 mm", "1.20 mm", "1.25 mm", "1.30 mm", "1.35 mm"}).findings();
    ASSERT_EQ(found.attributes.size(), 1U);
    const auto& attribute = found.attributes.front();
    EXPECT_EQ(attribute.attribute, "thickness, mm");
    EXPECT_NEAR(attribute.spearman->coefficient, 1.0, 1e-12);
    EXPECT_LT(attribute.pearson->coefficient, 1.0);
    EXPECT_TRUE(attribute.pearson->interval);
    EXPECT_EQ(attribute.trend, Trend::More);  // all in order: p = 2 / 5! = 0.017
    EXPECT_THAT(sentence(attribute), HasSubstr("Attributes go together"));
}

TEST(Attributes, DifferentUnitsAreNotMixed) {
    const auto found = withThickness({"1.10 mm", "0.12 cm", "1.25 mm"}).findings();
    ASSERT_EQ(found.attributes.size(), 1U);
    EXPECT_FALSE(found.attributes.front().pearson);
    EXPECT_THAT(sentence(found.attributes.front()), HasSubstr("different units"));
}

TEST(Attributes, WordsAndDecimalCommasAreLeftOut) {
    EXPECT_THAT(withThickness({"thin", "1,25", "1.25-1.30", "1.2"}).findings().attributes,
                IsEmpty());
    EXPECT_THAT(withThickness({"1.30 and 1.25", "1.30 / 1.25", "1.2", "1.3"}).findings().attributes,
                IsEmpty());
}

/// A track of a ball of 0.067 m that is 20 px across and moves 6 px a hundredth of a second.
/// The inputs of a rotation fit (FORMAT.md R22).
std::string trackWithSpeed(double pxPerFrame) {
    std::string track;
    for (int i = 0; i < 3; ++i) {
        track += std::string{i == 0 ? "" : ","} + R"({"frame":)" + std::to_string(i) +
                 R"(,"source":"measured","time_s":)" + std::to_string(0.01 * i) +
                 R"(,"centre_px":[)" + std::to_string(pxPerFrame * i) +
                 R"(,50],"centre_sigma_px":[0.1,0.1],"radius_px":10,"radius_sigma_px":0.1,)" +
                 R"("smear_px":[0,0]})";
    }
    return R"({"clip_fingerprint":"f","first_frame":0,"last_frame":2,)"
           R"("clock":{"kind":"stamped","stretch":{"num":1,"den":1},"relative_sigma":0},)"
           R"("facts":{"readout_s":0,"marking_symmetry":1,"ball_diameter_m":0.067},)"
           R"("fit":{"angular_velocity_rad_per_s":[0,0,1],"explained_share":1,)"
           R"("covariance_rad2_per_s2":[[1,0,0],[0,1,0],[0,0,1]],"field_of_view_rad":1},)"
           R"("track":[)" +
           track + "]}";
}

TEST(BallSpeed, IsTheWayAtTheScaleOfTheBallOverTheTime) {
    MadeProject project;
    for (int i = 0; i < 2; ++i) {
        const auto implement = project.implement("implement " + std::to_string(i + 1));
        for (int k = 0; k < 5; ++k) {
            const auto shot = project.keep(implement, "A", 1000.0);
            project.read(shot, "reader", core::project::ReadingMethod::RotationFit,
                         1000.0 + 100.0 * i + 20.0 * k + (k % 2 == 0 ? 3.0 : -3.0));
            project.withInputs(trackWithSpeed(60.0 + 6.0 * k));
        }
    }
    const auto found = project.findings();
    // 60 px in 0.01 s, 0.067 m for 20 px: 20.1 m/s; a step of 6 px more: 2.01 m/s.
    EXPECT_NEAR(*found.ballSpeeds.at({2}), 20.1, 1e-9);
    ASSERT_TRUE(found.speed.analysis) << found.speed.analysis.whyNot().message;
    EXPECT_NEAR(found.speed.analysis->slope.estimate, 20.0 / 2.01, 0.5);
    EXPECT_LT(found.speed.analysis->groups.pValue, 0.001);
}

TEST(BallSpeed, WithoutSpeedsItSaysWhatIsMissing) {
    const auto found = tests::ladder({1000.0, 1100.0}, 4.0, {"A"}, 6).findings();
    EXPECT_FALSE(found.speed.analysis);
    EXPECT_THAT(sentence(found.speed), HasSubstr("how large the ball is"));
}

}  // namespace
