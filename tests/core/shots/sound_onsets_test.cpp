#include "core/shots/sound_onsets.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

namespace {

using core::shots::findOnsets;

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

}  // namespace
