#include "core/shots/strike_choice.h"

#include <gtest/gtest.h>

namespace {

using namespace core::shots;
using core::Seconds;
using core::timebase::ClipClock;
using core::timebase::FrameStamps;
using core::timebase::Rational;

constexpr int kSessionFps = 240;
constexpr double kStepPx = 20.0;     // way of the ball in a frame
constexpr std::int64_t kUnseen = 6;  // frames for which the ball is outside the picture

/// A film of a hitter who stands left of the picture: each ball comes in at x = 40 px.
struct Session {
    explicit Session(const std::vector<std::int64_t>& strikes, std::int64_t unseen = kUnseen) {
        for (const std::int64_t strike : strikes) {
            SeenFlight flight;
            flight.range = {{strike + unseen}, {strike + unseen + 20}};
            const double seconds = static_cast<double>(flight.range.first.value) / kSessionFps;
            flight.path.referenceTime = {seconds};
            flight.path.x = {40.0, kStepPx * kSessionFps, 0.0};
            flights.push_back(flight);
        }
        for (std::int64_t i = 0; i < 2000; ++i) {
            stamps.ticks.push_back(i);
        }
    }
    [[nodiscard]] std::vector<std::optional<StrikeSound>> choose(
        std::vector<SoundRise> rises) const {
        return chooseStrikeSounds(ContainerTime{stamps}, ClipClock::stamped(stamps).value(),
                                  flights, rises, 1.0);
    }
    std::vector<SeenFlight> flights;
    FrameStamps stamps{{}, Rational(1, kSessionFps)};
};

Seconds at(std::int64_t frame) {
    return {static_cast<double>(frame) / kSessionFps};
}

TEST(StrikeChoice, IsTheStrongestSoundOfAFewFlights) {
    const Session session{{100, 400}};
    const auto chosen =
        session.choose({{at(92), 20.0}, {at(100), 50.0}, {at(400), 30.0}, {at(403), 60.0}});
    ASSERT_EQ(chosen.size(), 2U);
    EXPECT_EQ(chosen[0]->time.seconds, at(100).seconds);
    EXPECT_EQ(chosen[1]->time.seconds, at(403).seconds);
}

// In the third shot something louder than the strike is dropped 8 frames, 160 px, before it.
TEST(StrikeChoice, PrefersTheSoundThatLeadsToWhereTheOthersWereStruck) {
    const Session session{{100, 400, 700, 1000}};
    const auto chosen = session.choose(
        {{at(100), 50.0}, {at(400), 45.0}, {at(692), 80.0}, {at(700), 50.0}, {at(1000), 55.0}});
    ASSERT_EQ(chosen.size(), 4U);
    EXPECT_EQ(chosen[2]->time.seconds, at(700).seconds);
    EXPECT_EQ(chosen[3]->time.seconds, at(1000).seconds);
    EXPECT_TRUE(chosen[2]->leadsToHitter);
}

// A hitter who steps aside once is believed when there is no other sound.
TEST(StrikeChoice, LetsAHitterStepAside) {
    Session session{{100, 400, 700, 1000}};
    const auto chosen =
        session.choose({{at(100), 50.0}, {at(400), 45.0}, {at(690), 50.0}, {at(1000), 55.0}});
    EXPECT_EQ(chosen[2]->time.seconds, at(690).seconds);
    EXPECT_FALSE(chosen[2]->leadsToHitter);
    EXPECT_TRUE(chosen[1]->leadsToHitter);
}

// Places do not agree: the louder sound counts, wherever it leads.
TEST(StrikeChoice, LearnsNoPlaceFromDisorder) {
    const Session session{{100, 400, 700}};
    const auto chosen =
        session.choose({{at(100), 50.0}, {at(388), 50.0}, {at(694), 30.0}, {at(700), 29.0}});
    EXPECT_EQ(chosen[1]->time.seconds, at(388).seconds);
    EXPECT_EQ(chosen[2]->time.seconds, at(694).seconds);
    EXPECT_FALSE(chosen[2]->leadsToHitter);
}

TEST(StrikeChoice, IsAbsentWithoutASoundAboutTheFlight) {
    const Session session{{100}};
    EXPECT_FALSE(session.choose({{at(300), 50.0}})[0].has_value());
    EXPECT_FALSE(session.choose({})[0].has_value());
}

}  // namespace
