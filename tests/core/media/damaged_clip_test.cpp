#include <gtest/gtest.h>

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <map>
#include <random>
#include <sstream>

#include "core/jobs/memory_budget.h"
#include "core/jobs/recycled_memory.h"
#include "core/media/file/sound_envelope.h"
#include "core/media/frames/frame_decoder.h"
#include "core/media/frames/native_bytes.h"
#include "tests/core/media/ffmpeg_programs.h"
#include "tests/support/process.h"

namespace {

using namespace core;
using core::media::FrameDecoder;
using core::media::FramePtr;
using core::timebase::FrameIndex;
using tests::makeClip;

using Pictures = std::map<std::int64_t, std::vector<std::uint8_t>>;

/// Frames by their time stamps, so that clips of another length compare; damaged ones are absent.
Pictures soundPictures(const std::filesystem::path& clip) {
    Pictures pictures;
    const auto index = media::readClipIndex(clip);
    if (index.has_error()) {
        return pictures;
    }
    auto decoder = FrameDecoder::open(clip, index.value());
    EXPECT_TRUE(decoder.has_value()) << decoder.error().message;
    for (std::int64_t frame = 0; frame < index.value().frameCount(); ++frame) {
        const auto decoded = decoder.value()->decode({frame});
        if (decoded.has_value()) {
            pictures[index.value().stamps.ticks[static_cast<std::size_t>(frame)]] =
                media::nativePicture(*decoded.value()).bytes;
        } else {
            EXPECT_EQ(decoded.error().code, ErrorCode::Damaged) << decoded.error().message;
        }
    }
    return pictures;
}

std::string source(int frames) {
    return "-f lavfi -i testsrc2=size=96x64:rate=30,noise=alls=8:allf=t -frames:v " +
           std::to_string(frames) + " ";
}

/// Position and size of the packet of each frame in decoding order, as ffprobe prints them.
std::vector<std::pair<std::size_t, std::size_t>> packetsOf(const std::filesystem::path& clip) {
    std::istringstream lines{tests::outputOf(std::string{FFPROBE_PROGRAM} +
                                             " -v error -select_streams v -show_entries "
                                             "packet=pos,size -of csv=p=0 '" +
                                             clip.string() + "'")};
    std::vector<std::pair<std::size_t, std::size_t>> packets;
    for (std::string line; std::getline(lines, line);) {
        const auto comma = line.find(',');
        packets.emplace_back(std::stoul(line.substr(comma + 1)), std::stoul(line.substr(0, comma)));
    }
    return packets;
}

/// The clip with one packet's bytes zero, as a lost block of a disk leaves them.
std::filesystem::path withLostPacket(const std::filesystem::path& clip, std::size_t packet,
                                     const std::string& name) {
    std::string bytes = tests::bytesOf(clip);
    const auto [at, size] = packetsOf(clip).at(packet);
    // In Matroska the position is that of the block, whose header must stay.
    const std::size_t header = clip.extension() == ".mkv" ? 12 : 0;
    std::fill_n(bytes.begin() + static_cast<std::ptrdiff_t>(at + header), size - header, '\0');
    return tests::writeFile(name, bytes);
}

// Sizes as ffprobe tells them: whoever works on pictures gets one size only.
TEST(ChangingSize, FramesOfAnotherSizeAreRefusedAndTheOthersGiven) {
    const auto first = makeClip("size_first.ts", source(20) + "-c:v libx264 -pix_fmt yuv420p");
    const auto second = makeClip("size_second.ts",
                                 "-f lavfi -i testsrc2=size=64x64:rate=30 "
                                 "-frames:v 20 -c:v libx264 -pix_fmt yuv420p");
    const auto list = tests::writeFile(
        "sizes.txt", "file '" + first.string() + "'\nfile '" + second.string() + "'\n");
    const auto clip = makeClip("sizes.ts", "-f concat -safe 0 -i '" + list.string() + "' -c copy");
    const auto widths = tests::probeFrames(clip, "width");
    const auto index = media::readClipIndex(clip).value();
    ASSERT_EQ(widths.size(), static_cast<std::size_t>(index.frameCount()));
    const auto decoder = FrameDecoder::open(clip, index).value();
    for (std::int64_t frame = 0; frame < index.frameCount(); ++frame) {
        const auto decoded = decoder->decode({frame});
        ASSERT_EQ(decoded.has_value(), widths[static_cast<std::size_t>(frame)] == 96) << frame;
        if (!decoded) {
            EXPECT_EQ(decoded.error().code, ErrorCode::Damaged);
        }
    }
    EXPECT_EQ(std::count(widths.begin(), widths.end(), 64), 20);
}

// The shape of a pixel as ffprobe tells it (ITU-T H.264, E.2.1, sample aspect ratio).
TEST(PixelShape, PicturesWhosePixelsAreNotSquareAreRefused) {
    const auto wide = makeClip("wide.mp4", source(20) + "-vf setsar=64/45 -c:v libx264");
    EXPECT_EQ(tests::probeStream(wide, "sample_aspect_ratio"), "64:45");
    const auto refused = media::readClipIndex(wide);
    ASSERT_TRUE(refused.has_error());
    EXPECT_EQ(refused.error().code, ErrorCode::Unsupported);
    EXPECT_NE(refused.error().message.find("1.42 times as wide"), std::string::npos)
        << refused.error().message;
    const auto square = makeClip("square.mp4", source(20) + "-vf setsar=1/1 -c:v libx264");
    EXPECT_TRUE(media::readClipIndex(square).has_value());
    const auto unsaid = makeClip("unsaid.mp4", source(20) + "-vf setsar=0/1 -c:v libx264");
    EXPECT_TRUE(media::readClipIndex(unsaid).has_value());
}

TEST(PictureSize, MorePixelsThanCamerasHaveAreRefusedBeforeTheyAreDecoded) {
    const auto huge = makeClip("huge.mkv",
                               "-f lavfi -i color=size=16384x8192:rate=1 -frames:v 1 "
                               "-c:v png");
    const auto refused = media::readClipIndex(huge);
    ASSERT_TRUE(refused.has_error());
    EXPECT_EQ(refused.error().code, ErrorCode::Unsupported);
    EXPECT_NE(refused.error().message.find("16384 x 8192"), std::string::npos)
        << refused.error().message;
}

std::size_t bigEndianAt(const std::string& bytes, std::size_t at) {
    std::size_t number = 0;
    for (std::size_t i = 0; i < 4; ++i) {
        number = number << 8U | static_cast<unsigned char>(bytes[at + i]);
    }
    return number;
}

void putBigEndian(std::string& bytes, std::size_t at, std::size_t number) {
    for (std::size_t i = 0; i < 4; ++i) {
        bytes[at + i] = static_cast<char>(number >> (8 * (3 - i)) & 0xffU);
    }
}

// Sizes and places of samples: ISO/IEC 14496-12, 8.7.3 to 8.7.5. Each of some chunks is said to be
// all of the file's data.
TEST(EndlessClip, TheSameBytesAgainAndAgainAreRefused) {
    const auto sound = makeClip("circles.mp4",
                                "-f lavfi -i testsrc2=size=640x360,noise=alls=100:allf=t "
                                "-frames:v 30 -c:v mjpeg -q:v 1");
    std::string bytes = tests::bytesOf(sound);
    const std::size_t data = bytes.find("mdat") + 4;
    const std::size_t samplesOfChunk = bigEndianAt(bytes, bytes.find("stsc") + 16);
    putBigEndian(bytes, bytes.find("stsz") + 8,
                 (bigEndianAt(bytes, data - 8) - 8) / samplesOfChunk);
    const std::size_t places = bytes.find("stco") + 12;
    const std::size_t chunks = bigEndianAt(bytes, places - 4);
    ASSERT_GE(chunks, 4U);
    for (std::size_t i = 0; i < chunks; ++i) {
        putBigEndian(bytes, places + 4 * i, data);
    }
    const auto refused = media::readClipIndex(tests::writeFile("in_circles.mp4", bytes));
    ASSERT_TRUE(refused.has_error());
    EXPECT_EQ(refused.error().code, ErrorCode::Unreadable);
    EXPECT_NE(refused.error().message.find("again and again"), std::string::npos)
        << refused.error().message;
    EXPECT_EQ(media::readClipIndex(sound).value().frameCount(), 30);
}

// 3000 pictures of 8192 x 4320: a minute of decoding for the last one, and again for every other
// that is asked for, when only the first is a key frame.
TEST(EndlessClip, AFrameFarBehindItsKeyFrameIsRefusedInWords) {
    const auto two = makeClip("far_two.mp4",
                              "-f lavfi -i color=black:size=8192x4320:rate=30 -frames:v 2 "
                              "-c:v libx264 -preset ultrafast -g 9 -pix_fmt yuv420p");
    const auto many =
        makeClip("far_many.mp4", "-stream_loop 1499 -i '" + two.string() + "' -c copy");
    auto index = media::readClipIndex(many).value();
    ASSERT_EQ(index.frameCount(), 3000);
    std::fill(index.isKey.begin() + 1, index.isKey.end(), false);
    const auto decoder = FrameDecoder::open(many, index, 1).value();
    const auto refused = decoder->decode({2999});
    ASSERT_TRUE(refused.has_error());
    EXPECT_EQ(refused.error().code, ErrorCode::Damaged);
    EXPECT_NE(refused.error().message.find("Frame 2999 is 2999 frames of 8192 × 4320 pixels"),
              std::string::npos)
        << refused.error().message;
    EXPECT_TRUE(decoder->decode({1}).has_value());
}

// show_frame is the fifth bit of a frame of VP8 (RFC 6386, 9.1).
TEST(EndlessClip, PicturesThatAreNeverShownAreGivenUpAfterSome) {
    const auto shown = makeClip("hidden.avi",
                                "-f lavfi -i color=black:size=32x32:rate=30 -frames:v 1500 "
                                "-c:v libvpx -g 9999 -auto-alt-ref 0");
    std::string bytes = tests::bytesOf(shown);
    const auto packets = packetsOf(shown);
    ASSERT_EQ(packets.size(), 1500U);
    for (std::size_t i = 10; i < 1490; ++i) {
        char& first = bytes[packets[i].first];
        ASSERT_NE(first & 0x10, 0);
        first = static_cast<char>(first & ~0x10);
    }
    const auto clip = tests::writeFile("hidden_most.avi", bytes);
    const auto index = media::readClipIndex(clip).value();
    ASSERT_EQ(index.frameCount(), 20);
    const auto decoder = FrameDecoder::open(clip, index).value();
    EXPECT_TRUE(decoder->decode({9}).has_value());
    const auto refused = decoder->decode({10});
    ASSERT_TRUE(refused.has_error());
    EXPECT_EQ(refused.error().code, ErrorCode::Damaged);
    EXPECT_NE(refused.error().message.find("never shown"), std::string::npos)
        << refused.error().message;
}

// Sixteen pictures to refer to of 212 MB each: 8192 x 4304 in 10 bits, 4:4:4, many more than the 5
// that the highest level of ITU-T H.264 allows (table A-1, MaxDpbMbs); 120 kB of file.
TEST(PictureSize, PicturesBeyondTheMemoryOfDecodingAreRefusedInWords) {
    const auto clip = makeClip("many_references.mp4",
                               "-f lavfi -i color=gray:size=8192x4304:rate=30 -frames:v 12 -c:v "
                               "libx264 -preset ultrafast -pix_fmt yuv444p10 -refs 16 -g 30");
    const auto index = media::readClipIndex(clip).value();
    const auto decoder = FrameDecoder::open(clip, index).value();
    const std::size_t before = jobs::RecycledMemory::ofProgram().counters().takenBytes;
    std::size_t most = 0;
    std::string refusal;
    ASSERT_TRUE(decoder->decodeRange(
        {0}, {index.frameCount() - 1}, [&](FrameIndex, const Result<FramePtr>& frame) {
            const auto now = jobs::RecycledMemory::ofProgram().counters();
            most = std::max(most, now.takenBytes - before);
            refusal = frame ? refusal : frame.error().message;
            return true;
        }));
    EXPECT_NE(refusal.find("as no camera's do"), std::string::npos) << refusal;
    EXPECT_LE(most, std::max<std::size_t>(std::size_t{1} << 30U,
                                          jobs::MemoryBudget::usualLimitBytes() / 2));
}

struct BrokenCase {
    std::string name, arguments;
};

// Packet 34 of 60 is lost, key frames at 0, 20, 40. What depends on it is said to be damaged;
// frames before it and from the next key frame on stay as they were, bit by bit.
TEST(DamagedClip, OneLostPacketLeavesTheOtherGroupsAlone) {
    for (const BrokenCase& one :
         {BrokenCase{"broken_h264.mp4", "-c:v libx264 -preset veryfast -g 20 -bf 0 -crf 18"},
          BrokenCase{"broken_h264.mkv", "-c:v libx264 -preset veryfast -g 20 -bf 0 -crf 18"},
          BrokenCase{"broken_hevc.mp4",
                     "-c:v libx265 -preset ultrafast -crf 18 -x265-params "
                     "log-level=none:keyint=20:min-keyint=20:bframes=0"},
          BrokenCase{"broken_mpeg4.mp4", "-c:v mpeg4 -q:v 3 -g 20 -bf 0 -sc_threshold 1000000000"},
          BrokenCase{"broken_mjpeg.mov", "-c:v mjpeg -q:v 3"}}) {
        const auto clip = makeClip("whole_" + one.name, source(60) + one.arguments);
        const auto broken = withLostPacket(clip, 34, one.name);
        const auto index = media::readClipIndex(broken).value();
        ASSERT_EQ(index.frameCount(), 60) << one.name;
        const Pictures whole = soundPictures(clip);
        const Pictures rest = soundPictures(broken);
        ASSERT_EQ(whole.size(), 60U) << one.name;
        EXPECT_FALSE(rest.contains(index.stamps.ticks[34])) << one.name;
        for (const auto& [ticks, picture] : rest) {
            EXPECT_TRUE(picture == whole.at(ticks)) << one.name << " at " << ticks;
        }
        for (const std::size_t frame : {0U, 19U, 20U, 33U, 40U, 59U}) {
            EXPECT_TRUE(rest.contains(index.stamps.ticks[frame])) << one.name << " frame " << frame;
        }
    }
}

// A transport stream is made to lose packets of 188 bytes (ISO/IEC 13818-1, 2.4.3.2). Which frames
// were hit and which depend on them follows from the key frames: 0, 20 and 40.
TEST(DamagedClip, APacketLostInATransportStreamLeavesTheRestOfIt) {
    const auto clip = makeClip("whole.ts", source(60) +
                                               "-c:v libx264 -preset veryfast -g 20 -bf 0 "
                                               "-crf 18 -sc_threshold 0");
    const std::string bytes = tests::bytesOf(clip);
    const Pictures whole = soundPictures(clip);
    ASSERT_EQ(whole.size(), 60U);
    std::vector<std::size_t> ofPictures;  // in the middle of one: PID 256, payload_unit_start 0
    for (std::size_t packet = 0; packet < bytes.size() / 188; ++packet) {
        if (bytes[packet * 188 + 1] == '\x01' && bytes[packet * 188 + 2] == '\0') {
            ofPictures.push_back(packet);
        }
    }
    ASSERT_GT(ofPictures.size(), 60U);
    for (const std::size_t share : {2U, 3U, 5U}) {  // before the last key frame
        const std::size_t lost = ofPictures.at(ofPictures.size() * share / 10);
        std::string less = bytes;
        less.erase(lost * 188, 188);
        const auto holed = tests::writeFile("lost.ts", less);
        const auto warnings = media::readClipIndex(holed).value().warnings;
        EXPECT_TRUE(std::any_of(warnings.begin(), warnings.end(), [](const auto& warning) {
            return warning.kind == media::ClipWarning::Kind::Damaged ||
                   warning.kind == media::ClipWarning::Kind::Gap;
        })) << lost;
        const Pictures rest = soundPictures(holed);
        EXPECT_GE(rest.size(), 39U) << lost;
        EXPECT_LT(rest.size(), 60U) << lost;
        EXPECT_TRUE(rest.contains(whole.rbegin()->first)) << lost;
        for (const auto& [ticks, picture] : rest) {
            EXPECT_TRUE(picture == whole.at(ticks)) << lost << " at " << ticks;
        }
    }
}

// FFV1 has a checksum in every slice (RFC 9043, 4.2.1): no damaged picture can pass for a sound
// one, so every frame that is given must be the original's. The bits flipped lie in the first of
// the four slices: the slice's size behind its data is a place where FFmpeg 5.1 itself overlooks
// the damage (its own program decodes such a clip without an error).
TEST(DamagedClip, NoFlippedBitOfAChecksummedClipChangesAPicture) {
    const auto clip =
        makeClip("checksummed.mkv", source(24) + "-c:v ffv1 -level 3 -slicecrc 1 -slices 4 -g 1");
    const std::string bytes = tests::bytesOf(clip);
    const Pictures whole = soundPictures(clip);
    const auto packets = packetsOf(clip);
    std::mt19937 random{20250103};
    for (int round = 0; round < 30; ++round) {
        std::string flipped = bytes;
        for (int i = 0; i < 3; ++i) {
            const auto [at, size] = packets[random() % packets.size()];
            const std::size_t place = at + 40 + random() % (size / 5 - 40);
            flipped[place] ^= static_cast<char>(1U << (random() % 8U));
        }
        const Pictures rest = soundPictures(tests::writeFile("flipped.mkv", flipped));
        EXPECT_GE(rest.size(), 21U);  // three of the 24 at most are hit
        EXPECT_LT(rest.size(), 24U);
        for (const auto& [ticks, picture] : rest) {
            EXPECT_TRUE(picture == whole.at(ticks)) << "round " << round << " at " << ticks;
        }
    }
}

std::string mutated(const std::string& bytes, std::mt19937& random) {
    std::string result = bytes;
    switch (random() % 4U) {
        case 0:  // cut short
            result.resize(random() % bytes.size());
            break;
        case 1:  // a piece overwritten with zeros
            for (std::size_t i = random() % bytes.size(), end = i + random() % 400U;
                 i < std::min(end, result.size()); ++i) {
                result[i] = '\0';
            }
            break;
        case 2:  // damage near the beginning, where headers are
            for (int i = 0; i < 6; ++i) {
                result[random() % std::min<std::size_t>(result.size(), 1200U)] =
                    static_cast<char>(random() & 255U);
            }
            break;
        default:  // flipped bits anywhere
            for (std::size_t i = 0, count = 1U + random() % 40U; i < count; ++i) {
                result[random() % result.size()] ^= static_cast<char>(1U << (random() % 8U));
            }
    }
    return result;
}

/// Opens, decodes and listens; every failure must be one of a clip's and be said in words.
void expectWordsOrPictures(const std::filesystem::path& clip) {
    const auto index = media::readClipIndex(clip);
    if (index.has_error()) {
        EXPECT_TRUE(index.error().code == ErrorCode::Unreadable ||
                    index.error().code == ErrorCode::Unsupported)
            << index.error().message;
        EXPECT_GT(index.error().message.size(), clip.string().size() + 20);
        return;
    }
    auto decoder = FrameDecoder::open(clip, index.value(), 1);
    if (decoder.has_error()) {
        EXPECT_FALSE(decoder.error().message.empty());
        return;
    }
    const std::int64_t last = index.value().frameCount() - 1;
    const auto run = decoder.value()->decodeRange(
        {0}, {last}, [](FrameIndex frame, const Result<FramePtr>& result) {
            EXPECT_TRUE(result.has_value() || !result.error().message.empty());
            EXPECT_TRUE(result.has_error() || result.value()->index() == frame);
            EXPECT_TRUE(result.has_error() ||
                        !result.value()->rgbRegion(-3, 5, 40, 9).view().isEmpty());
            return true;
        });
    EXPECT_TRUE(run.has_value());
    static_cast<void>(decoder.value()->decode({last / 2}));
    static_cast<void>(media::readSoundEnvelope(clip));
}

/// TURNMARK_MUTATIONS sets another number of mutations a clip.
TEST(DamagedClip, MutationsEndInWordsAndInTime) {
    const char* wanted = std::getenv("TURNMARK_MUTATIONS");
    const int rounds = wanted != nullptr ? std::atoi(wanted) : 50;
    const std::string sound = "-f lavfi -i sine=duration=1 -c:a ";
    const std::vector<std::pair<std::string, std::string>> forms{
        {"m1.mp4", sound + "aac -c:v libx264 -preset veryfast -g 8 -bf 2"},
        {"m2.mkv",
         sound + "aac -c:v libx265 -preset ultrafast -x265-params log-level=none:keyint=8"},
        {"m3.avi", sound + "pcm_s16le -c:v mpeg4 -g 8 -bf 2"},
        {"m4.webm", sound + "libvorbis -c:v libvpx-vp9 -deadline realtime -cpu-used 8 -g 8"},
        {"m5.mov", sound + "pcm_s16le -c:v prores_ks"},
        {"m6.mov", sound + "pcm_s16le -c:v mjpeg -movflags faststart"},
    };
    std::mt19937 random{20250104};
    for (const auto& [name, arguments] : forms) {
        const std::string input = "-f lavfi -i testsrc2=size=96x64:rate=30 ";
        const std::string bytes =
            tests::bytesOf(makeClip(name, input + arguments + " -frames:v 24 -shortest"));
        for (int round = 0; round < rounds; ++round) {
            SCOPED_TRACE(name + " round " + std::to_string(round));
            const auto begin = std::chrono::steady_clock::now();
            expectWordsOrPictures(tests::writeFile("mutated_" + name, mutated(bytes, random)));
            EXPECT_LT(std::chrono::steady_clock::now() - begin, std::chrono::seconds{10});
        }
    }
}

}  // namespace
