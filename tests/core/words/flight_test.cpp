#include "core/words/flight.h"

#include "core/findings/ball_speed.h"
#include "tests/support/in_german.h"

#include <gtest/gtest.h>

namespace core::words {
namespace {

reading::ShotFlight flightWith(double speed, double topspin, double sidespin) {
    return {.speed = {{speed}, {0.3}},
            .launchAngle = {fromDegrees(3.7), fromDegrees(0.5)},
            .topspin = {{topspin}, {12.0}},
            .sidespin = {{sidespin}, {20.0}},
            .rifleSpin = {{448.0}, {30.0}},
            .axisTilt = {fromDegrees(-6.6), fromDegrees(0.7)},
            .spinParameter = {{0.427}, {0.006}}};
}

TEST(FlightWords, ASenseHasAWordAndNoSign) {
    const auto lines = linesOf(flightWith(22.43, -2413.0, -278.0));
    ASSERT_EQ(lines.size(), kFlightNumbers);
    EXPECT_EQ(lines[0].title, "Ball speed");
    EXPECT_EQ(lines[0].text, "22.43 ± 0.30 m/s");
    EXPECT_EQ(lines[1].text, "3.70 ± 0.50°");
    EXPECT_EQ(lines[2].title, "Backspin");
    EXPECT_EQ(lines[2].text, "2413 ± 12 rpm");
    EXPECT_EQ(lines[3].title, "Sidespin, left");
    EXPECT_EQ(lines[3].text, "278 ± 20 rpm");
    EXPECT_EQ(lines[5].text, "-6.60 ± 0.70°");
    EXPECT_EQ(linesOf(flightWith(22.43, 2413.0, 278.0))[2].title, "Topspin");
}

TEST(FlightWords, GermanHasItsWordsAndItsDecimalSign) {
    const InGerman german;
    const auto lines = linesOf(flightWith(22.43, -2413.0, -278.0));
    EXPECT_EQ(lines[0].text, "22,43 ± 0,30 m/s");
    EXPECT_EQ(lines[2].text, "2413 ± 12 U/min");
    EXPECT_EQ(lines[3].title, "Seitdrall, links");
    const std::vector flights{flightWith(20.0, -2400.0, 100.0), flightWith(22.0, -2600.0, 120.0)};
    const std::string words = summaryOf(flights);
    EXPECT_EQ(words.find("Aus 2 Schlägen: Ballgeschwindigkeit 21,0 m/s (sd 1,4), "), 0U) << words;
}

// Of 20 and 22 the mean is 21 and the standard deviation the square root of 2; of 2400 and
// 2600 they are 2500 and 141.4.
TEST(FlightWords, ManyFlightsAreTakenTogether) {
    const std::vector flights{flightWith(20.0, -2400.0, 100.0), flightWith(22.0, -2600.0, 120.0)};
    const std::string words = summaryOf(flights);
    EXPECT_EQ(words.find("Of 2 shots: ball speed 21.0 m/s (sd 1.4), launch angle "), 0U) << words;
    EXPECT_NE(words.find("backspin 2500 rpm (sd 141), sidespin 110 rpm to the right (sd 14)"),
              std::string::npos)
        << words;
    EXPECT_EQ(summaryOf({}), "");
    EXPECT_EQ(summaryOf(std::span{flights}.first(1)).find("sd"), std::string::npos);
}

TEST(FlightWords, AReadingByMarksHasNoFlight) {
    project::Reading reading;
    reading.inputsJson = R"({"flight": {}})";
    EXPECT_FALSE(findings::flightOf(reading).has_value());
    reading.method = project::ReadingMethod::RotationFit;
    EXPECT_FALSE(findings::flightOf(reading).has_value())
        << "what another program wrote is not ours to judge";
}

}  // namespace
}  // namespace core::words
