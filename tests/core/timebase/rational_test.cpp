#include "core/timebase/rational.h"

#include <gtest/gtest.h>

#include <limits>
#include <random>

#include "core/timebase/frame_time.h"
#include "tests/support/reference_csv.h"

namespace core::timebase {
namespace {

TEST(Rational, IsKeptInLowestTermsWithAPositiveDenominator) {
    EXPECT_EQ((Rational{6, -4}), (Rational{-3, 2}));
    EXPECT_EQ((Rational{0, 7}), Rational{});
    EXPECT_EQ((Rational{240, 1}).toString(), "240/1");
}

TEST(Rational, ObeysTheLawsOfArithmeticExactly) {
    std::mt19937_64 random{20261125};
    std::uniform_int_distribution<std::int64_t> number{-30000, 30000};
    std::uniform_int_distribution<std::int64_t> positive{1, 30000};
    for (int i = 0; i < 500; ++i) {
        const Rational a{number(random), positive(random)};
        const Rational b{number(random), positive(random)};
        const Rational c{number(random), positive(random)};
        EXPECT_EQ(a + b - b, a);
        EXPECT_EQ(a * (b + c), a * b + a * c);
        EXPECT_EQ((a < b), (a - b < Rational{0}));
        if (b != Rational{0}) {
            EXPECT_EQ(a / b * b, a);
        }
    }
}

TEST(Rational, OrdersWhatDoublesCannotTellApart) {
    const std::int64_t big = std::numeric_limits<std::int64_t>::max();
    EXPECT_LT((Rational{big - 1, big}), Rational{1});
    EXPECT_EQ((Rational{big - 1, big}).toDouble(), 1.0);
}

TEST(Rational, DecimalBecomesTheClosestFraction) {
    EXPECT_EQ(Rational::fromDecimal(0.5).value(), (Rational{1, 2}));
    EXPECT_EQ(Rational::fromDecimal(-12.25).value(), (Rational{-49, 4}));
    // Best fractions of pi below the denominators 10 and 200 (continued fraction, Archimedes, Zu).
    EXPECT_EQ(Rational::fromDecimal(3.14159265358979, 10).value(), (Rational{22, 7}));
    EXPECT_EQ(Rational::fromDecimal(3.14159265358979, 200).value(), (Rational{355, 113}));
}

TEST(Rational, DecimalThatIsNoNumberOrTooLargeIsRefused) {
    EXPECT_EQ(Rational::fromDecimal(std::numeric_limits<double>::quiet_NaN()).error().code,
              ErrorCode::NotFinite);
    EXPECT_EQ(Rational::fromDecimal(1e13).error().code, ErrorCode::OutOfRange);
}

TEST(RationalDeathTest, ZeroDenominatorAndOverflowStopTheProgram) {
    EXPECT_DEATH((Rational{1, 0}), "precondition");
    const Rational big{std::numeric_limits<std::int64_t>::max()};
    EXPECT_DEATH(big * big, "precondition");
}

TEST(CaptureRateFromDecimal, FindsTheExactFractionOfEveryListedRate) {
    // SMPTE ST 12-1 and ITU-R BT.709, BT.2020 rates, with all digits and rounded to two decimals.
    const auto table = tests::ReferenceTable::load("video/frame_rates.csv");
    ASSERT_GT(table.rowCount(), 15U);
    for (std::size_t i = 0; i < table.rowCount(); ++i) {
        const Rational expected{static_cast<std::int64_t>(table.number(i, "num")),
                                static_cast<std::int64_t>(table.number(i, "den"))};
        const double fps = table.number(i, "fps");
        EXPECT_EQ(captureRateFromDecimal(fps).value().fps, expected) << fps;
    }
    EXPECT_EQ(captureRateFromDecimal(239.76).value().fps, (Rational{240000, 1001}));
    EXPECT_EQ(captureRateFromDecimal(119.88).value().fps, (Rational{120000, 1001}));
}

TEST(CaptureRateFromDecimal, RefusesWhatIsNoRate) {
    EXPECT_EQ(captureRateFromDecimal(0.0).error().code, ErrorCode::OutOfRange);
    EXPECT_EQ(captureRateFromDecimal(2e6).error().code, ErrorCode::OutOfRange);
    EXPECT_EQ(captureRateFromDecimal(std::numeric_limits<double>::infinity()).error().code,
              ErrorCode::NotFinite);
}

}  // namespace
}  // namespace core::timebase
