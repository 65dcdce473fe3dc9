#include "core/reading/shot_flight.h"

#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <nlohmann/json.hpp>

#include "core/intake/read_film.h"
#include "tests/support/must.h"
#include "tests/support/reference_csv.h"

/// Flight and spin against what an independent renderer wrote beside its films
/// (tests/data/footage/README.md). The parts of the spin are worked out here from its velocity and
/// angular velocity with plain cross products; its camera looks down by 3 degrees, which program
/// and test both leave out.
namespace tests::intake {
namespace {

using core::reading::ShotFlight;

struct Vector {
    double x{}, y{}, z{};
};
Vector cross(Vector a, Vector b) {
    return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}
double dot(Vector a, Vector b) {
    return a.x * b.x + a.y * b.y + a.z * b.z;
}
Vector unit(Vector a) {
    const double length = std::sqrt(dot(a, a));
    return {a.x / length, a.y / length, a.z / length};
}
Vector vectorIn(const nlohmann::json& json) {
    return {json[0].get<double>(), json[1].get<double>(), json[2].get<double>()};
}

nlohmann::json truthOf(const std::string& clip) {
    std::ifstream stream{dataFolder() / "footage" / (clip + ".json")};
    return nlohmann::json::parse(stream);
}

ShotFlight readFlight(const std::string& clip, double diameterM) {
    core::project::Session session;
    session.ballDiameterMm = 1000.0 * diameterM;
    const auto film =
        must(core::intake::readFilm(dataFolder() / "footage" / (clip + ".mp4"), session, {}));
    const auto flight = core::reading::shotFlightOf(
        film.shots.at(0).reading.value(),
        {{diameterM}, {core::reading::factsOf(session, film.clip).ballDiameter->sigma.metres}});
    EXPECT_TRUE(flight.has_value());
    return flight.value();
}

TEST(ShotFlight, SpeedLaunchAndThePartsOfTheSpinAreThoseOfTheRenderer) {
    const auto truth = truthOf("slow_240in30_tagged");
    const auto& shot = truth["shots"][0];
    const Vector velocity = vectorIn(shot["velocity_m_s"]);
    const Vector spin = vectorIn(shot["omega_rad_s"]);
    const Vector along = unit(velocity);
    const Vector across = unit(cross({0.0, -1.0, 0.0}, along));
    const Vector above = cross(along, across);
    const double rpm = 30.0 / std::acos(-1.0);
    const double diameter = truth["ball_diameter_m"];
    const ShotFlight flight = readFlight("slow_240in30_tagged", diameter);
    const double speed = shot["speed_m_s"];
    EXPECT_NEAR(flight.speed.value.metresPerSecond, speed, 0.02 * speed);
    EXPECT_NEAR(flight.launchAngle.value.radians,
                std::atan2(-velocity.y, std::hypot(velocity.x, velocity.z)), 0.01);
    EXPECT_NEAR(flight.topspin.value.rpm, dot(spin, across) * rpm, 20.0);
    const auto within = [](double value, double sigma, double expected) {
        EXPECT_NEAR(value, expected, 3.0 * sigma);
        EXPECT_GT(sigma, 0.0);
    };
    within(flight.sidespin.value.rpm, flight.sidespin.sigma.rpm, -dot(spin, above) * rpm);
    within(flight.rifleSpin.value.rpm, flight.rifleSpin.sigma.rpm, dot(spin, along) * rpm);
    within(flight.axisTilt.value.radians, flight.axisTilt.sigma.radians,
           std::atan2(-dot(spin, above), dot(spin, across)));
    const double parameter = 0.5 * diameter * std::sqrt(dot(spin, spin)) / speed;
    EXPECT_NEAR(flight.spinParameter.value.value, parameter, 0.03 * parameter);
}

/// The parts are perpendicular: their squares add up to that of the whole spin.
TEST(ShotFlight, ThePartsMakeUpTheWholeSpin) {
    const auto truth = truthOf("quarter_tilted_120fps");
    const ShotFlight flight = readFlight("quarter_tilted_120fps", truth["ball_diameter_m"]);
    const double whole =
        std::hypot(flight.topspin.value.rpm, flight.sidespin.value.rpm, flight.rifleSpin.value.rpm);
    const double rpm = truth["shots"][0]["spin_rpm"];
    EXPECT_NEAR(whole, rpm, 0.01 * rpm);
}

TEST(ShotFlight, WithoutAFlightThereIsNone) {
    core::reading::PictureReading reading;
    EXPECT_FALSE(core::reading::shotFlightOf(reading, {{0.067}, {0.0007}}).has_value());
}

}  // namespace
}  // namespace tests::intake
