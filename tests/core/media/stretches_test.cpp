#include "core/media/file/stretches.h"

#include <gtest/gtest.h>

#include <fstream>

#include "core/media/frames/frame_decoder.h"
#include "core/media/frames/native_bytes.h"
#include "tests/core/media/clip_recipes.h"
#include "tests/core/media/ffmpeg_programs.h"

namespace {

using namespace core;
using core::media::ByteRange;
using core::media::FrameDecoder;
using core::media::FrameStretch;

constexpr int kFrames = 900;
constexpr FrameStretch kShot{{500}, {540}};

/// The file with zeros where it is not in the parts.
std::filesystem::path withHoles(const std::filesystem::path& film,
                                const std::vector<ByteRange>& parts) {
    std::filesystem::path to = tests::clipFolder() / ("holes of " + film.filename().string());
    std::ifstream from{film, std::ios::binary};
    std::ofstream out{to, std::ios::binary | std::ios::trunc};
    for (const ByteRange& part : parts) {
        std::vector<char> bytes(static_cast<std::size_t>(part.end - part.begin));
        from.seekg(part.begin);
        from.read(bytes.data(), part.end - part.begin);
        out.seekp(part.begin);
        out.write(bytes.data(), part.end - part.begin);
    }
    out.close();
    std::filesystem::resize_file(to, std::filesystem::file_size(film));
    return to;
}

std::unique_ptr<FrameDecoder> decoderOf(const std::filesystem::path& film) {
    return FrameDecoder::open(film, media::readClipIndex(film).value()).value();
}

tests::ClipRecipe filmed(const std::string& name, const std::string& codec,
                         const std::string& ending = "mp4") {
    return {name, ending,
            "-f lavfi -i sine=duration=3.75 " + tests::movingSource("240", kFrames) + codec +
                " -pix_fmt yuv420p -c:a aac -shortest"};
}

class FilmWithHoles : public testing::TestWithParam<tests::ClipRecipe> {};

TEST_P(FilmWithHoles, GivesThePicturesOfTheStretchAndRefusesTheOthers) {
    const auto film = tests::makeClip(GetParam().fileName(), GetParam().arguments);
    const auto index = media::readClipIndex(film).value();
    const auto parts = media::bytesOfStretches(film, index, std::vector{kShot});
    ASSERT_TRUE(parts) << parts.error().message;
    ASSERT_TRUE(parts.value());
    std::int64_t bytes = 0;
    for (const ByteRange& part : *parts.value()) {
        bytes += part.end - part.begin;
    }
    // The fingerprint's three mebibytes and about a third of the frames.
    const auto whole = static_cast<std::int64_t>(std::filesystem::file_size(film));
    EXPECT_LT(bytes, 3 * (1 << 20) + whole / 2);
    EXPECT_LT(bytes, whole * 3 / 4);
    const auto holed = withHoles(film, *parts.value());
    EXPECT_EQ(media::fingerprint(holed).value(), media::fingerprint(film).value());
    EXPECT_EQ(media::readClipIndex(holed).value().stamps.ticks, index.stamps.ticks);
    const auto isKey = media::readClipIndex(holed).value().isKey;  // unknown of what is left out

    const auto expected = decoderOf(film);
    const auto decoder = FrameDecoder::open(holed, index).value();  // as a project knows it
    int refused = 0;
    for (std::int64_t frame = 0; frame < index.frameCount(); ++frame) {
        const auto picture = decoder->decode({frame});
        const bool isOfShot = frame >= kShot.first.value - 32 && frame <= kShot.last.value + 32;
        if (!picture) {
            EXPECT_EQ(picture.error().code, ErrorCode::Damaged);
            EXPECT_FALSE(isOfShot) << picture.error().message;
            ++refused;
            continue;
        }
        EXPECT_EQ(isKey[static_cast<std::size_t>(frame)],
                  index.isKey[static_cast<std::size_t>(frame)]);
        ASSERT_TRUE(media::nativePicture(*picture.value()).bytes ==
                    media::nativePicture(*expected->decode({frame}).value()).bytes)
            << "frame " << frame;
    }
    EXPECT_GT(refused, kFrames / 5);
}

INSTANTIATE_TEST_SUITE_P(
    Recipes, FilmWithHoles,
    testing::Values(filmed("holesAvc", "-c:v libx264 -preset ultrafast -qp 4 -bf 3 -g 60"),
                    filmed("holesHevc",
                           "-c:v libx265 -preset ultrafast -tag:v hvc1 "
                           "-x265-params log-level=none:qp=4:keyint=60:bframes=3:b-adapt=0:ctu=16:"
                           "rc-lookahead=4:rskip=2"),
                    filmed("holesFront",
                           "-c:v libx264 -preset ultrafast -qp 4 -g 30 -movflags +faststart"),
                    filmed("holesFragments",
                           "-c:v libx264 -preset ultrafast -qp 4 -g 60 -movflags +frag_keyframe")),
    [](const auto& recipe) { return recipe.param.name; });

TEST(FilmWithHoles, AFrameOfAHoleSaysWhyItIsNotThere) {
    const auto recipe = filmed("holesAvc", "-c:v libx264 -preset ultrafast -qp 4 -bf 3 -g 60");
    const auto film = tests::makeClip(recipe.fileName(), recipe.arguments);
    const auto index = media::readClipIndex(film).value();
    const auto parts = media::bytesOfStretches(film, index, std::vector{kShot}).value();
    const auto holed = withHoles(film, parts.value());
    const auto decoder = decoderOf(holed);
    const auto refused = decoder->decode({250});
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().message,
              holed.string() +
                  ": Frame 250 cannot be decoded (the file has zeros in its "
                  "place: it was left out of a pack of stretches, or lost on a disk). Other frames "
                  "of the clip may "
                  "still be read.");
    EXPECT_TRUE(decoder->decode({520}));
}

TEST(FilmWithHoles, IsNotMadeOfContainersWithoutTables) {
    const auto film = tests::makeClip(
        "noHoles.mkv", tests::movingSource("240", 60) + " -c:v libx264 -pix_fmt yuv420p");
    const auto index = media::readClipIndex(film).value();
    EXPECT_FALSE(media::bytesOfStretches(film, index, {}).value());
    EXPECT_EQ(
        media::bytesOfStretches(film, index, std::vector{FrameStretch{{3}, {60}}}).error().code,
        ErrorCode::OutOfRange);
}

}  // namespace
