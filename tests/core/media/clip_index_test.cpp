#include "core/media/file/clip_index.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <iterator>
#include <random>

#include "tests/core/media/clip_recipes.h"
#include "tests/core/media/ffmpeg_programs.h"
#include "tests/support/comma_locale.h"
#include "tests/support/process.h"

namespace {

using namespace core;
using core::media::ClipIndex;
using core::media::readClipIndex;
using core::timebase::Rational;
using tests::makeClip;

ClipIndex indexOf(const std::filesystem::path& clip) {
    auto index = readClipIndex(clip);
    EXPECT_TRUE(index.has_value()) << index.error().message;
    return index.value();
}

std::vector<std::optional<std::int64_t>> stampsOf(const ClipIndex& index) {
    return {index.stamps.ticks.begin(), index.stamps.ticks.end()};
}

class StampedClip : public testing::TestWithParam<tests::ClipRecipe> {};

// Outside reference: what ffprobe 5.1 prints for frame=pts.
TEST_P(StampedClip, StampsEqualThoseOfFfprobe) {
    const auto clip = makeClip(GetParam().fileName(), GetParam().arguments);
    const ClipIndex index = indexOf(clip);
    const bool isAvi = GetParam().ending == "avi";  // its stamps count as guessed in ffprobe
    EXPECT_EQ(stampsOf(index), tests::probeFrames(clip, isAvi ? "best_effort_timestamp" : "pts"));
    EXPECT_EQ(index.stamps.timeBase.toString(), tests::probeStream(clip, "time_base"));
}

// Outside reference: ffprobe's facts of the stream.
TEST_P(StampedClip, FactsEqualThoseOfFfprobe) {
    const auto clip = makeClip(GetParam().fileName(), GetParam().arguments);
    const media::StreamFacts facts = indexOf(clip).facts;
    EXPECT_EQ(facts.codec, tests::probeStream(clip, "codec_name"));
    EXPECT_EQ(facts.pixelFormat, tests::probeStream(clip, "pix_fmt"));
    EXPECT_EQ(std::to_string(facts.width), tests::probeStream(clip, "width"));
    EXPECT_EQ(std::to_string(facts.height), tests::probeStream(clip, "height"));
    EXPECT_EQ(facts.bitsPerComponent, facts.pixelFormat.ends_with("10le") ? 10 : 8);
    EXPECT_FALSE(facts.hasSound);
}

INSTANTIATE_TEST_SUITE_P(Recipes, StampedClip, testing::ValuesIn(tests::stampedRecipes()),
                         [](const auto& recipe) { return recipe.param.name; });

class UnstampedClip : public testing::TestWithParam<tests::ClipRecipe> {};

// Without presentation stamps in the file ffprobe guesses from the decoding stamps, and has no
// guess for the last few frames.
TEST_P(UnstampedClip, StampsEqualThoseFfprobeGuesses) {
    const auto clip = makeClip(GetParam().fileName(), GetParam().arguments);
    const ClipIndex index = indexOf(clip);
    const auto guessed = tests::probeFrames(clip, "best_effort_timestamp");
    ASSERT_EQ(index.stamps.ticks.size(), guessed.size());
    for (std::size_t i = 0; i < guessed.size(); ++i) {
        if (guessed[i]) {
            EXPECT_EQ(index.stamps.ticks[i], *guessed[i]) << "frame " << i;
        } else {
            EXPECT_EQ(index.stamps.ticks[i], index.stamps.ticks[i - 1] + 1) << "frame " << i;
        }
    }
}

INSTANTIATE_TEST_SUITE_P(Recipes, UnstampedClip, testing::ValuesIn(tests::unstampedRecipes()),
                         [](const auto& recipe) { return recipe.param.name; });

std::vector<media::ClipWarning> warningsOf(const ClipIndex& index, media::ClipWarning::Kind kind) {
    std::vector<media::ClipWarning> found;
    std::copy_if(index.warnings.begin(), index.warnings.end(), std::back_inserter(found),
                 [kind](const auto& one) { return one.kind == kind; });
    return found;
}

using Kind = media::ClipWarning::Kind;

const std::string kSmallSource = "-f lavfi -i testsrc=size=64x48:";
const std::string kX264 = " -c:v libx264 -bf 0 -preset ultrafast ";

TEST(EditList, FramesCutOffAtTheFrontAreNotCounted) {
    const auto whole = makeClip(
        "whole.mp4", tests::movingSource("30", 60) + "-c:v libx264 -preset veryfast -g 20 -bf 2");
    const auto cut = makeClip("cut.mp4", "-ss 1.0 -i '" + whole.string() + "' -c copy");
    const ClipIndex index = indexOf(cut);
    EXPECT_EQ(stampsOf(index), tests::probeFrames(cut, "pts"));
    EXPECT_LT(index.frameCount(), 60);
    EXPECT_FALSE(index.isKey.front());  // the key frame before the cut is not shown
}

TEST(PlaybackRate, EqualsTheReferenceRatesOfTheRecipes) {
    struct Case {
        std::string file, arguments;
        Rational expected;
    };
    const auto exact = [](int timeScale, int duration) {
        const std::string t = std::to_string(timeScale);
        return kSmallSource + "rate=30:duration=3 -frames:v 48 -vf settb=1/" + t + ",setpts=N*" +
               std::to_string(duration) + " -vsync passthrough" + kX264 + "-enc_time_base 1:" + t +
               " -video_track_timescale " + t;
    };
    const auto plain = [](const std::string& rate, const std::string& more) {
        return kSmallSource + "rate=" + rate + ":duration=1 -frames:v 48" + more;
    };
    // container_probe_reference.csv, column true_fps_from_pts: recipes A, B and M.
    const std::vector<Case> cases{
        {"a1.mp4", plain("30000/1001", kX264), {30000, 1001}},
        {"a2.mp4", plain("60000/1001", kX264), {60000, 1001}},
        {"a3.mp4", plain("240", kX264), 240},
        {"a4.mp4", plain("480", kX264), 480},
        {"a5.mp4", plain("960", kX264), 960},
        {"a6.mp4", plain("1000", kX264), 1000},
        {"a7.mp4", plain("240", kX264 + "-video_track_timescale 600"), 240},
        {"a8.mp4", plain("240", kX264 + "-video_track_timescale 90000"), 240},
        {"b1.mp4", exact(240000, 1001), {240000, 1001}},
        {"b2.mp4", exact(120000, 1001), {120000, 1001}},
        {"b3.mp4", exact(60000, 1001), {60000, 1001}},
        {"b4.mp4", exact(90000, 375), 240},
        {"b5.mp4", exact(1000000, 1000), 1000},
        {"m1.mkv", plain("30000/1001", " -c:v ffv1"), {30000, 1001}},
        {"m2.mkv", plain("60000/1001", " -c:v ffv1"), {60000, 1001}},
        {"m3.mkv", plain("240", " -c:v ffv1"), 240},
        {"m4.mkv", plain("1000", " -c:v ffv1"), 1000},
    };
    for (const Case& one : cases) {
        const ClipIndex index = indexOf(makeClip(one.file, one.arguments));
        ASSERT_TRUE(index.playbackRate) << one.file;
        EXPECT_EQ(index.playbackRate->fps, one.expected)
            << one.file << " " << index.playbackRate->fps.toString();
    }
}

TEST(PlaybackRate, IsAbsentForASingleFrame) {
    const ClipIndex index =
        indexOf(makeClip("one.mp4", kSmallSource + "rate=30 -frames:v 1" + kX264));
    EXPECT_EQ(index.frameCount(), 1);
    EXPECT_FALSE(index.playbackRate);
}

TEST(PlaybackRate, OfRealVariableRateIsTheMeanOfTheStepsNearTheMedian) {
    // Steps of 3, 3, 3, 7 ticks of 1/300 s: the 7 is a gap; the rate is 100.
    const ClipIndex index =
        indexOf(makeClip("v.mp4", kSmallSource +
                                      "rate=30:duration=3 -frames:v 40 -vf "
                                      "\"settb=1/300,setpts='4*N-mod(N,4)'\" -vsync passthrough" +
                                      kX264 + "-enc_time_base 1:300 -video_track_timescale 300"));
    ASSERT_TRUE(index.playbackRate);
    EXPECT_EQ(index.playbackRate->fps, Rational{100});
}

// Recipe C: 240 frames per second, frame 10 lost, a step of two periods after frame 9.
TEST(Gap, IsNamedWithTheFrameBeforeIt) {
    const ClipIndex index =
        indexOf(makeClip("c.mp4", kSmallSource +
                                      "rate=240:duration=1 -vf select='not(eq(n\\,10))' -vsync "
                                      "passthrough -frames:v 30" +
                                      kX264));
    const auto gaps = warningsOf(index, Kind::Gap);
    ASSERT_EQ(gaps.size(), 1U);
    EXPECT_EQ(gaps[0].frame->value, 9);
    EXPECT_THAT(gaps[0].message, testing::HasSubstr("about 1 frame is missing"));
    EXPECT_EQ(index.playbackRate->fps, Rational{240});
}

TEST(Gap, IsNotSeenInSteadyOrMildlyVariableFootage) {
    const auto steady =
        indexOf(makeClip("steady.mp4", kSmallSource + "rate=240 -frames:v 48" + kX264));
    EXPECT_THAT(warningsOf(steady, Kind::Gap), testing::IsEmpty());
    const auto rounded = indexOf(makeClip("rounded.mp4", kSmallSource + "rate=240 -frames:v 48" +
                                                             kX264 + "-video_track_timescale 600"));
    EXPECT_THAT(warningsOf(rounded, Kind::Gap), testing::IsEmpty());
}

TEST(CoarseStamps, AreSaidWhenATickIsATenthOfAFrameAndMore) {
    const auto coarse =
        indexOf(makeClip("coarse.mkv", kSmallSource + "rate=240 -frames:v 48 -c:v ffv1"));
    ASSERT_EQ(warningsOf(coarse, Kind::CoarseStamps).size(), 1U);
    EXPECT_THAT(warningsOf(coarse, Kind::CoarseStamps)[0].message, testing::HasSubstr("24 %"));
    const auto fine = indexOf(makeClip("fine.mp4", kSmallSource + "rate=240 -frames:v 48" + kX264));
    EXPECT_THAT(warningsOf(fine, Kind::CoarseStamps), testing::IsEmpty());
    const auto noStamps = indexOf(makeClip(
        "nostamps.avi", kSmallSource + "rate=30 -frames:v 48 -c:v libx264 -preset veryfast -bf 2"));
    ASSERT_EQ(warningsOf(noStamps, Kind::CoarseStamps).size(), 1U);
    EXPECT_THAT(warningsOf(noStamps, Kind::CoarseStamps)[0].message,
                testing::HasSubstr("no time stamps for showing"));
}

/// A Matroska clip of 30 frames per second whose frame 12 has another time stamp, in milliseconds:
/// the ffmpeg program refuses to write such stamps, so they are patched into the block (RFC 9559,
/// 10.1: track number, 16-bit time relative to the cluster, flags).
ClipIndex indexWithFrame12At(int milliseconds, const std::string& name) {
    std::string bytes = tests::bytesOf(
        makeClip("base.mkv", kSmallSource + "rate=30 -frames:v 20 -c:v ffv1 -g 100"));
    const auto block = [](int time) {
        return std::string{'\x81', static_cast<char>(time >> 8), static_cast<char>(time & 255),
                           '\0'};
    };
    const auto at = bytes.find(block(400));
    EXPECT_NE(at, std::string::npos);
    bytes.replace(at, 4, block(milliseconds));
    const auto clip = tests::writeFile(name, bytes);
    ClipIndex index = indexOf(clip);
    EXPECT_EQ(stampsOf(index), tests::probeFrames(clip, "pts"));
    return index;
}

TEST(RepeatedStamp, IsSaid) {
    const auto repeated = warningsOf(indexWithFrame12At(367, "repeated.mkv"), Kind::RepeatedStamp);
    ASSERT_EQ(repeated.size(), 1U);
    EXPECT_EQ(repeated[0].frame->value, 12);
}

TEST(BackwardStamp, IsSaidAndTheOrderOfShowingKept) {
    const auto backward = warningsOf(indexWithFrame12At(340, "backward.mkv"), Kind::BackwardStamp);
    ASSERT_EQ(backward.size(), 1U);
    EXPECT_EQ(backward[0].frame->value, 12);
}

std::string tagged(const std::string& value) {
    return kSmallSource + "rate=30 -frames:v 10" + kX264 +
           "-movflags use_metadata_tags -metadata com.android.capture.fps=" + value;
}

// The key of Android's recorder (Android Open Source Project, MPEG4Writer.cpp).
TEST(TaggedCaptureRate, IsReadAsTextAndSilencesTheDoubt) {
    const ClipIndex index = indexOf(makeClip("tag240.mp4", tagged("240.000000")));
    ASSERT_EQ(index.taggedRates.size(), 1U);
    EXPECT_EQ(index.taggedRates[0].tag, "com.android.capture.fps");
    EXPECT_EQ(index.taggedRates[0].rate.fps, Rational{240});
    EXPECT_THAT(warningsOf(index, Kind::SlowMotionLikely), testing::IsEmpty());
}

// Data type 23 of a metadata list is a big-endian 32-bit float (QuickTime File Format, well-known
// types); the recorder writes that, ffmpeg writes text of type 1, which is patched here.
TEST(TaggedCaptureRate, IsReadAsAFloatToo) {
    const auto text = makeClip("tagtext.mp4", tagged("9999"));
    std::string bytes = tests::bytesOf(text);
    const std::string textData{
        "data\0\0\0\1\0\0\0\0"
        "9999",
        16};
    const std::string floatData{"data\0\0\0\x17\0\0\0\0\x43\x70\0\0", 16};  // 240.0F
    const auto at = bytes.find(textData);
    ASSERT_NE(at, std::string::npos);
    bytes.replace(at, floatData.size(), floatData);
    const ClipIndex index = indexOf(tests::writeFile("tagfloat.mp4", bytes));
    ASSERT_EQ(index.taggedRates.size(), 1U);
    EXPECT_EQ(index.taggedRates[0].rate.fps, Rational{240});
    // FFmpeg prints such a number by printf, which in a German window writes "240,000000".
    const tests::CommaLocale german;
    EXPECT_EQ(indexOf(tests::clipFolder() / "tagfloat.mp4").taggedRates.size(), 1U);
}

TEST(TaggedCaptureRate, ThatIsNoRateIsNotTaken) {
    for (const std::string value : {"0", "-30", "fast", "nan"}) {
        const ClipIndex index = indexOf(makeClip("tag_" + value + ".mp4", tagged(value)));
        EXPECT_THAT(index.taggedRates, testing::IsEmpty()) << value;
        ASSERT_EQ(warningsOf(index, Kind::SlowMotionLikely).size(), 1U) << value;
        EXPECT_THAT(warningsOf(index, Kind::SlowMotionLikely)[0].message,
                    testing::HasSubstr("'" + value + "'"));
    }
}

TEST(SlowMotion, IsSuspectedAtOrdinaryRatesWithoutATag) {
    const auto slow = indexOf(makeClip("slow.mp4", kSmallSource + "rate=30 -frames:v 10" + kX264));
    EXPECT_EQ(warningsOf(slow, Kind::SlowMotionLikely).size(), 1U);
    const auto fast = indexOf(makeClip("fast.mp4", kSmallSource + "rate=120 -frames:v 10" + kX264));
    EXPECT_THAT(warningsOf(fast, Kind::SlowMotionLikely), testing::IsEmpty());
}

TEST(Rotation, TurnsTheSizeShown) {
    const auto upright = makeClip("upright.mp4", kSmallSource + "rate=30 -frames:v 5" + kX264);
    for (const int tag : {90, 180, 270}) {
        const auto clip = makeClip(
            "turned" + std::to_string(tag) + ".mp4",
            "-i '" + upright.string() + "' -c copy -metadata:s:v:0 rotate=" + std::to_string(tag));
        // ffprobe gives the turn of the display matrix counter-clockwise.
        const int clockwise =
            -std::stoi(tests::outputOf(std::string{FFPROBE_PROGRAM} +
                                       " -v error -show_entries stream_side_data=rotation -of "
                                       "default=noprint_wrappers=1:nokey=1 '" +
                                       clip.string() + "'"));
        const media::StreamFacts facts = indexOf(clip).facts;
        EXPECT_EQ(facts.rotationDegrees, (clockwise + 360) % 360);
        EXPECT_EQ(facts.width, tag == 180 ? 64 : 48);
        EXPECT_EQ(facts.height, tag == 180 ? 48 : 64);
    }
}

TEST(Sound, IsNoticed) {
    const auto clip = makeClip("sound.mp4", kSmallSource +
                                                "rate=30:duration=1 -f lavfi -i "
                                                "sine=duration=1" +
                                                kX264 + "-c:a aac");
    EXPECT_TRUE(indexOf(clip).facts.hasSound);
}

void expectError(const std::filesystem::path& file, ErrorCode code, const std::string& words) {
    const auto index = readClipIndex(file);
    ASSERT_TRUE(index.has_error()) << file;
    EXPECT_EQ(index.error().code, code) << index.error().message;
    EXPECT_THAT(index.error().message, testing::HasSubstr(file.string()));
    EXPECT_THAT(index.error().message, testing::HasSubstr(words));
}

TEST(Unreadable, EachSortIsSaidInWords) {
    expectError(tests::clipFolder() / "missing.mp4", ErrorCode::NotFound, "no such file");
    expectError(tests::clipFolder(), ErrorCode::Unreadable, "not a file");
    expectError(tests::writeFile("empty.mp4", ""), ErrorCode::Unreadable, "empty");
    expectError(tests::writeFile("text.mp4", "Dear diary, today I hit forty balls.\n"),
                ErrorCode::Unreadable, "not a video file");
    expectError(tests::writeFile("list.m3u8", "#EXTM3U\n#EXTINF:1,\nother.ts\n#EXT-X-ENDLIST\n"),
                ErrorCode::Unreadable, "not a video file");
    expectError(makeClip("onlysound.mp4", "-f lavfi -i sine=duration=1 -c:a aac"),
                ErrorCode::Unreadable, "no video");
}

TEST(Unreadable, AnMp4WithoutItsTableOfContentsSaysSo) {
    const auto clip = makeClip("plain.mp4", kSmallSource + "rate=30 -frames:v 30" + kX264);
    const std::string bytes = tests::bytesOf(clip);
    expectError(tests::writeFile("nomoov.mp4", bytes.substr(0, bytes.size() / 2)),
                ErrorCode::Unreadable, "moov atom not found");
}

TEST(Truncated, ReadablePartIsOfferedWithAWarning) {
    for (const std::string ending : {"mp4", "mkv", "avi", "mov"}) {
        const auto clip =
            makeClip("long." + ending,
                     tests::movingSource("30", 60) + "-c:v libx264 -preset veryfast -g 10 -bf 0" +
                         (ending[0] == 'm' && ending != "mkv" ? " -movflags faststart" : ""));
        const std::string bytes = tests::bytesOf(clip);
        const auto cut =
            tests::writeFile("cut_short." + ending, bytes.substr(0, bytes.size() * 2 / 3));
        const ClipIndex whole = indexOf(clip);
        const ClipIndex part = indexOf(cut);
        EXPECT_THAT(warningsOf(whole, Kind::Truncated), testing::IsEmpty()) << ending;
        ASSERT_EQ(warningsOf(part, Kind::Truncated).size(), 1U) << ending;
        EXPECT_EQ(warningsOf(part, Kind::Truncated)[0].frame->value, part.frameCount() - 1);
        EXPECT_GT(part.frameCount(), 20);
        EXPECT_LT(part.frameCount(), 60);
        EXPECT_TRUE(std::equal(part.stamps.ticks.begin(), part.stamps.ticks.end(),
                               whole.stamps.ticks.begin()));
    }
}

TEST(Reading, CanBeCancelled) {
    const auto clip = makeClip("cancel.mp4", kSmallSource + "rate=30 -frames:v 30" + kX264);
    std::stop_source stop;
    stop.request_stop();
    const auto index = readClipIndex(clip, stop.get_token());
    ASSERT_TRUE(index.has_error());
    EXPECT_EQ(index.error().code, ErrorCode::Cancelled);
}

TEST(Fingerprint, IsSha256OverSizeAndThreeMebibytes) {
    // Outside reference: the sha256sum program over the bytes that the header comment names.
    const std::string bytes = [] {
        std::string text;
        std::mt19937 random{7};
        for (int i = 0; i < 5'000'000; ++i) {
            text.push_back(static_cast<char>(random() & 255U));
        }
        return text;
    }();
    constexpr std::size_t kMebibyte = 1U << 20U;
    std::string covered;
    for (std::uint64_t i = 0, size = bytes.size(); i < 8; ++i) {
        covered.push_back(static_cast<char>(size >> (8 * i)));
    }
    covered += bytes.substr(0, kMebibyte) +
               bytes.substr((bytes.size() - kMebibyte) / 2, kMebibyte) +
               bytes.substr(bytes.size() - kMebibyte);
    const auto coveredFile = tests::writeFile("covered.bin", covered);
    const auto expected = tests::outputOf("sha256sum '" + coveredFile.string() + "'").substr(0, 64);
    EXPECT_EQ(media::fingerprint(tests::writeFile("random.bin", bytes)).value(), expected);
    EXPECT_EQ(media::fingerprint(tests::clipFolder() / "none.bin").error().code,
              ErrorCode::NotFound);
    EXPECT_EQ(media::fingerprint(tests::clipFolder()).error().code, ErrorCode::Unreadable);
}

}  // namespace
