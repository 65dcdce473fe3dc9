#include "core/media/file/repeated_pictures.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/core/media/clip_recipes.h"
#include "tests/core/media/ffmpeg_programs.h"

namespace {

using namespace core;
using tests::makeClip;

std::vector<std::int64_t> repeatsIn(const std::filesystem::path& clip) {
    const auto index = media::readClipIndex(clip).value();
    const auto warnings = media::findRepeatedPictures(clip, index, {0}, {index.frameCount() - 1});
    EXPECT_TRUE(warnings.has_value());
    std::vector<std::int64_t> frames;
    for (const auto& warning : warnings.value()) {
        EXPECT_EQ(warning.kind, media::ClipWarning::Kind::RepeatedPicture);
        frames.push_back(warning.frame->value);
    }
    return frames;
}

const std::string kPlainX264 = "-c:v libx264 -preset veryfast -crf 18 ";

TEST(RepeatedPictures, AreFoundAfterRecompression) {
    // 15 pictures per second raised to 30: every second picture is a duplicate, by construction.
    const auto clip = makeClip(
        "doubled.mp4", tests::movingSource("15", 30) + "-vf fps=30 " + kPlainX264 + "-frames:v 40");
    const auto repeats = repeatsIn(clip);
    ASSERT_GE(repeats.size(), 18U);
    for (const std::int64_t frame : repeats) {
        EXPECT_EQ(frame % 2, repeats.front() % 2);
    }
}

TEST(RepeatedPictures, AreFoundWhenEachComesEightTimes) {
    const auto clip = makeClip("eightfold.mp4", tests::movingSource("30", 8) + "-vf fps=240 " +
                                                    kPlainX264 + "-frames:v 48");
    // Four groups of eight lie between two others, with seven repeats each; compression may refine
    // the first of them visibly.
    EXPECT_GE(repeatsIn(clip).size(), 24U);
}

TEST(RepeatedPictures, ASingleOneIsNamed) {
    const auto clip =
        makeClip("single.mp4", tests::movingSource("30", 30) +
                                   "-vf loop=loop=1:size=1:start=12,setpts=N/30/TB " + kPlainX264);
    EXPECT_THAT(repeatsIn(clip), testing::ElementsAre(12));
}

TEST(RepeatedPictures, AreNotSeenInMovingFootageNorInAStillScene) {
    EXPECT_THAT(repeatsIn(makeClip("moving.mp4", tests::movingSource("30", 40) + kPlainX264)),
                testing::IsEmpty());
    EXPECT_THAT(repeatsIn(makeClip("still.mp4",
                                   "-f lavfi -i color=gray:size=160x120:rate=30 "
                                   "-frames:v 40 " +
                                       kPlainX264)),
                testing::IsEmpty());
}

TEST(RepeatedPictures, ErrorsAreSaid) {
    const auto clip = makeClip("moving.mp4", tests::movingSource("30", 40) + kPlainX264);
    const auto index = media::readClipIndex(clip).value();
    EXPECT_EQ(media::findRepeatedPictures(clip, index, {0}, {40}).error().code,
              ErrorCode::OutOfRange);
    std::stop_source stop;
    stop.request_stop();
    EXPECT_EQ(media::findRepeatedPictures(clip, index, {0}, {39}, stop.get_token()).error().code,
              ErrorCode::Cancelled);
}

}  // namespace
