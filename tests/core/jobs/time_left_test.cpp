#include "core/jobs/time_left.h"

#include <gtest/gtest.h>

namespace core::jobs {
namespace {

// Schedules worked out by hand: the first who is free takes the next piece. Common practice (list
// scheduling), no source.

TEST(TimeLeft, NothingToDoTakesNoTime) {
    EXPECT_DOUBLE_EQ(secondsLeft({}, {}, 1.0, 2), 0.0);
}

TEST(TimeLeft, OneWorkerTakesTheSum) {
    EXPECT_DOUBLE_EQ(secondsLeft({}, {1.0, 2.0, 3.0}, 0.5, 1), 3.0);
}

TEST(TimeLeft, TwoWorkersShareAndTheLastPieceDecides) {
    // One does 4, the other 1 and then 1 and 6: ends at 4 and 8.
    EXPECT_DOUBLE_EQ(secondsLeft({}, {4.0, 1.0, 1.0, 6.0}, 1.0, 2), 8.0);
}

TEST(TimeLeft, WhatIsWorkedOnCountsFromItsBeginning) {
    // 10 s of which 7 are over, and 4 s of which 3 are over; then one of 5 s: at 1 + 5.
    EXPECT_DOUBLE_EQ(secondsLeft({{5.0, 7.0}, {2.0, 3.0}}, {2.5}, 2.0, 2), 6.0);
}

TEST(TimeLeft, APieceThatTakesLongerEndsNow) {
    EXPECT_DOUBLE_EQ(secondsLeft({{1.0, 30.0}}, {2.0}, 1.0, 1), 2.0);
}

}  // namespace
}  // namespace core::jobs
