#include "core/image/flight_continuation.h"

#include <gtest/gtest.h>

#include <cmath>

namespace {

using core::Seconds;
using core::image::Continuation;
using core::image::continuation;
using core::image::LinkedFlight;
using core::image::PointPx;

constexpr double kFrameS = 1.0 / 240.0;

Seconds timeOf(double frame) {
    return {frame * kFrameS};
}

void addMember(LinkedFlight& flight, std::size_t frame, PointPx centre) {
    flight.members.push_back({frame, centre, timeOf(static_cast<double>(frame))});
}

/// Ten frames that would be at (200, 400) in frame 10, by 20 px across and 15 px up a frame.
LinkedFlight flightBefore() {
    LinkedFlight flight;
    for (std::size_t k = 0; k < 10; ++k) {
        const auto frame = static_cast<double>(k);
        addMember(flight, k, {20.0 * frame, 550.0 - 15.0 * frame});
    }
    flight.x = {0.0, 20.0 / kFrameS, 0.0};
    flight.y = {550.0, -15.0 / kFrameS, 0.0};
    flight.radiusPx = 15.0;
    return flight;
}

/// Sixty-one frames from (200, 400) on, by acrossPx a frame; downwards with 100 px times the cube
/// of u, which runs from -1 to 1: at first 3 * 100 / 30 = 10 px a frame. The one parabola that is
/// nearest to the cube is 0.6 u (Legendre's polynomials), 40 px off at the ends.
LinkedFlight bentFlightAfter(double acrossPx) {
    LinkedFlight flight;
    for (std::size_t k = 10; k <= 70; ++k) {
        const double u = (static_cast<double>(k) - 40.0) / 30.0;
        addMember(flight, k,
                  {200.0 + acrossPx * (static_cast<double>(k) - 10.0), 500.0 + 100.0 * u * u * u});
    }
    flight.referenceTime = timeOf(40.0);
    flight.x = {200.0 + 30.0 * acrossPx, acrossPx / kFrameS, 0.0};
    flight.y = {500.0, 60.0 / 30.0 / kFrameS, 0.0};
    flight.radiusPx = 15.0;
    return flight;
}

// Both flights pass (200, 400), whatever the later one does afterwards.
TEST(FlightContinuation, ALongBentFlightGoesOnFromABounce) {
    EXPECT_EQ(continuation(flightBefore(), bentFlightAfter(20.0)), Continuation::Bounce);
}

// It comes back faster: 40 px a frame, after 25.
TEST(FlightContinuation, ALongBentFlightGoesOnFromAStrike) {
    EXPECT_EQ(continuation(flightBefore(), bentFlightAfter(-40.0)), Continuation::Strike);
}

// The later ball is 100 px from where the earlier one would be, six times its radius.
TEST(FlightContinuation, AFlightElsewhereHasNothingToDoWithIt) {
    LinkedFlight later = bentFlightAfter(20.0);
    for (auto& member : later.members) {
        member.centre.y += 100.0;
    }
    later.y[0] += 100.0;
    EXPECT_EQ(continuation(flightBefore(), later), Continuation::None);
}

}  // namespace
