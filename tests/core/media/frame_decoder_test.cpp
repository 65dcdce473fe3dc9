#include "core/media/frames/frame_decoder.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <numeric>
#include <random>

#include "core/jobs/recycled_memory.h"
#include "core/media/frames/native_bytes.h"
#include "tests/core/media/clip_recipes.h"
#include "tests/core/media/ffmpeg_programs.h"

namespace {

using namespace core;
using core::media::ClipIndex;
using core::media::FrameDecoder;
using core::media::FramePtr;
using core::timebase::FrameIndex;
using tests::makeClip;

std::unique_ptr<FrameDecoder> decoderOf(const std::filesystem::path& clip, int threads = 0) {
    auto index = core::media::readClipIndex(clip);
    EXPECT_TRUE(index.has_value()) << index.error().message;
    auto decoder = FrameDecoder::open(clip, index.value(), threads);
    EXPECT_TRUE(decoder.has_value()) << decoder.error().message;
    return std::move(decoder).value();
}

/// The decoder's own planes of frame i against the i-th picture the ffmpeg program decodes.
void expectSamePictures(FrameDecoder& decoder, const std::filesystem::path& clip,
                        const std::vector<std::int64_t>& order) {
    auto first = decoder.decode({0});
    ASSERT_TRUE(first.has_value()) << first.error().message;
    const std::size_t size = core::media::nativePicture(*first.value()).bytes.size();
    const auto expected = tests::decodeByFfmpeg(clip, size, "-noautorotate", "");
    ASSERT_EQ(decoder.index().frameCount(), static_cast<std::int64_t>(expected.size()));
    for (const std::int64_t frame : order) {
        auto decoded = decoder.decode({frame});
        ASSERT_TRUE(decoded.has_value()) << decoded.error().message;
        EXPECT_EQ(decoded.value()->index().value, frame);
        EXPECT_TRUE(core::media::nativePicture(*decoded.value()).bytes ==
                    expected[static_cast<std::size_t>(frame)])
            << "frame " << frame;
    }
}

class DecodedClip : public testing::TestWithParam<tests::ClipRecipe> {};

// Outside reference: the ffmpeg program's decoding, bit by bit.
TEST_P(DecodedClip, EveryFrameInAnyOrderEqualsFfmpegs) {
    const auto clip = makeClip(GetParam().fileName(), GetParam().arguments);
    const auto decoder = decoderOf(clip);
    std::vector<std::int64_t> order(static_cast<std::size_t>(decoder->index().frameCount()));
    std::iota(order.begin(), order.end(), std::int64_t{0});
    std::vector<std::int64_t> visits{order};
    visits.insert(visits.end(), order.rbegin(), order.rend());
    std::shuffle(order.begin(), order.end(), std::mt19937{20250101});
    visits.insert(visits.end(), order.begin(), order.end());
    expectSamePictures(*decoder, clip, visits);
}

INSTANTIATE_TEST_SUITE_P(Recipes, DecodedClip, testing::ValuesIn(tests::allRecipes()),
                         [](const auto& recipe) { return recipe.param.name; });

// Outside reference: the ffmpeg program's decoding, bit by bit.
TEST(EditListClip, FramesBehindTheCutEqualFfmpegs) {
    const auto whole = makeClip(
        "whole.mp4", tests::movingSource("30", 60) + "-c:v libx264 -preset veryfast -g 20 -bf 2");
    const auto cut = makeClip("cut.mp4", "-ss 1.0 -i '" + whole.string() + "' -c copy");
    const auto decoder = decoderOf(cut);
    const std::int64_t last = decoder->index().frameCount() - 1;
    expectSamePictures(*decoder, cut, {last, 0, 5, 3, last - 1, 1, 0});
}

/// rgb() of every frame against the ffmpeg program's conversion to rgb24, turned as it turns.
void expectSameColours(const std::filesystem::path& clip) {
    const auto decoder = decoderOf(clip);
    const auto first = decoder->decode({0}).value();
    const auto expected =
        tests::decodeByFfmpeg(clip, first->rgb().bytes().size(), "", "-pix_fmt rgb24");
    for (const std::int64_t frame : {0, 3}) {
        const PixelBuffer rgb = decoder->decode({frame}).value()->rgb();
        EXPECT_TRUE(std::ranges::equal(rgb.bytes(), expected.at(static_cast<std::size_t>(frame))))
            << clip << " frame " << frame;
    }
}

// Outside reference: the ffmpeg program's own conversion with its default scaler.
TEST(Colours, EqualFfmpegsForEveryMatrixRangeAndDepth) {
    const std::string source = tests::movingSource("30", 5);
    for (const std::string matrix : {"bt709", "smpte170m", "bt2020nc", "unknown"}) {
        for (const std::string range : {"tv", "pc"}) {
            for (const std::string format : {"yuv420p", "yuv420p10le", "yuv422p", "yuv444p"}) {
                const std::string name = "colour_" + matrix + "_" + range + "_" + format + ".mkv";
                expectSameColours(makeClip(
                    name, source + "-c:v libx264 -qp 0 -preset ultrafast -pix_fmt " + format +
                              " -colorspace " + matrix + " -color_range " + range));
            }
        }
    }
}

TEST(Colours, EqualFfmpegsForOtherCodecs) {
    for (const auto& recipe : tests::stampedRecipes()) {
        if (recipe.name.starts_with("Mjpeg") || recipe.name.starts_with("Prores") ||
            recipe.name.starts_with("Ffv1")) {
            expectSameColours(makeClip(recipe.fileName(), recipe.arguments));
        }
    }
}

std::filesystem::path turnedClip(int tag) {
    const auto upright = makeClip("wide.mp4",
                                  "-f lavfi -i testsrc2=size=160x96:rate=30 "
                                  "-frames:v 5 -c:v libx264 -preset ultrafast");
    return makeClip(
        "wide_turned" + std::to_string(tag) + ".mp4",
        "-i '" + upright.string() + "' -c copy -metadata:s:v:0 rotate=" + std::to_string(tag));
}

// Outside reference: the ffmpeg program turns by itself.
TEST(Rotation, ShowsPicturesAsFfmpegTurnsThem) {
    for (const int tag : {90, 180, 270}) {
        expectSameColours(turnedClip(tag));
    }
}

/// The rectangle cut out of the whole picture; black outside.
PixelBuffer cutOut(const PixelBuffer& whole, int left, int top, int width, int height) {
    PixelBuffer part{width, height, PixelFormat::Rgb8};
    for (int y = 0; y < height; ++y) {
        for (int x = 0; x < width; ++x) {
            const bool isInside = left + x >= 0 && left + x < whole.width() && top + y >= 0 &&
                                  top + y < whole.height();
            for (int c = 0; c < 3 && isInside; ++c) {
                part.row(y)[3 * x + c] = whole.row(top + y)[3 * (left + x) + c];
            }
        }
    }
    return part;
}

void expectRegionsOf(const media::Frame& frame) {
    const PixelBuffer whole = frame.rgb();
    std::mt19937 random{11};
    std::uniform_int_distribution<int> place{-40, 170};
    std::uniform_int_distribution<int> size{0, 90};
    for (int i = 0; i < 60; ++i) {
        const int x = place(random);
        const int y = place(random);
        const int width = size(random);
        const int height = size(random);
        const PixelBuffer region = frame.rgbRegion(x, y, width, height);
        EXPECT_TRUE(std::ranges::equal(region.bytes(), cutOut(whole, x, y, width, height).bytes()))
            << x << " " << y << " " << width << " " << height;
    }
}

TEST(Region, EqualsThatPartOfTheWholePicture) {
    expectRegionsOf(*decoderOf(turnedClip(90))->decode({2}).value());
    for (const auto& recipe : tests::stampedRecipes()) {
        if (recipe.name == "H264Mp4" || recipe.name == "H264Mp4High10" ||
            recipe.name == "ProresMov" || recipe.name == "MjpegMov" || recipe.name == "Ffv1Mkv") {
            const auto clip = makeClip(recipe.fileName(), recipe.arguments);
            expectRegionsOf(*decoderOf(clip)->decode({7}).value());
        }
    }
}

TEST(ScaledToFit, KeepsProportionsAndNeverEnlarges) {
    const auto frame = decoderOf(turnedClip(90))->decode({0}).value();  // shown 96 wide, 160 high
    const auto size = [&](int width, int height) {
        const PixelBuffer scaled = frame->rgbScaledToFit(width, height);
        return std::pair{scaled.width(), scaled.height()};
    };
    EXPECT_EQ(size(48, 1000), (std::pair{48, 80}));
    EXPECT_EQ(size(1000, 40), (std::pair{24, 40}));
    EXPECT_EQ(size(1000, 1000), (std::pair{96, 160}));
}

// Each codec's pictures lie in recycled memory; once they are let go, the next decoder of the same
// clip asks the system for none.
TEST(PictureMemory, IsUsedAgainByTheNextDecoder) {
    auto& memory = core::jobs::RecycledMemory::ofProgram();
    for (const auto* codec : {"-c:v libx264 -preset veryfast", "-c:v ffv1", "-c:v mjpeg",
                              "-c:v libx265 -x265-params log-level=none -pix_fmt yuv420p10le"}) {
        const auto clip = makeClip("again.mkv", tests::movingSource("30", 20) + codec);
        memory.letGo();
        const auto decodeAll = [&] {
            const auto decoder = decoderOf(clip, 2);
            std::vector<FramePtr> pictures;
            for (std::int64_t i = 0; i < decoder->index().frameCount(); ++i) {
                pictures.push_back(decoder->decode({i}).value());
            }
            const auto taken = memory.counters().takenBytes;
            EXPECT_GE(taken, pictures.size() * pictures.front()->bytesHeld()) << codec;
            return taken;
        };
        EXPECT_EQ(memory.counters().takenBytes, 0U) << codec;
        decodeAll();
        EXPECT_EQ(memory.counters().takenBytes, 0U) << codec;
        const auto all = memory.counters().waitingBytes;
        EXPECT_GT(all, 0U) << codec;
        decodeAll();
        EXPECT_LE(memory.counters().waitingBytes, all + all / 4) << codec;  // threads run ahead
    }
    memory.letGo();
    EXPECT_EQ(memory.counters().waitingBytes, 0U);
}

TEST(FrameDecoding, OutsideTheClipIsOutOfRange) {
    const auto decoder = decoderOf(turnedClip(90));
    for (const std::int64_t frame : {std::int64_t{-1}, std::int64_t{5}}) {
        const auto decoded = decoder->decode({frame});
        ASSERT_TRUE(decoded.has_error());
        EXPECT_EQ(decoded.error().code, ErrorCode::OutOfRange);
    }
}

TEST(FrameDecoding, CanBeCancelledAndGoOn) {
    const auto decoder = decoderOf(turnedClip(90));
    std::stop_source stop;
    stop.request_stop();
    const auto cancelled = decoder->decode({3}, stop.get_token());
    ASSERT_TRUE(cancelled.has_error());
    EXPECT_EQ(cancelled.error().code, ErrorCode::Cancelled);
    EXPECT_EQ(decoder->decode({3}).value()->index().value, 3);
}

}  // namespace
