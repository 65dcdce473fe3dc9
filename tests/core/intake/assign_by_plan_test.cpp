#include "core/intake/assign_by_plan.h"

#include <gtest/gtest.h>

#include "core/intake/planned_cells.h"
#include "core/plan/schedule.h"
#include "tests/core/intake/clip_project.h"

namespace tests::intake {
namespace {

using namespace core::intake;
using core::ErrorCode;

/// A plan of two implements, one hitter, four shots each in visits of two: eight shots; the project
/// of one clip beside it.
class PlanOrder : public ::testing::Test, public ClipProject {
protected:
    void SetUp() override {
        plan.session = "day";
        plan.attributeNames = {"mass"};
        plan.implements = {{"gut", "new", {{"mass", "95"}}}, {"poly", "", {}}};
        plan.hitters = {"A"};
        plan.shotsPerCell = 4;
        plan.shotsPerVisit = 2;
        ASSERT_TRUE(keepPlan(*store, plan));
        session = record().session;
    }
    void addShots(int count) {
        std::vector<core::project::Shot> shots;
        for (int i = 0; i < count; ++i) {
            core::project::Shot shot;
            shot.clip = clip;
            shot.firstFrame = {i};
            shot.lastFrame = {i};
            shots.push_back(shot);
        }
        ids = must(store->addShots(shots));
    }
    /// Names of the implements, shot by shot; empty while not assigned.
    [[nodiscard]] std::vector<std::string> implementsOfShots() const {
        const auto snapshot = store->snapshot();
        std::vector<std::string> names;
        for (const auto* shot : shotsOfClip(*snapshot, clip)) {
            const auto* cell = shot->cell ? snapshot->cells.find(*shot->cell) : nullptr;
            names.push_back(cell != nullptr ? snapshot->implements.find(cell->implement)->name
                                            : std::string{});
        }
        return names;
    }
    [[nodiscard]] std::vector<std::string> plannedNames() const {
        std::vector<std::string> names;
        const auto schedule = must(core::plan::scheduleOf(plan));
        for (const auto& shot : core::plan::plannedShots(schedule)) {
            names.push_back(plan.implements[shot.implement].name);
        }
        return names;
    }

    core::plan::Plan plan;
    core::project::SessionId session;
    std::vector<core::project::ShotId> ids;
};

TEST_F(PlanOrder, ShotsTakeTheOrderOfThePlan) {
    addShots(8);
    const auto report = must(assignByPlanOrder(*store, session, WhenCountsDiffer::Refuse));
    EXPECT_EQ(report.assigned, 8U);
    EXPECT_EQ(implementsOfShots(), plannedNames());
    EXPECT_EQ(store->snapshot()->implements.begin()->attributes.count("mass") +
                  (store->snapshot()->implements.begin() + 1)->attributes.count("mass"),
              1U)
        << "attributes come from the plan";
    const auto revision = store->snapshot()->revision;
    EXPECT_EQ(must(assignByPlanOrder(*store, session, WhenCountsDiffer::Refuse)).alreadyRight, 8U);
    EXPECT_EQ(store->snapshot()->revision, revision);
}

TEST_F(PlanOrder, CountsThatDifferAreSaidAndNothingIsAssignedUnlessAsked) {
    addShots(7);
    const auto refused = assignByPlanOrder(*store, session, WhenCountsDiffer::Refuse);
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().code, ErrorCode::Contradiction);
    const std::string& why = refused.error().message;
    EXPECT_NE(why.find("slow.mp4"), std::string::npos) << why;
    EXPECT_NE(why.find("after 1 of the planned 2 shots"), std::string::npos) << why;
    EXPECT_NE(why.find("have 7 shots; the plan has 8"), std::string::npos) << why;
    EXPECT_EQ(implementsOfShots(), std::vector<std::string>(7));
    EXPECT_EQ(must(assignByPlanOrder(*store, session, WhenCountsDiffer::Assign)).assigned, 7U);
    auto expected = plannedNames();
    expected.pop_back();
    EXPECT_EQ(implementsOfShots(), expected);
}

TEST_F(PlanOrder, MoreShotsThanPlannedStayOpen) {
    addShots(9);
    const auto report = must(assignByPlanOrder(*store, session, WhenCountsDiffer::Assign));
    EXPECT_EQ(report.assigned, 8U);
    EXPECT_EQ(report.leftOpen, 1U);
    EXPECT_EQ(report.remarks.size(), 1U);
}

TEST_F(PlanOrder, ShotsAssignedByHandStayAndKeepTheirPlace) {
    addShots(8);
    const auto other = must(cellNamed(*store, session, {"", "third", "", "A"}));
    ASSERT_TRUE(store->assignShots(std::array{ids[3]}, other));
    const auto report = must(assignByPlanOrder(*store, session, WhenCountsDiffer::Refuse));
    EXPECT_EQ(report.assigned, 7U);
    EXPECT_EQ(report.leftElsewhere, 1U);
    auto expected = plannedNames();
    expected[3] = "third";
    EXPECT_EQ(implementsOfShots(), expected);
}

TEST_F(PlanOrder, AttributesFollowThePlanToTheImplement) {
    addShots(8);
    ASSERT_TRUE(assignByPlanOrder(*store, session, WhenCountsDiffer::Refuse));
    plan.implements[0].attributes["mass"] = "97";
    ASSERT_TRUE(keepPlan(*store, plan));
    const auto massOfGut = [this] {
        for (const auto& implement : store->snapshot()->implements) {
            if (implement.name == "gut") {
                return implement.attributes.at("mass");
            }
        }
        return std::string{};
    };
    EXPECT_EQ(massOfGut(), "97");
    ASSERT_TRUE(store->undo());
    EXPECT_EQ(massOfGut(), "95");
    EXPECT_EQ(planOf(*store->snapshot()).implements[0].attributes.at("mass"), "95");
    const auto copied = planOfProject(*store->snapshot());
    EXPECT_EQ(copied.implements.size(), 2U);
    EXPECT_TRUE(core::plan::checkPlan(copied));
}

}  // namespace
}  // namespace tests::intake
