#include "core/synthesis/random_shot.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "core/synthesis/flight_path.h"

namespace core::synthesis {
namespace {

constexpr std::uint64_t kShots = 150;

std::vector<RandomShot> manyShots() {
    std::vector<RandomShot> shots;
    for (std::uint64_t seed = 0; seed < kShots; ++seed) {
        auto shot = randomShot(seed);
        EXPECT_TRUE(shot.has_value());
        shots.push_back(std::move(shot.value()));
    }
    return shots;
}

TEST(RandomShot, EveryShotLiesInItsRanges) {
    const ShotRanges ranges;
    for (const RandomShot& shot : manyShots()) {
        const ShotConditions& is = shot.conditions;
        EXPECT_GE(shot.truth.spin.rpm, 599.9);
        EXPECT_LE(shot.truth.spin.rpm, 4500.1);
        EXPECT_TRUE(is.captureFps == 120.0 || is.captureFps == 240.0);
        EXPECT_GE(is.framesPerTurn, 2.999);
        EXPECT_GE(is.framesFullyInside, 8U);
        EXPECT_GE(is.ballDiameterPx, 24.0);
        EXPECT_LE(is.ballDiameterPx, 80.0);
        EXPECT_GE(shot.scene.shutter.exposure.seconds, 1.0 / 4000.0 - 1e-12);
        EXPECT_LE(shot.scene.shutter.exposure.seconds, 1.0 / 250.0 + 1e-12);
        EXPECT_LE(is.readoutS, 1.0 / is.captureFps);
        EXPECT_TRUE(checkScene(shot.scene).has_value());
    }
}

TEST(RandomShot, AllMarkingsBackgroundsAndBothRatesOccur) {
    std::set<Marking> markings;
    std::set<BackgroundKind> backgrounds;
    std::set<double> rates;
    for (const RandomShot& shot : manyShots()) {
        markings.insert(shot.conditions.marking);
        backgrounds.insert(shot.conditions.background);
        rates.insert(shot.conditions.captureFps);
    }
    EXPECT_EQ(markings.size(), 5U);
    EXPECT_EQ(backgrounds.size(), 5U);
    EXPECT_EQ(rates.size(), 2U);
}

// Directions even over the sphere have parts of mean 0 and variance 1/3; the mean of n of them has
// a standard deviation of 1/sqrt(3 n). Half dark balls are chosen by attitude, not by axis.
TEST(RandomShot, AxesPointInAllDirections) {
    Vector3 sum{};
    Vector3 squares{};
    for (const RandomShot& shot : manyShots()) {
        for (std::size_t part = 0; part < 3; ++part) {
            sum[part] += shot.truth.axis[part] / kShots;
            squares[part] += shot.truth.axis[part] * shot.truth.axis[part] / kShots;
        }
    }
    for (std::size_t part = 0; part < 3; ++part) {
        EXPECT_LT(std::abs(sum[part]), 3.0 / std::sqrt(3.0 * kShots));
        // Variance of a squared part is 1/5 - 1/9 = 4/45.
        EXPECT_NEAR(squares[part], 1.0 / 3.0, 3.0 * std::sqrt(4.0 / 45.0 / kShots));
    }
}

TEST(RandomShot, TheSameSeedGivesTheSameShot) {
    const auto one = randomShot(7);
    const auto other = randomShot(7);
    ASSERT_TRUE(one.has_value() && other.has_value());
    EXPECT_EQ(one.value().truth.spinRadPerS, other.value().truth.spinRadPerS);
    EXPECT_EQ(one.value().scene.seed, other.value().scene.seed);
}

ShotRanges largeSmear() {
    ShotRanges ranges;
    ranges.exposure = {{1.0 / 600.0}, {1.0 / 125.0}};
    ranges.smear = {0.7, 1.2};
    ranges.mostExposureTurnDeg = 45.0;
    return ranges;
}

constexpr std::uint64_t kFewShots = 12;

TEST(RandomShot, SmearAndTurnDuringTheExposureLieInTheirRanges) {
    for (std::uint64_t seed = 0; seed < kFewShots; ++seed) {
        const auto shot = randomShot(seed, largeSmear());
        ASSERT_TRUE(shot.has_value()) << seed;
        const ShotConditions& is = shot.value().conditions;
        EXPECT_GE(is.blurPx / is.ballDiameterPx, 0.7);
        EXPECT_LE(is.blurPx / is.ballDiameterPx, 1.2);
        EXPECT_LE(is.exposureTurnDeg, 45.0);
    }
}

TEST(RandomShot, ABallBouncesInViewAndItsShotEndsThere) {
    ShotRanges ranges;
    ranges.climb = {-0.6, -0.1};
    ranges.fewestFrames = 6;
    ranges.mostFrames = 60;
    ranges.bounceAfter = Interval<Seconds>{{0.05}, {0.12}};
    for (std::uint64_t seed = 0; seed < kFewShots; ++seed) {
        const auto shot = randomShot(seed, ranges);
        ASSERT_TRUE(shot.has_value()) << seed;
        const Scene& scene = shot.value().scene;
        const Flight& flight = scene.flights.front();
        const auto& frames = shot.value().truth.frames;
        const auto whole = std::find_if(frames.begin(), frames.end(),
                                        [](const FrameTruth& f) { return f.isFullyInside; });
        const double after = flight.bounce->time.seconds - whole->captureTime.seconds;
        EXPECT_GE(after, 0.05);
        EXPECT_LE(after, 0.12);
        EXPECT_LE(frames.back().captureTime, flight.bounce->time);
        // It falls before the bounce and rises after it, and is seen before and after.
        const FlightPath path{flight, scene.air};
        const auto alongUp = [&](double time) {
            return dotOf(path.at({time}).velocityMPerS, flight.bounce->normal);
        };
        EXPECT_LT(alongUp(flight.bounce->time.seconds), 0.0);
        EXPECT_GT(alongUp(flight.bounce->time.seconds + 1e-6), 0.0);
    }
}

// The way of the fed ball is that without drag and lift, which hold it back by less than a tenth.
TEST(RandomShot, AFedBallArrivesWhereAndWhenTheOtherIsStruck) {
    ShotRanges ranges;
    ranges.isFed = true;
    for (std::uint64_t seed = 0; seed < kFewShots; ++seed) {
        const auto shot = randomShot(seed, ranges);
        ASSERT_TRUE(shot.has_value()) << seed;
        const Scene& scene = shot.value().scene;
        ASSERT_EQ(scene.flights.size(), 2U);
        const Flight& struck = scene.flights.front();
        const Flight& fed = scene.flights.back();
        EXPECT_NEAR(fed.strike.seconds + fed.lifetime.seconds, struck.strike.seconds, 1e-12);
        const FlightPath path{fed, scene.air};
        const Vector3 way = sumOf(struck.positionM, scaled(fed.positionM, -1.0));
        const Vector3 miss =
            sumOf(path.at(struck.strike).positionM, scaled(struck.positionM, -1.0));
        EXPECT_LT(lengthOf(miss), 0.1 * lengthOf(way)) << seed;
    }
}

TEST(RandomShot, EmptyRangesAreRefused) {
    ShotRanges none;
    none.markings.clear();
    EXPECT_EQ(randomShot(1, none).error().code, ErrorCode::InvalidInput);
    ShotRanges impossible;
    impossible.fewestTurns = 1000.0;
    EXPECT_EQ(randomShot(1, impossible).error().code, ErrorCode::InvalidInput);
}

}  // namespace
}  // namespace core::synthesis
