#include "core/media/file/sound_envelope.h"

#include <gtest/gtest.h>

#include <cmath>

#include "tests/core/media/ffmpeg_programs.h"

namespace {

using namespace core;
using tests::makeClip;

constexpr const char* kPicture = "-f lavfi -i testsrc=size=64x48:rate=30:duration=2 ";

media::SoundEnvelope envelopeOf(const std::filesystem::path& clip) {
    auto read = media::readSoundEnvelope(clip);
    EXPECT_TRUE(read.has_value()) << read.error().message;
    EXPECT_TRUE(read.value().has_value());
    return *read.value();
}

/// Silence but for a full-scale square burst of 1 kHz in [from, to) seconds.
std::string burst(const std::string& from, const std::string& to, const std::string& rate) {
    return "-f lavfi -i \"aevalsrc='if(between(t," + from + "," + to +
           "),0.5*(1-2*lt(sin(2*PI*1000*t+0.01),0)),0)':d=2:s=" + rate + "\" ";
}

// A square wave of amplitude 0.5 has the level 0.5 in every step; by construction.
TEST(SoundEnvelope, OfUncompressedSoundIsExactToTheStep) {
    for (const std::string rate : {"48000", "44100", "8000"}) {
        const auto clip = makeClip("pcm" + rate + ".mov", kPicture + burst("0.5", "0.6", rate) +
                                                              "-c:v mjpeg -c:a pcm_s16le");
        const auto envelope = envelopeOf(clip);
        constexpr double kTolLevel = 1e-3;  // 16-bit rounding of the samples
        EXPECT_NEAR(envelope.start.seconds, 0.0, 1e-9);
        ASSERT_EQ(envelope.level.size(), 2000U) << rate;
        for (std::size_t step = 0; step < envelope.level.size(); ++step) {
            const bool isBorder = step == 599 || step == 600;  // between() is closed
            const double expected = step >= 500 && step < 600 ? 0.5 : 0.0;
            if (!isBorder) {
                EXPECT_NEAR(envelope.level[step], expected, kTolLevel) << rate << " step " << step;
            }
        }
    }
}

// The square wave jumps by 1 twice a millisecond of 48 samples: sqrt(2 / 48) in every step.
TEST(SoundEnvelope, SharpnessIsOfTheChangesFromSampleToSample) {
    const auto clip = makeClip(
        "sharp.mov", kPicture + burst("0.5", "0.6", "48000") + "-c:v mjpeg -c:a pcm_s16le");
    const auto envelope = envelopeOf(clip);
    ASSERT_EQ(envelope.sharpness.size(), envelope.level.size());
    constexpr double kTol = 1e-3;  // 16-bit rounding of the samples
    for (std::size_t step = 501; step < 599; ++step) {
        EXPECT_NEAR(envelope.sharpness[step], std::sqrt(2.0 / 48.0), kTol) << "step " << step;
    }
    EXPECT_NEAR(envelope.sharpness[700], 0.0, kTol);
}

TEST(SoundEnvelope, OfAacStartsWhereThePlayerStarts) {
    // The encoder's priming is cut by the edit list; AAC blurs an attack by less than a block of
    // 1024 samples, 21 ms.
    const auto clip = makeClip("aac.mp4", kPicture + burst("1.0", "1.2", "48000") +
                                              "-c:v libx264 -preset ultrafast -c:a aac -b:a 192k");
    const auto envelope = envelopeOf(clip);
    const auto at = [&](double seconds) {
        return envelope.level.at(
            static_cast<std::size_t>((seconds - envelope.start.seconds) * 1000.0));
    };
    EXPECT_LT(at(0.95), 0.02);
    EXPECT_NEAR(at(1.1), 0.5, 0.1);  // lossy coding of a square wave
    EXPECT_LT(at(1.25), 0.02);
}

TEST(SoundEnvelope, AveragesSquaresOverChannels) {
    // One channel of two at 0.5: sqrt(0.25 / 2).
    const auto clip = makeClip("stereo.mov", std::string{kPicture} +
                                                 "-f lavfi -i aevalsrc='0.5|0':d=1:s=48000 "
                                                 "-c:v mjpeg -c:a pcm_s16le");
    EXPECT_NEAR(envelopeOf(clip).level.at(500), std::sqrt(0.125), 1e-3);
}

TEST(SoundEnvelope, KeepsTheOffsetOfALateTrack) {
    const auto clip =
        makeClip("late.mov", std::string{kPicture} + "-itsoffset 0.7 " +
                                 burst("0.5", "0.6", "48000") + "-c:v mjpeg -c:a pcm_s16le");
    const auto envelope = envelopeOf(clip);
    const auto step = static_cast<std::size_t>(
        std::lround((1.25 - envelope.start.seconds) * 1000.0));  // 0.7 + 0.55
    EXPECT_NEAR(envelope.level.at(step), 0.5, 1e-3);
    EXPECT_NEAR(envelope.level.at(step - 100), 0.0, 1e-3);
}

TEST(SoundEnvelope, IsAbsentWithoutASoundTrack) {
    const auto clip = makeClip("mute.mp4", std::string{kPicture} + "-c:v libx264");
    const auto read = media::readSoundEnvelope(clip);
    ASSERT_TRUE(read.has_value());
    EXPECT_FALSE(read.value().has_value());
}

TEST(SoundEnvelope, ErrorsAreThoseOfTheIndex) {
    EXPECT_EQ(media::readSoundEnvelope(tests::clipFolder() / "none.mp4").error().code,
              ErrorCode::NotFound);
    EXPECT_EQ(media::readSoundEnvelope(tests::writeFile("text.mp4", "no sound")).error().code,
              ErrorCode::Unreadable);
    std::stop_source stop;
    stop.request_stop();
    const auto clip = makeClip("mute.mp4", std::string{kPicture} + "-c:v libx264");
    EXPECT_EQ(media::readSoundEnvelope(clip, stop.get_token()).error().code, ErrorCode::Cancelled);
}

}  // namespace
