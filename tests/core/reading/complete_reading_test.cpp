#include <gtest/gtest.h>

#include <cmath>

#include "core/reading/read_shot.h"

namespace core::reading {
namespace {

using timebase::CaptureRate;
using timebase::ClipClock;
using timebase::Rational;

constexpr double kRounding = 1e-9;
constexpr double kNormal975 = 1.9599639845;  // quantile 0.975 of the normal distribution

spin::fit::FitOutcome fitOf(double rpm, double sigmaRpm) {
    spin::fit::FitOutcome fit;
    fit.status = spin::fit::FitStatus::Reading;
    fit.rate = {{rpm}, {sigmaRpm}};
    fit.interval95 = {{rpm - 2.0 * sigmaRpm}, {rpm + 2.0 * sigmaRpm}};
    return fit;
}

ClipClock clockOf(double relativeSigma) {
    return ClipClock::counted(100, CaptureRate{Rational{120}}, relativeSigma).value();
}

// JCGM 100:2008, 5.1.2: independent contributions add in quadrature.
TEST(CompleteReading, TheClocksUncertaintyIsJoinedInQuadrature) {
    const auto reading = completeReading({}, fitOf(1000.0, 3.0), clockOf(0.004), {});
    ASSERT_TRUE(reading.rate);
    EXPECT_NEAR(reading.rate->sigma.rpm, 5.0, kRounding);  // 3, 4, 5
    EXPECT_NEAR(reading.interval95->low.rpm, 1000.0 - std::hypot(6.0, kNormal975 * 4.0), 1e-5);
    EXPECT_NEAR(reading.interval95->high.rpm, 1000.0 + std::hypot(6.0, kNormal975 * 4.0), 1e-5);
    EXPECT_NEAR(reading.clockRelativeSigma, 0.004, kRounding);
}

TEST(CompleteReading, NoReadingKeepsItsReasonAndHasNoRate) {
    auto fit = fitOf(1000.0, 3.0);
    fit.status = spin::fit::FitStatus::NoReading;
    fit.reason = "The marking does not show.";
    const auto reading = completeReading({}, fit, clockOf(0.0), {});
    EXPECT_FALSE(reading.rate);
    EXPECT_FALSE(reading.interval95);
    EXPECT_EQ(reading.reason, "The marking does not show.");
}

TEST(CompleteReading, WithoutADiameterThereIsNoFlight) {
    const auto reading = completeReading({}, fitOf(1000.0, 3.0), clockOf(0.0), {});
    EXPECT_FALSE(reading.flight);
    EXPECT_FALSE(reading.gravity);
    EXPECT_FALSE(reading.isClockRefuted());
}

}  // namespace
}  // namespace core::reading
