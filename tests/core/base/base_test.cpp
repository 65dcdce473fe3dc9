#include <gtest/gtest.h>

#include <new>
#include <set>
#include <stdexcept>
#include <string>

#include "core/base/error.h"
#include "core/base/expects.h"
#include "core/base/guarded.h"
#include "core/base/pixels.h"
#include "core/base/result.h"
#include "core/base/units.h"
#include "tests/support/reference_csv.h"

namespace core {
namespace {

constexpr double kTableDigits = 1e-12;  // relative; the table has fifteen digits

TEST(Units, RpmAndRadiansPerSecondAgreeWithTheTableOfUnits) {
    // SI Brochure and ISO 80000-3: 1 r/min = 2 pi/60 rad/s.
    const auto table = tests::ReferenceTable::load("physics/spin_units.csv");
    ASSERT_GT(table.rowCount(), 0U);
    for (std::size_t i = 0; i < table.rowCount(); ++i) {
        const double rpm = table.number(i, "rpm");
        const double radPerS = table.number(i, "rad_per_s");
        EXPECT_NEAR(toRadiansPerSecond(Rpm{rpm}).radiansPerSecond, radPerS, kTableDigits * radPerS);
        EXPECT_NEAR(toRpm(RadiansPerSecond{radPerS}).rpm, rpm, kTableDigits * rpm);
    }
}

TEST(Units, HalfATurnIsPi) {
    EXPECT_DOUBLE_EQ(fromDegrees(180.0).radians, kPi);
    EXPECT_DOUBLE_EQ(toDegrees(Radians{kPi / 2.0}), 90.0);
}

Result<int> half(int n) {
    if (n % 2 != 0) {
        return fail(ErrorCode::InvalidInput, "odd");
    }
    return n / 2;
}

Result<int> quarter(int n) {
    BOOST_OUTCOME_TRY(h, half(n));
    return half(h);
}

TEST(Guarded, GivesWhatTheWorkReturns) {
    EXPECT_EQ(guarded([] { return quarter(8); }).value(), 2);
    EXPECT_EQ(guarded([] { return quarter(6); }).error().message, "odd");
}

TEST(Guarded, WhatIsThrownIsAnErrorThatSaysWhy) {
    const auto thrown = guarded([]() -> Result<int> { throw std::runtime_error{"sizes differ"}; });
    EXPECT_EQ(thrown.error().code, ErrorCode::Unexpected);
    EXPECT_NE(thrown.error().message.find("(sizes differ)"), std::string::npos);
    const auto full = guarded([]() -> Result<int> { throw std::bad_alloc{}; });
    EXPECT_NE(full.error().message.find("memory"), std::string::npos);
    EXPECT_EQ(guarded([]() -> Result<int> { throw 1; }).error().code, ErrorCode::Unexpected);
}

TEST(Result, FailureIsPassedUpUnchanged) {
    EXPECT_EQ(quarter(8).value(), 2);
    const auto failed = quarter(6);
    ASSERT_FALSE(failed.has_value());
    EXPECT_EQ(failed.error().code, ErrorCode::InvalidInput);
    EXPECT_EQ(failed.error().message, "odd");
}

TEST(ExpectsDeathTest, BrokenPreconditionNamesItself) {
    EXPECT_DEATH(CORE_EXPECTS(1 > 2), "precondition broken: 1 > 2");
}

TEST(PixelBuffer, RowsArePackedAndSeenThroughTheView) {
    PixelBuffer buffer{3, 2, PixelFormat::Rgb8};
    EXPECT_EQ(buffer.strideBytes(), 9);
    buffer.row(1)[3] = 77;  // red of pixel (1, 1)
    EXPECT_EQ(buffer.bytes()[12], 77);
    EXPECT_EQ(buffer.view().row(1)[3], 77);
    EXPECT_FALSE(buffer.view().isEmpty());
    EXPECT_TRUE(PixelView{}.isEmpty());
}

}  // namespace
}  // namespace core
