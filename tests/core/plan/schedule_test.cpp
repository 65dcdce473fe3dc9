#include "core/plan/schedule.h"

#include <gtest/gtest.h>

#include <map>

#include "tests/core/plan/plans.h"

namespace core::plan {
namespace {

using tests::plan::planOf;

constexpr OrderKind kOrders[] = {OrderKind::Random, OrderKind::Blocked, OrderKind::LatinSquare,
                                 OrderKind::Williams};

Schedule scheduled(const Plan& plan) {
    auto schedule = scheduleOf(plan);
    EXPECT_TRUE(schedule) << schedule.error().message;
    return schedule ? std::move(schedule).value() : Schedule{};
}

TEST(ScheduleTest, EveryCellHasItsShotsInEveryOrder) {
    Plan plan = planOf(5, 3);
    plan.shotsPerCell = 7;
    plan.shotsPerVisit = 3;
    for (const OrderKind order : kOrders) {
        plan.order = order;
        std::map<std::pair<std::size_t, std::size_t>, int> counts;
        for (const PlannedShot& shot : plannedShots(scheduled(plan))) {
            ++counts[{shot.implement, shot.hitter}];
        }
        EXPECT_EQ(counts.size(), 15U);
        for (const auto& [cell, count] : counts) {
            EXPECT_EQ(count, 7) << orderKindName(order);
        }
    }
}

TEST(ScheduleTest, SeedDecidesTheOrderAndNothingElseDoes) {
    Plan plan = planOf(6, 2);
    for (const OrderKind order : kOrders) {
        plan.order = order;
        plan.seed = 3;
        const auto first = plannedShots(scheduled(plan));
        EXPECT_EQ(plannedShots(scheduled(plan)), first);
        plan.seed = 4;
        EXPECT_NE(plannedShots(scheduled(plan)), first) << orderKindName(order);
    }
}

TEST(ScheduleTest, BlockedKeepsAnImplementTogether) {
    Plan plan = planOf(4, 2);
    plan.order = OrderKind::Blocked;
    plan.swingsBetweenRests = 1000;
    const auto schedule = scheduled(plan);
    ASSERT_EQ(schedule.visits.size(), 8U);
    for (std::size_t i = 0; i < 8; i += 2) {
        EXPECT_EQ(schedule.visits[i].implement, schedule.visits[i + 1].implement);
        EXPECT_EQ(schedule.visits[i].shots, plan.shotsPerCell);
    }
    EXPECT_EQ(schedule.remarks.size(), 1U) << "the danger of this order is said";
}

// Four implements, two hitters, shots in two visits: four passes, one whole square of Williams.
TEST(ScheduleTest, WholeSquareOfPassesHasEveryNeighbourOnce) {
    Plan plan = planOf(4, 2);
    plan.swingsBetweenRests = 1000;
    const auto schedule = scheduled(plan);
    EXPECT_EQ(schedule.passes, 4);
    EXPECT_TRUE(schedule.remarks.empty());
    std::map<std::pair<std::size_t, std::size_t>, int> neighbours;
    for (std::size_t i = 1; i < schedule.visits.size(); ++i) {
        if (i % 4 != 0) {
            ++neighbours[{schedule.visits[i - 1].implement, schedule.visits[i].implement}];
        }
    }
    EXPECT_EQ(neighbours.size(), 12U);
}

TEST(ScheduleTest, PassesThatDoNotFillTheSquareAreSaid) {
    const auto schedule = scheduled(planOf(5, 1));
    EXPECT_EQ(schedule.designRows, 10);
    EXPECT_EQ(schedule.passes, 2);
    ASSERT_EQ(schedule.remarks.size(), 1U);
    EXPECT_NE(schedule.remarks[0].find("10 passes"), std::string::npos);
}

TEST(ScheduleTest, ControlStandsAtStartMiddleAndEnd) {
    Plan plan = planOf(4, 2);
    plan.control = 2;
    plan.controlShots = 3;
    const auto shots = plannedShots(scheduled(plan));
    ASSERT_EQ(shots.size(), 80U + 18U);
    for (const std::size_t at : {std::size_t{0}, std::size_t{46}, std::size_t{92}}) {
        for (std::size_t i = at; i < at + 6; ++i) {
            EXPECT_TRUE(shots[i].isControl) << i;
            EXPECT_EQ(shots[i].implement, 2U);
            EXPECT_EQ(shots[i].hitter, i < at + 3 ? 0U : 1U);
        }
    }
}

TEST(ScheduleTest, NobodySwingsMoreThanAllowedBetweenRests) {
    Plan plan = planOf(6, 2);
    plan.shotsPerCell = 25;
    plan.shotsPerVisit = 25;
    plan.swingsBetweenRests = 10;
    plan.control = 0;
    for (const OrderKind order : kOrders) {
        plan.order = order;
        std::map<std::size_t, int> since;
        const auto schedule = scheduled(plan);
        for (const Visit& visit : schedule.visits) {
            since[visit.hitter] =
                visit.kind == Visit::Kind::Rest ? 0 : since[visit.hitter] + visit.shots;
            EXPECT_LE(since[visit.hitter], 10);
        }
        EXPECT_EQ(schedule.swingsPerHitter, (std::vector<int>{159, 159}));  // 6·25 + 3·3
    }
}

TEST(ScheduleTest, ShotsAreNumberedThroughTheDay) {
    int next = 1;
    const auto schedule = scheduled(planOf(3, 2));
    for (const Visit& visit : schedule.visits) {
        if (visit.kind == Visit::Kind::Shots) {
            EXPECT_EQ(visit.firstShot, next);
            next += visit.shots;
        }
    }
    EXPECT_EQ(schedule.shots, next - 1);
}

TEST(ScheduleTest, NothingToFilmIsSaid) {
    for (const Plan& plan : {planOf(0, 1), planOf(1, 0)}) {
        const auto schedule = scheduleOf(plan);
        ASSERT_FALSE(schedule);
        EXPECT_EQ(schedule.error().code, ErrorCode::InvalidInput);
    }
}

}  // namespace
}  // namespace core::plan
