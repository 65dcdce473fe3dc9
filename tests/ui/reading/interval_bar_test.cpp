#include "ui/reading/card/interval_bar.h"

#include <gtest/gtest.h>

namespace ui::reading {
namespace {

constexpr double kAir = 1.12;  // the bar leaves this much beyond the widest thing it shows
constexpr double kRpm = 1e-9;  // a few operations on doubles of about a thousand

TEST(IntervalBar, ANarrowIntervalIsShownOnTenPerCentOfTheRate) {
    const auto range = IntervalBar::shownRange({{1500.0}, {{1495.0}, {1506.0}}, {}, {}});
    EXPECT_NEAR(range.low.rpm, 1500.0 - kAir * 150.0, kRpm);
    EXPECT_NEAR(range.high.rpm, 1500.0 + kAir * 150.0, kRpm);
}

TEST(IntervalBar, BoundsAndTheRulerFitIn) {
    const core::Interval<core::Rpm> bounds{{1309.0}, {1800.0}};
    const auto wide = IntervalBar::shownRange({{1500.0}, {{1400.0}, {1700.0}}, bounds, {}});
    EXPECT_NEAR(wide.high.rpm, 1500.0 + kAir * 300.0, kRpm);
    const auto ruled =
        IntervalBar::shownRange({{1500.0}, {{1495.0}, {1506.0}}, {}, core::Rpm{400.0}});
    EXPECT_NEAR(ruled.high.rpm - ruled.low.rpm, kAir * 400.0, kRpm);
}

}  // namespace
}  // namespace ui::reading
