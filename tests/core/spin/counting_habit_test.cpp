#include "core/spin/counting_habit.h"

#include <gtest/gtest.h>

namespace {

using namespace core::spin;
using core::Interval;
using core::Rpm;

constexpr CountingHabit kEveryHabit[] = {CountingHabit::Nearest, CountingHabit::Both,
                                         CountingHabit::After, CountingHabit::Unknown};

TEST(CountingHabit, IsFoundByItsName) {
    for (const CountingHabit habit : kEveryHabit) {
        EXPECT_EQ(habitNamed(habitName(habit)), habit);
    }
    EXPECT_FALSE(habitNamed("Nearest").has_value());
    EXPECT_FALSE(habitNamed("").has_value());
}

// 5 frames at 120 per second: a period of 4 to 6 frames, 7200/6 to 7200/4 rpm.
TEST(CountingHabit, OfKnownKindKeepsTheLimitsOfTheCount) {
    const Interval<Rpm> limits{{1200.0}, {1800.0}};
    const auto both = countedRate(CountingHabit::Both, limits);
    EXPECT_EQ(both.bounds, limits);
    EXPECT_EQ(both.top, 0.0);
    EXPECT_EQ(both.habitRpm, 0.0);
    EXPECT_EQ(countedRate(CountingHabit::Nearest, limits).top, 1.0);
}

// Nearest return: 4.5 to 5.5 frames; first frame past it: 4 to 5. Halfway 4.25 to 5.25 around 4.75
// frames, a quarter of a frame from both: 7200/4.75² · 0.25 rpm.
TEST(CountingHabit, NotKnownLiesBetweenNearestAndAfter) {
    const auto counted = countedRate(CountingHabit::Unknown, {{1200.0}, {1800.0}});
    EXPECT_NEAR(counted.bounds.low.rpm, 7200.0 / 5.25, 1e-9);
    EXPECT_NEAR(counted.bounds.high.rpm, 7200.0 / 4.25, 1e-9);
    EXPECT_EQ(counted.top, 1.0);
    EXPECT_NEAR(counted.habitRpm, 7200.0 / (4.75 * 4.75) * 0.25, 1e-9);
}

}  // namespace
