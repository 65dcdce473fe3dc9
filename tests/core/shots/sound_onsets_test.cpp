#include "core/shots/sound_onsets.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

namespace {

using core::shots::findOnsets;
using core::shots::findRises;

core::media::SoundEnvelope murmur(int milliseconds) {
    core::media::SoundEnvelope sound;
    sound.start = {0.25};
    std::mt19937 random(5);
    std::uniform_real_distribution<float> level(0.008F, 0.012F);
    for (int k = 0; k < milliseconds; ++k) {
        sound.level.push_back(level(random));
    }
    return sound;
}

// A blow: full within a step, then falling by half every 8 ms.
void addBlow(core::media::SoundEnvelope& sound, std::size_t at, float peak) {
    for (std::size_t k = at; k < sound.level.size(); ++k) {
        sound.level[k] += peak * std::pow(0.5F, static_cast<float>(k - at) / 8.0F);
    }
}

TEST(SoundOnsets, AreWhereTheBlowsAre) {
    auto sound = murmur(3000);
    addBlow(sound, 700, 0.3F);
    addBlow(sound, 1900, 0.1F);
    const auto onsets = findOnsets(sound);
    ASSERT_EQ(onsets.size(), 2U);
    constexpr double kTolSeconds = 0.003;  // the three steps in which a strike reaches its peak
    EXPECT_NEAR(onsets[0].time.seconds, 0.25 + 0.700, kTolSeconds);
    EXPECT_NEAR(onsets[1].time.seconds, 0.25 + 1.900, kTolSeconds);
    EXPECT_GT(onsets[0].prominence, onsets[1].prominence);
}

TEST(SoundOnsets, AreNotInAVoiceThatSwells) {
    auto sound = murmur(3000);
    for (std::size_t k = 1000; k < 2000; ++k) {
        sound.level[k] +=
            0.1F *
            static_cast<float>(std::sin(3.14159 * (static_cast<double>(k) - 1000.0) / 1000.0));
    }
    EXPECT_TRUE(findOnsets(sound).empty());
}

TEST(SoundOnsets, AreNotInSilenceOrInNoSound) {
    EXPECT_TRUE(findOnsets({}).empty());
    EXPECT_TRUE(findOnsets({{0.0}, std::vector<float>(2000, 0.0F)}).empty());
}

TEST(SoundOnsets, CountABlowWithItsEchoOnce) {
    auto sound = murmur(2000);
    addBlow(sound, 800, 0.3F);
    addBlow(sound, 830, 0.1F);
    EXPECT_EQ(findOnsets(sound).size(), 1U);
}

/// The strongest rise that begins within the milliseconds [from, to) of the sound, 0 without one.
double strongestRise(const core::media::SoundEnvelope& sound, double from, double to) {
    double strongest = 0.0;
    for (const auto& rise : findRises(sound)) {
        const double ms = 1000.0 * (rise.time.seconds - sound.start.seconds);
        if (ms >= from && ms < to) {
            strongest = std::max(strongest, rise.strength);
        }
    }
    return strongest;
}

// 40 ms after the first blow its tail is 2^-5 of it: the second is heard over it.
TEST(SoundRises, HearABlowInTheTailOfAnother) {
    auto sound = murmur(2000);
    addBlow(sound, 800, 0.25F);
    addBlow(sound, 840, 0.3F);
    EXPECT_EQ(findOnsets(sound).size(), 1U);
    EXPECT_GT(strongestRise(sound, 838.0, 842.0), strongestRise(sound, 700.0, 830.0));
    EXPECT_GT(strongestRise(sound, 798.0, 802.0), 0.0);
}

TEST(SoundRises, TakeAnEchoForLessThanTheBlow) {
    auto sound = murmur(2000);
    addBlow(sound, 800, 0.3F);
    addBlow(sound, 830, 0.1F);
    EXPECT_GT(strongestRise(sound, 798.0, 802.0), strongestRise(sound, 810.0, 1000.0));
}

// A boom of 95 Hz swings up and down every 5.3 ms while it dies away.
TEST(SoundRises, AreNotInTheSwingsOfABoom) {
    auto sound = murmur(2000);
    for (std::size_t k = 800; k < 1400; ++k) {
        const double age = 1e-3 * (static_cast<double>(k) - 800.0);
        sound.level[k] += static_cast<float>(0.4 * std::exp(-age / 0.08) *
                                             std::abs(std::sin(2.0 * 3.14159265 * 95.0 * age)));
    }
    EXPECT_GT(strongestRise(sound, 798.0, 806.0), 0.0);
    EXPECT_EQ(strongestRise(sound, 808.0, 2000.0), 0.0);
}

// A slammed door is louder, the blow in it is sharper.
TEST(SoundRises, GoByTheSharpnessWhereItIsKnown) {
    auto sound = murmur(2000);
    auto sharp = murmur(2000);
    addBlow(sound, 800, 0.6F);
    addBlow(sharp, 800, 0.1F);
    addBlow(sound, 850, 0.3F);
    addBlow(sharp, 850, 0.3F);
    sound.sharpness = sharp.level;
    EXPECT_GT(strongestRise(sound, 848.0, 852.0), strongestRise(sound, 798.0, 840.0));
}

TEST(SoundRises, AreNotInSilenceOrInNoSound) {
    EXPECT_TRUE(findRises({}).empty());
    EXPECT_TRUE(findRises({{0.0}, std::vector<float>(2000, 0.0F)}).empty());
    EXPECT_TRUE(findRises(murmur(3000)).empty());
}

}  // namespace
