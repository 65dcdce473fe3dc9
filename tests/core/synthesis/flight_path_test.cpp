#include "core/synthesis/flight_path.h"

#include <gtest/gtest.h>

#include "tests/support/reference_csv.h"

namespace core::synthesis {
namespace {

constexpr double kRoundingM = 1e-12;
/// Runge-Kutta in steps of 0.5 ms against a tolerance of 1e-12: far below a thousandth of a pixel.
constexpr double kIntegrationM = 1e-9;

TEST(FlightPath, WithoutAirThePlaceIsTheClosedForm) {
    Flight flight;
    flight.strike = {0.25};
    flight.positionM = {-1.0, 0.5, 3.0};
    flight.velocityMPerS = {20.0, -4.0, 1.0};
    const FlightPath path{flight, Air{}};
    // 0.1 s later: -1 + 2; 0.5 - 0.4 + 9.80665/2 0.01; 3 + 0.1.
    const FlightState state = path.at({0.35});
    EXPECT_NEAR(state.positionM[0], 1.0, kRoundingM);
    EXPECT_NEAR(state.positionM[1], 0.14903325, kRoundingM);
    EXPECT_NEAR(state.positionM[2], 3.1, kRoundingM);
    EXPECT_NEAR(state.velocityMPerS[1], -3.019335, kRoundingM);
}

// tests/data/synthesis/flights.csv: scipy.integrate.solve_ivp.
TEST(FlightPath, DragAndLiftAgreeWithScipy) {
    const auto table = tests::ReferenceTable::load("synthesis/flights.csv");
    ASSERT_EQ(table.rowCount(), 8U);
    for (std::size_t row = 0; row < table.rowCount(); ++row) {
        const auto vector = [&](const std::string& name) {
            return Vector3{table.number(row, name + "x"), table.number(row, name + "y"),
                           table.number(row, name + "z")};
        };
        Flight flight;
        flight.positionM = vector("p");
        flight.velocityMPerS = vector("v");
        flight.spinRadPerS = vector("w");
        flight.ball.massKg = table.number(row, "mass");
        flight.ball.diameterM = table.number(row, "diameter");
        const Air air{.gravityMPerS2 = vector("g"),
                      .densityKgPerM3 = table.number(row, "density"),
                      .dragCoefficient = table.number(row, "drag"),
                      .liftCoefficient = table.number(row, "lift")};
        const FlightState state = FlightPath{flight, air}.at({table.number(row, "t")});
        for (std::size_t part = 0; part < 3; ++part) {
            EXPECT_NEAR(state.positionM[part], vector("q")[part], kIntegrationM);
            EXPECT_NEAR(state.velocityMPerS[part], vector("u")[part], kIntegrationM);
        }
    }
}

TEST(FlightPath, ABounceTurnsThePathAndChangesTheSpin) {
    Flight flight;
    flight.positionM = {0.0, 0.0, 3.0};
    flight.velocityMPerS = {10.0, 5.0, 0.0};
    flight.spinRadPerS = {0.0, 0.0, 30.0};
    flight.ball.diameterM = 0.06;
    flight.bounce = Bounce{.time = {0.1}, .restitution = 0.6, .friction = 0.1};
    const Air still{.gravityMPerS2 = {0.0, 0.0, 0.0}};
    const FlightPath path{flight, still};
    // Up to the bounce straight on; then 0.1 1.6 5 m/s less along and 0.6 5 m/s up, and
    // 0.8/(2/3 0.03) = 40 rad/s more (bounce_test.cpp).
    EXPECT_NEAR(path.at({0.1}).positionM[1], 0.5, kRoundingM);
    const FlightState after = path.at({0.2});
    EXPECT_NEAR(after.positionM[0], 1.0 + 0.92, kRoundingM);
    EXPECT_NEAR(after.positionM[1], 0.5 - 0.3, kRoundingM);
    // 3 rad to the bounce and 7 rad after it.
    const Quaternion turnedBall = turned({}, {0.0, 0.0, 10.0}, {1.0});
    EXPECT_NEAR(angleBetween(after.attitude, turnedBall).radians, 0.0, 1e-7);
}

// Common practice, no source: backspin carries a ball, topspin makes it dip.
TEST(FlightPath, BackspinOfABallFlyingRightLiftsIt) {
    Flight flight;
    flight.positionM = {0.0, 0.0, 3.0};
    flight.velocityMPerS = {30.0, 0.0, 0.0};
    flight.spinRadPerS = {0.0, 0.0, -200.0};  // the top of the ball moves against the flight
    const Air air{.liftCoefficient = 0.2};
    EXPECT_LT(FlightPath(flight, air).at({0.0}).accelerationMPerS2[1],
              FlightPath(flight, Air{}).at({0.0}).accelerationMPerS2[1]);
}

TEST(FlightPath, TheBallIsThereOnlyBetweenStrikeAndEndOfLife) {
    Flight flight;
    flight.strike = {0.5};
    flight.lifetime = {0.2};
    flight.positionM = {0.0, 0.0, 3.0};
    const FlightPath path{flight, Air{}};
    EXPECT_FALSE(path.isUnderWay({0.499}));
    EXPECT_TRUE(path.isUnderWay({0.6}));
    EXPECT_FALSE(path.isUnderWay({0.701}));
}

}  // namespace
}  // namespace core::synthesis
