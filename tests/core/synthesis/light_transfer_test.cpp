#include "core/synthesis/light_transfer.h"

#include <gtest/gtest.h>

#include <cmath>

#include "core/synthesis/random_numbers.h"

namespace core::synthesis {
namespace {

// IEC 61966-2-1:1999, worked by hand: ((0.5 + 0.055)/1.055)^2.4 = 0.214041; 0.04/12.92 = 0.003096.
TEST(LightTransfer, FollowsTheStandard) {
    EXPECT_NEAR(lightFromStored(0.5), 0.214041, 5e-7);
    EXPECT_NEAR(lightFromStored(0.04), 0.00309598, 5e-9);
    EXPECT_NEAR(storedFromLight(0.214041), 0.5, 1e-6);
    EXPECT_NEAR(storedFromLight(lightFromStored(0.83)), 0.83, 1e-12);
}

// Photon transfer, EMVA standard 1288: variance = L/F + (r/F)^2 in units of the full well.
TEST(SensorModel, NoiseFollowsThePhotonTransferLaw) {
    constexpr double kFullWell = 1500.0;
    constexpr double kRead = 12.0;
    const SensorModel sensor{{.fullWellElectrons = kFullWell, .readNoiseElectrons = kRead}, 9};
    constexpr std::size_t kPixels = 60000;
    for (const double light : {0.1, 0.3, 0.6}) {
        const std::vector<SensorModel::Level> levels(kPixels,
                                                     sensor.level(static_cast<float>(light)));
        std::vector<std::uint8_t> bytes(kPixels);
        sensor.expose(levels.data(), bytes.data(), kPixels, 3, 0);
        double sum = 0.0;
        double squares = 0.0;
        for (const std::uint8_t byte : bytes) {
            const double back = lightFromStored(byte / 255.0);
            sum += back;
            squares += back * back;
        }
        const double mean = sum / kPixels;
        const double variance = squares / kPixels - mean * mean;
        const double expected = light / kFullWell + std::pow(kRead / kFullWell, 2);
        // Sampling error of a variance of 60000 is 0.6 %; the rest is the rounding to bytes (a
        // twelfth of a step squared, up to 3 % here) and the linear step through the curve.
        EXPECT_NEAR(variance / expected, 1.0, 0.06) << "at light " << light;
        EXPECT_NEAR(mean, light, 0.01 * light);
    }
}

// Rosetta Code, task "Pseudo-random numbers/Splitmix64", seed 1234567.
TEST(RandomNumbers, FollowThePublishedSequence) {
    RandomNumbers random{1234567};
    EXPECT_EQ(random.next(), 6457827717110365317ULL);
    EXPECT_EQ(random.next(), 3203168211198807973ULL);
    EXPECT_EQ(random.next(), 9817491932198370423ULL);
}

}  // namespace
}  // namespace core::synthesis
