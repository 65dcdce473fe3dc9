#include "core/plan/plan.h"

#include <gtest/gtest.h>

#include <limits>

#include "tests/core/plan/plans.h"

namespace core::plan {
namespace {

using tests::plan::planOf;

Plan fullPlan() {
    Plan plan = planOf(3, 2);
    plan.attributeNames = {"mass, g", "Preis €"};
    plan.implements[0].attributes = {{"mass, g", "95"}, {"Preis €", "12,50"}};
    plan.implements[1] = {"face 1", "worn", {}};
    plan.shotsPerCell = 12;
    plan.shotsPerVisit = 3;
    plan.order = OrderKind::LatinSquare;
    plan.seed = std::numeric_limits<std::uint64_t>::max();
    plan.control = 2;
    plan.controlShots = 4;
    plan.swingsBetweenRests = 25;
    plan.restMinutes = 7;
    plan.ball = "felt ball, one hour old";
    plan.marking = BallMarking::BandWithDot;
    plan.assumedScatterRpm = 120.5;
    plan.filming = {240.0, 0.0005, 1500.0};
    return plan;
}

ErrorCode troubleWith(const Plan& plan) {
    const auto checked = checkPlan(plan);
    EXPECT_FALSE(checked);
    return checked ? ErrorCode::Busy : checked.error().code;
}

TEST(PlanTest, ComesBackFromItsTextAsItWas) {
    for (const Plan& plan : {Plan{}, fullPlan()}) {
        const auto again = planFromJson(planToJson(plan));
        ASSERT_TRUE(again) << again.error().message;
        EXPECT_EQ(again.value(), plan);
    }
}

TEST(PlanTest, TextThatIsNoPlanIsRefused) {
    std::string unknownOrder = planToJson(fullPlan());
    unknownOrder.replace(unknownOrder.find("latin_square"), 12, "alphabetical");
    for (const std::string& text : {std::string{"{"}, std::string{"{}"}, unknownOrder}) {
        const auto plan = planFromJson(text);
        ASSERT_FALSE(plan);
        EXPECT_EQ(plan.error().code, ErrorCode::InvalidInput);
    }
}

TEST(PlanTest, NamesAreThereAndThereOnce) {
    Plan plan = planOf(2, 2);
    plan.implements[1] = plan.implements[0];
    EXPECT_EQ(troubleWith(plan), ErrorCode::InvalidInput);
    plan.implements[1].condition = "worn";
    EXPECT_TRUE(checkPlan(plan));
    plan.hitters[1] = "A";
    EXPECT_EQ(troubleWith(plan), ErrorCode::InvalidInput);
    plan.hitters[1] = " B";
    EXPECT_EQ(troubleWith(plan), ErrorCode::InvalidInput);
    plan.hitters[1] = "B\xFF";
    EXPECT_EQ(troubleWith(plan), ErrorCode::InvalidInput);
    plan = planOf(1, 1);
    plan.implements[0].attributes["mass"] = "1";
    EXPECT_EQ(troubleWith(plan), ErrorCode::InvalidInput) << "no such column";
}

TEST(PlanTest, NumbersStayInTheirRange) {
    Plan plan = planOf(2, 1);
    plan.shotsPerCell = 0;
    EXPECT_EQ(troubleWith(plan), ErrorCode::OutOfRange);
    plan = planOf(2, 1);
    plan.control = 2;
    EXPECT_EQ(troubleWith(plan), ErrorCode::OutOfRange);
    plan = planOf(2, 1);
    plan.filming.captureFps = 0.0;
    EXPECT_EQ(troubleWith(plan), ErrorCode::OutOfRange);
    plan.filming.captureFps = std::numeric_limits<double>::quiet_NaN();
    EXPECT_EQ(troubleWith(plan), ErrorCode::NotFinite);
    plan = planOf(200, 26);
    plan.shotsPerCell = 100;
    EXPECT_EQ(troubleWith(plan), ErrorCode::OutOfRange) << "520,000 shots are no day";
}

TEST(PlanTest, ConditionTellsNamesakesApart) {
    EXPECT_EQ(implementLabel(fullPlan(), 0), "face 1 (new)");
    EXPECT_EQ(implementLabel(fullPlan(), 1), "face 1 (worn)");
    EXPECT_EQ(implementLabel(fullPlan(), 2), "face 3");
}

}  // namespace
}  // namespace core::plan
