#include "core/image/kink.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <random>

namespace core::image {
namespace {

/// A ball that flies, bounces and flies on, by elementary mechanics in steps of 0.1 ms, seen by a
/// pinhole camera: drag by the square of the speed, and an impulse with a coefficient of
/// restitution and of friction (Coulomb) at the ground. Camera axes: x right, y down, z forward.
struct Throw {
    double fps{240.0};
    int frames{30};
    double speed{20.0};         // m/s
    double fallDegrees{12.0};   // below the horizontal
    double towardsCamera{0.0};  // share of the speed
    std::optional<double> bounceFrame{};
    double restitution{0.7};
    double friction{0.4};
    double dragPerM{0.016};  // of a tennis-sized ball
    double noisePx{0.25};
    double barrel{0.0};  // lens distortion at half the width
    double swayPx{0.0};
    double stampJitter{0.0};    // frame intervals by which stamps and instants both are uneven
    std::vector<int> missed{};  // frames without the ball
    std::optional<int> lost{};  // a frame that was not written, and no time stamp says so
    double focalPx{1100.0};
    double radiusM{0.033};
};

constexpr std::array kMiddle{640.0, 360.0};

std::vector<PathPoint> seen(const Throw& t, int seed) {
    std::mt19937 random{static_cast<unsigned>(seed)};
    std::normal_distribution<double> normal{0.0, 1.0};
    const double fall = t.fallDegrees * kPi / 180.0;
    std::array position{-0.5 * t.speed * t.frames / t.fps, -0.3, 3.0};
    std::array velocity{t.speed * std::cos(fall), t.speed * std::sin(fall),
                        -t.towardsCamera * t.speed};
    std::vector<PathPoint> points;
    double now = 0.0;
    bool hasBounced = false;
    for (int frame = 0; frame < t.frames; ++frame) {
        const double at = (frame + t.stampJitter * normal(random)) / t.fps;
        for (constexpr double kStep = 1e-4; now < at; now += kStep) {
            if (t.bounceFrame && !hasBounced && now >= *t.bounceFrame / t.fps) {
                const double impulse = (1.0 + t.restitution) * velocity[1];
                velocity[1] -= impulse;
                velocity[0] -= t.friction * impulse;
                hasBounced = true;
            }
            const double speed = std::hypot(velocity[0], velocity[1], velocity[2]);
            for (std::size_t k = 0; k < 3; ++k) {
                velocity[k] +=
                    kStep * ((k == 1 ? 9.80665 : 0.0) - t.dragPerM * speed * velocity[k]);
                position[k] += kStep * velocity[k];
            }
        }
        const double scale = t.focalPx / position[2];
        const double x = scale * position[0];
        const double y = scale * position[1];
        const double bent = 1.0 + t.barrel * (x * x + y * y) / (kMiddle[0] * kMiddle[0]);
        const double sway = t.swayPx * std::sin(2.0 * kPi * 5.0 * at + seed);
        const double stamp = t.lost && frame > *t.lost ? at - 1.0 / t.fps : at;
        const bool isMissed = std::ranges::find(t.missed, frame) != t.missed.end();
        if (!isMissed && t.lost != frame) {
            points.push_back({{stamp},
                              {kMiddle[0] + bent * x + sway + t.noisePx * normal(random),
                               kMiddle[1] + bent * y + sway + t.noisePx * normal(random)},
                              scale * t.radiusM * (1.0 + 0.01 * normal(random)),
                              0.2});
        }
    }
    return points;
}

constexpr int kSeeds = 50;

/// In how many of the throws a kink is found.
int foundIn(const Throw& thrown) {
    int found = 0;
    for (int seed = 0; seed < kSeeds; ++seed) {
        found += findKinks(seen(thrown, seed)).empty() ? 0 : 1;
    }
    return found;
}

/// In how many exactly one kink is found, and between these two frames.
int placedIn(const Throw& thrown) {
    int placed = 0;
    for (int seed = 0; seed < kSeeds; ++seed) {
        const auto points = seen(thrown, seed);
        const auto kinks = findKinks(points);
        const double bounce = *thrown.bounceFrame / thrown.fps;
        placed += kinks.size() == 1 && points[kinks[0].after].time.seconds >= bounce &&
                          points[kinks[0].after - 1].time.seconds <= bounce
                      ? 1
                      : 0;
    }
    return placed;
}

TEST(Kink, AFlightWithoutOneHasNone) {
    EXPECT_EQ(foundIn({}), 0);
    EXPECT_EQ(foundIn({.fps = 120.0, .frames = 10}), 0);
    EXPECT_EQ(foundIn({.speed = 45.0, .dragPerM = 0.03}), 0);
    EXPECT_EQ(foundIn({.frames = 50, .fallDegrees = -15.0}), 0);
}

TEST(Kink, NeitherApproachNorLensNorHandNorUnevenFramesMakeOne) {
    EXPECT_EQ(foundIn({.towardsCamera = 0.4}), 0);
    EXPECT_EQ(foundIn({.towardsCamera = -0.4}), 0);
    EXPECT_EQ(foundIn({.barrel = -0.06}), 0);
    EXPECT_EQ(foundIn({.swayPx = 1.0}), 0);
    EXPECT_EQ(foundIn({.stampJitter = 0.15}), 0);
    EXPECT_EQ(foundIn({.missed = {8, 9, 10, 17}}), 0);
    EXPECT_EQ(foundIn({.lost = 12}), 0);
    EXPECT_EQ(foundIn({.noisePx = 1.5}), 0);
}

TEST(Kink, ABounceIsPlacedBetweenItsFrames) {
    EXPECT_EQ(placedIn({.bounceFrame = 15.4}), kSeeds);
    EXPECT_EQ(placedIn({.fps = 120.0, .frames = 16, .bounceFrame = 7.5}), kSeeds);
    EXPECT_EQ(placedIn({.fallDegrees = 6.0, .bounceFrame = 20.5}), kSeeds);
    EXPECT_EQ(placedIn({.bounceFrame = 25.5}), kSeeds);  // few frames after it
    EXPECT_EQ(placedIn({.bounceFrame = 5.5}), kSeeds);   // few frames before it
    EXPECT_EQ(placedIn({.towardsCamera = 0.3, .bounceFrame = 15.5}), kSeeds);
    EXPECT_EQ(placedIn({.bounceFrame = 15.5, .swayPx = 1.0}), kSeeds);
}

TEST(Kink, ABounceIsFoundWhereFramesWereMissedAboutIt) {
    EXPECT_EQ(placedIn({.bounceFrame = 15.4, .missed = {14, 15, 16, 17}}), kSeeds);
}

TEST(Kink, ABounceIsFoundAtLowContrast) {
    // Centres that scatter by 1.5 px, as of a ball that hardly stands out.
    EXPECT_GE(foundIn({.bounceFrame = 15.4, .noisePx = 1.5}), 49);
}

TEST(Kink, VelocitiesBeforeAndAfterAreThoseOfTheBall) {
    // 20 m/s at 12 degrees, without drag, 3 m away: 11 px/ms per m/s * 1100/3/1000.
    const Throw thrown{.bounceFrame = 15.4, .dragPerM = 0.0, .noisePx = 0.05};
    const auto kinks = findKinks(seen(thrown, 1));
    ASSERT_EQ(kinks.size(), 1U);
    const double scale = thrown.focalPx / 3.0;
    const double across = 20.0 * std::cos(12.0 * kPi / 180.0);
    const double down = 20.0 * std::sin(12.0 * kPi / 180.0) + 9.80665 * 15.4 / 240.0;
    EXPECT_NEAR(kinks[0].time.seconds, 15.4 / 240.0, 2e-4);
    EXPECT_NEAR(kinks[0].velocityBefore.x, scale * across, 0.01 * scale * across);
    EXPECT_NEAR(kinks[0].velocityBefore.y, scale * down, 0.01 * scale * across);
    EXPECT_NEAR(kinks[0].velocityAfter.x, scale * (across - 0.4 * 1.7 * down),
                0.01 * scale * across);
    EXPECT_NEAR(kinks[0].velocityAfter.y, -scale * 0.7 * down, 0.01 * scale * across);
    EXPECT_FALSE(kinks[0].isStrike());
}

TEST(Kink, AStrikeGivesSpeedOrTurnsTheBallBack) {
    EXPECT_TRUE(isStruck({-500.0, 100.0}, {900.0, -50.0}));   // a fed ball, struck
    EXPECT_TRUE(isStruck({0.0, 300.0}, {1200.0, -100.0}));    // a dropped ball, struck
    EXPECT_TRUE(isStruck({-900.0, 0.0}, {800.0, -100.0}));    // blocked
    EXPECT_FALSE(isStruck({900.0, 300.0}, {700.0, -200.0}));  // bounced
    EXPECT_FALSE(isStruck({900.0, 0.0}, {-600.0, 50.0}));     // off a wall
    EXPECT_FALSE(isStruck({900.0, 0.0}, {300.0, 300.0}));     // into a net
}

TEST(Kink, TheShotIsTheFirstPartAfterTheLastStrike) {
    const Kink bounce{{0.0}, 8, {900.0, 300.0}, {700.0, -200.0}};
    Kink strike{{0.0}, 12, {-500.0, 0.0}, {900.0, 0.0}};
    EXPECT_EQ(shotAmong({}, 20), (PathPart{0, 20}));
    EXPECT_EQ(shotAmong(std::array{bounce}, 20), (PathPart{0, 8}));
    EXPECT_EQ(shotAmong(std::array{bounce, strike}, 20), (PathPart{12, 20}));
    strike.after = 5;
    EXPECT_EQ(shotAmong(std::array{strike, bounce}, 20), (PathPart{5, 8}));
}

// At 12 degrees and 20 m/s the ground gives back 1.7 * 4.2 m/s, 11 px a frame: 4 px in frame 28 and
// 15 px in frame 29, with a scatter of 0.25 px.
TEST(StrayEnd, TwoFramesAfterABounceAreKnown) {
    int known = 0;
    for (int seed = 0; seed < 100; ++seed) {
        const auto points = seen({.bounceFrame = 27.6}, seed);
        known += strayEnd(points) == std::optional<std::size_t>{28} ? 1 : 0;
    }
    EXPECT_GE(known, 95);
}

TEST(StrayEnd, OneFrameAfterABounceIsKnown) {
    int known = 0;
    for (int seed = 0; seed < 100; ++seed) {
        const auto points = seen({.bounceFrame = 28.5}, seed);
        known += strayEnd(points) == std::optional<std::size_t>{29} ? 1 : 0;
    }
    EXPECT_GE(known, 95);
}

TEST(StrayEnd, AFreeFlightHasNone) {
    int wrong = 0;
    for (int seed = 0; seed < 100; ++seed) {
        wrong += strayEnd(seen({}, seed)) ? 1 : 0;
        wrong += strayEnd(seen({.frames = 10}, seed)) ? 1 : 0;
    }
    EXPECT_LE(wrong, 2);
}

TEST(StrayEnd, TooFewFramesTellNothing) {
    EXPECT_FALSE(strayEnd(seen({.frames = 6, .bounceFrame = 4.5}, 1)).has_value());
}

}  // namespace
}  // namespace core::image
