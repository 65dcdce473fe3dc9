#include "core/timebase/clip_clock.h"

#include <gtest/gtest.h>

#include <limits>

#include "tests/support/reference_csv.h"

namespace core::timebase {
namespace {

TEST(ClipClock, TwoHundredFortyInThirtyIsEightTimesStretched) {
    // 30 frames a second on a time scale of 15360: 512 ticks a frame. Captured at 240: 1/240 s.
    const auto clock = ClipClock::stretched({{0, 512, 1024}, Rational{1, 15360}}, Rational{8});
    ASSERT_TRUE(clock.has_value()) << clock.error().message;
    EXPECT_EQ(clock.value().kind(), ClockKind::Stretched);
    EXPECT_EQ(clock.value().captureTime({2}), (Rational{2, 240}));
    EXPECT_EQ(clock.value().captureRate()->fps, Rational{240});
}

TEST(ClipClock, FirstStampIsTimeZeroWhateverItIs) {
    const auto clock = ClipClock::stamped({{-7, 1, 9}, Rational{1, 1000}});
    ASSERT_TRUE(clock.has_value());
    EXPECT_EQ(clock.value().captureTime({0}), Rational{0});
    EXPECT_EQ(clock.value().captureTime({2}), (Rational{16, 1000}));
    EXPECT_EQ(clock.value().stretch(), Rational{1});
}

TEST(ClipClock, AlternatingStampsOf240At600KeepTheirTimesAndTheExactRate) {
    // ISO/IEC 14496-12 sample durations of 2 and 3 ticks: every second stamp is off by 1/1200 s.
    const auto table = tests::ReferenceTable::load("video/stts_240_at_600.csv");
    FrameStamps stamps{{}, Rational{1, 600}};
    for (const double pts : table.numbers("pts_floor")) {
        stamps.ticks.push_back(static_cast<std::int64_t>(pts));
    }
    const auto clock = ClipClock::stamped(stamps);
    ASSERT_TRUE(clock.has_value());
    FrameStamps wholePairs{stamps.ticks, stamps.timeBase};
    wholePairs.ticks.resize((stamps.ticks.size() - 1) / 2 * 2 + 1);
    EXPECT_EQ(ClipClock::stamped(wholePairs).value().captureRate()->fps, Rational{240});
    constexpr double kTableDigits = 1e-9;  // the table gives errors to 1e-9 microseconds
    for (std::size_t i = 0; i < table.rowCount(); ++i) {
        const FrameIndex frame{static_cast<std::int64_t>(i)};
        const double error =
            clock.value().captureSeconds(frame).seconds - table.number(i, "true_s");
        EXPECT_NEAR(1e6 * error, table.number(i, "error_floor_us"), 1e6 * kTableDigits);
    }
}

TEST(ClipClock, CountedFramesIgnoreStampsAndKeepTheExactRate) {
    const auto clock = ClipClock::counted(1000, {Rational{240000, 1001}}, 1e-4);
    ASSERT_TRUE(clock.has_value());
    EXPECT_EQ(clock.value().captureTime({240}), (Rational{1001, 1000}));
    EXPECT_EQ(clock.value().captureRate()->fps, (Rational{240000, 1001}));
    EXPECT_EQ(clock.value().relativeSigma(), 1e-4);
}

TEST(ClipClock, FrameAtIsTheInverseOfCaptureTime) {
    const auto clock = ClipClock::stamped({{0, 5, 6, 30, 31}, Rational{1, 90}}).value();
    for (std::int64_t i = 0; i < clock.frameCount(); ++i) {
        EXPECT_EQ(clock.frameAt(clock.captureSeconds({i})), FrameIndex{i});
    }
    EXPECT_EQ(clock.frameAt({-1.0}), FrameIndex{0});
    EXPECT_EQ(clock.frameAt({29.0 / 90.0}), FrameIndex{2});
    EXPECT_EQ(clock.frameAt({99.0}), FrameIndex{4});
}

TEST(ClipClock, DroppedFrameDoesNotMoveTheCaptureRate) {
    // 100 frames a second, frame 3 lost: the gap of 20 is no frame interval.
    const auto clock = ClipClock::stamped({{0, 10, 20, 40, 50, 60}, Rational{1, 1000}});
    EXPECT_EQ(clock.value().captureRate()->fps, Rational{100});
}

TEST(ClipClock, OneFrameHasNoRate) {
    EXPECT_FALSE(ClipClock::stamped({{3}, Rational{1, 30}}).value().captureRate().has_value());
}

TEST(ClipClock, StampThatGoesBackIsRefusedWithItsFrame) {
    const auto clock = ClipClock::stamped({{0, 10, 10}, Rational{1, 1000}});
    ASSERT_FALSE(clock.has_value());
    EXPECT_EQ(clock.error().code, ErrorCode::InvalidInput);
    EXPECT_NE(clock.error().message.find("frame 2"), std::string::npos);
}

TEST(ClipClock, BadInputIsRefused) {
    EXPECT_EQ(ClipClock::stamped({{}, Rational{1, 30}}).error().code, ErrorCode::InvalidInput);
    EXPECT_EQ(ClipClock::stamped({{0, 1}, Rational{0}}).error().code, ErrorCode::InvalidInput);
    EXPECT_EQ(ClipClock::stretched({{0, 1}, Rational{1, 30}}, Rational{0}).error().code,
              ErrorCode::OutOfRange);
    EXPECT_EQ(ClipClock::stamped({{0, 1}, Rational{1, 30}}, -0.1).error().code,
              ErrorCode::OutOfRange);
    EXPECT_EQ(ClipClock::counted(0, {Rational{30}}).error().code, ErrorCode::OutOfRange);
    EXPECT_EQ(ClipClock::counted(1, {Rational{-30}}).error().code, ErrorCode::OutOfRange);
}

TEST(ClipClock, TimesThatLeaveSixtyFourBitsAreRefusedAndNotComputedWrongly) {
    const std::int64_t huge = std::numeric_limits<std::int64_t>::max() / 2;
    const auto clock =
        ClipClock::stretched({{0, huge}, Rational{1, 1'000'000'000}}, Rational{999'983, 999'979});
    ASSERT_FALSE(clock.has_value());
    EXPECT_EQ(clock.error().code, ErrorCode::Unsupported);
}

}  // namespace
}  // namespace core::timebase
