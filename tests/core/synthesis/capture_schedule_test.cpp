#include "core/synthesis/capture_schedule.h"

#include <gtest/gtest.h>

#include "core/synthesis/strike_sound.h"

namespace core::synthesis {
namespace {

using timebase::Rational;

Rational fileTime(const CaptureSchedule& schedule, std::size_t frame) {
    return Rational{schedule.frames[frame].ticks} * schedule.timeBase;
}

TEST(CaptureSchedule, TelevisionRatesAreExact) {
    Scene scene;
    scene.timing.captureRate = Rational{240000, 1001};
    const CaptureSchedule schedule = scheduleOf(scene);
    EXPECT_EQ(fileTime(schedule, 7), (Rational{7 * 1001, 240000}));
}

TEST(CaptureSchedule, AStretchedFilmPlaysSlowerThanItWasCaptured) {
    Scene scene;
    scene.timing.captureRate = Rational{240};
    scene.timing.stretch = Rational{8};
    const CaptureSchedule schedule = scheduleOf(scene);
    EXPECT_EQ(fileTime(schedule, 12), (Rational{12, 30}));
    EXPECT_DOUBLE_EQ(schedule.frames[12].shownTime.seconds, 12.0 / 240.0);
}

TEST(CaptureSchedule, ADroppedInstantLeavesAGapAndRightStamps) {
    Scene scene;
    scene.timing.captureRate = Rational{120};
    scene.timing.instants = 6;
    scene.timing.dropped = {2, 3};
    const CaptureSchedule schedule = scheduleOf(scene);
    ASSERT_EQ(schedule.frames.size(), 4U);
    EXPECT_EQ(fileTime(schedule, 2), (Rational{4, 120}));
    EXPECT_EQ(schedule.frames[1].durationTicks, 3 * schedule.frames[0].durationTicks);
}

TEST(CaptureSchedule, AFrozenInstantShowsTheOneBeforeUnderItsOwnStamp) {
    Scene scene;
    scene.timing.captureRate = Rational{120};
    scene.timing.frozen = {5, 6};
    const CaptureSchedule schedule = scheduleOf(scene);
    EXPECT_EQ(schedule.frames[6].shownInstant, 4);
    EXPECT_DOUBLE_EQ(schedule.frames[6].shownTime.seconds, 4.0 / 120.0);
    EXPECT_EQ(fileTime(schedule, 6), (Rational{6, 120}));
}

TEST(CaptureSchedule, JitteredStampsKeepTheirOrder) {
    Scene scene;
    scene.timing.jitter = 0.2;
    scene.timing.instants = 2000;
    const CaptureSchedule schedule = scheduleOf(scene);
    for (std::size_t i = 1; i < schedule.frames.size(); ++i) {
        ASSERT_GT(schedule.frames[i].ticks, schedule.frames[i - 1].ticks) << i;
    }
}

TEST(StrikeSound, IsHeardWhenSoundHasComeFromTheBall) {
    Scene scene;
    scene.sound = SoundTrack{.samplesPerSecond = 48000, .noiseLevel = 0.0, .decoys = {}};
    scene.flights.emplace_back();
    scene.flights.front().strike = {0.1};
    scene.flights.front().positionM = {0.0, 0.0, 3.43};  // 10 ms at 343 m/s
    const std::vector<float> samples = soundOf(scene, {0.25});
    std::size_t first = 0;
    while (first < samples.size() && samples[first] == 0.0F) {
        ++first;
    }
    // 0.110 s are 5280 samples; the burst begins from nothing, so one sample may still be zero.
    EXPECT_GE(first, 5280U);
    EXPECT_LE(first, 5281U);
}

TEST(StrikeSound, DecoysAreNamedAndInOrder) {
    Scene scene;
    scene.sound = SoundTrack{};
    scene.sound->decoys = {{{0.05}, SoundKind::DoorSlam}, {{0.4}, SoundKind::Bounce}};
    scene.flights.emplace_back();
    scene.flights.front().strike = {0.2};
    scene.flights.front().positionM = {0.0, 0.0, 2.0};
    const auto heard = heardSoundsOf(scene);
    ASSERT_EQ(heard.size(), 3U);
    EXPECT_EQ(heard[0].kind, SoundKind::DoorSlam);
    EXPECT_EQ(heard[1].kind, SoundKind::Strike);
    EXPECT_EQ(heard[2].kind, SoundKind::Bounce);
}

}  // namespace
}  // namespace core::synthesis
