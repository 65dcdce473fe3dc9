#include "core/media/film/film_writer.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "core/media/file/clip_index.h"
#include "core/media/frames/frame_decoder.h"
#include "tests/core/media/ffmpeg_programs.h"
#include "tests/support/process.h"

namespace {

using namespace core;
using core::media::FilmWriter;

constexpr int kWidth = 96;
constexpr int kHeight = 64;

/// A smooth picture with a bar that moves with the number.
PixelBuffer picture(int number) {
    PixelBuffer pixels{kWidth, kHeight, PixelFormat::Rgb8};
    for (int y = 0; y < kHeight; ++y) {
        for (int x = 0; x < kWidth; ++x) {
            std::uint8_t* rgb = pixels.row(y) + std::ptrdiff_t{3} * x;
            rgb[0] = static_cast<std::uint8_t>(2 * x);
            rgb[1] = static_cast<std::uint8_t>(3 * y);
            rgb[2] = (x / 8) % 12 == number % 12 ? 230 : 40;
        }
    }
    return pixels;
}

/// Irregular stamps in ticks of 1/90000 s.
std::int64_t stampOf(int number) {
    return 3000 * std::int64_t{number} + 700 * (number % 3);
}

struct Form {
    std::string encoder, ending;
    int bFrames{};
};

FilmWriter::Options optionsOf(const Form& form) {
    FilmWriter::Options options;
    options.encoder = form.encoder;
    options.width = kWidth;
    options.height = kHeight;
    options.bFrames = form.bFrames;
    options.keyFrameInterval = 12;
    if (form.encoder == "libvpx-vp9") {
        options.encoderOptions = {{"deadline", "realtime"}, {"cpu-used", "8"}};
    } else if (form.encoder == "libx264" || form.encoder == "libx265") {
        options.encoderOptions = {{"preset", "ultrafast"}};
    }
    if (form.encoder == "libx265") {
        options.encoderOptions["x265-params"] = "log-level=none";
    }
    return options;
}

std::filesystem::path writeFilm(const std::string& name, const Form& form,
                                FilmWriter::Options options, int pictures = 30) {
    auto path = tests::clipFolder() / (name + "." + form.ending);
    const bool isEven = form.ending == "avi";
    auto writer = FilmWriter::create(path, std::move(options));
    EXPECT_TRUE(writer.has_value()) << writer.error().message;
    for (int i = 0; i < pictures; ++i) {
        const std::int64_t ticks = isEven ? 3000 * i : stampOf(i);
        const auto added = writer.value()->add(picture(i).view(), ticks, 3000);
        EXPECT_TRUE(added.has_value()) << added.error().message;
    }
    const auto finished = writer.value()->finish();
    EXPECT_TRUE(finished.has_value()) << finished.error().message;
    return path;
}

const std::vector<Form>& forms() {
    static const std::vector<Form> all{
        {"libx264", "mp4", 0},     {"libx264", "mp4", 2},   {"libx264", "mkv", 2},
        {"libx265", "mp4", 3},     {"libx265", "mkv", 0},   {"mpeg4", "mp4", 2},
        {"mpeg4", "avi", 0},       {"mjpeg", "mov", 0},     {"mjpeg", "avi", 0},
        {"libvpx-vp9", "webm", 0}, {"prores_ks", "mov", 0}, {"ffv1", "mkv", 0},
    };
    return all;
}

// Outside reference: ffprobe reads the stamps.
TEST(Film, KeepsItsStampsAsFfprobeReadsThem) {
    for (const Form& form : forms()) {
        const auto film =
            writeFilm("film_" + form.encoder + std::to_string(form.bFrames), form, optionsOf(form));
        const auto stamps =
            tests::probeFrames(film, form.ending == "avi" ? "best_effort_timestamp" : "pts");
        const bool isMilliseconds = form.ending == "mkv" || form.ending == "webm";
        ASSERT_EQ(stamps.size(), 30U) << film;
        for (int i = 0; i < 30; ++i) {
            const std::int64_t expected = form.ending == "avi" ? i
                                          : isMilliseconds
                                              ? std::lround(static_cast<double>(stampOf(i)) / 90.0)
                                              : stampOf(i);
            EXPECT_EQ(stamps[static_cast<std::size_t>(i)], expected) << film << " frame " << i;
        }
    }
}

/// Largest mean difference of a channel, in 8-bit levels.
double worstMeanDifference(const PixelBuffer& a, const PixelBuffer& b) {
    std::array<double, 3> sums{};
    for (std::size_t i = 0; i < a.bytes().size(); ++i) {
        sums[i % 3] += std::abs(int{a.bytes()[i]} - int{b.bytes()[i]});
    }
    return *std::max_element(sums.begin(), sums.end()) * 3.0 /
           static_cast<double>(a.bytes().size());
}

TEST(Film, ShowsThePicturesThatWentIn) {
    // Colours through 4:2:0 and lossy coding at quality 20: a wrong matrix or range moves the mean
    // by more than ten levels; sharp coloured edges of the bar cost up to five.
    constexpr double kTolLevels = 6.0;
    for (const Form& form : forms()) {
        const auto film = writeFilm("shown_" + form.encoder + std::to_string(form.bFrames), form,
                                    optionsOf(form));
        auto index = media::readClipIndex(film);
        ASSERT_TRUE(index.has_value()) << index.error().message;
        auto decoder = media::FrameDecoder::open(film, index.value());
        for (const int i : {0, 7, 29}) {
            const PixelBuffer shown = decoder.value()->decode({i}).value()->rgb();
            EXPECT_LE(worstMeanDifference(shown, picture(i)),
                      form.encoder == "ffv1" ? 0.0 : kTolLevels)
                << film << " frame " << i;
        }
    }
}

TEST(Film, IsTheSameBytesForTheSameInput) {
    for (const Form& form : forms()) {
        auto options = optionsOf(form);
        options.tags = {{"com.android.capture.fps", "240"}};
        const auto first = writeFilm("first", form, options);
        const std::string bytes = tests::bytesOf(first);
        const auto second = writeFilm("second", form, options);
        EXPECT_TRUE(bytes == tests::bytesOf(second)) << form.encoder << " " << form.ending;
    }
}

TEST(Film, KeepsCustomTagsInMp4) {
    const Form form{"libx264", "mp4", 0};
    auto options = optionsOf(form);
    options.tags = {{"com.android.capture.fps", "240.0"}, {"note", "made up"}};
    const auto index = media::readClipIndex(writeFilm("tags", form, options)).value();
    EXPECT_EQ(index.facts.tags.at("note"), "made up");
    ASSERT_EQ(index.taggedRates.size(), 1U);
    EXPECT_EQ(index.taggedRates[0].rate.fps, timebase::Rational{240});
}

TEST(Film, KeepsTicksOf240000Over1001Exactly) {
    const auto path = tests::clipFolder() / "exact.mp4";
    auto options = optionsOf({"libx264", "mp4", 0});
    options.timeBase = {1, 240000};
    auto writer = FilmWriter::create(path, options).value();
    for (int i = 0; i < 12; ++i) {
        ASSERT_TRUE(writer->add(picture(i).view(), 1001 * i, 1001).has_value());
    }
    ASSERT_TRUE(writer->finish().has_value());
    EXPECT_EQ(tests::probeStream(path, "time_base"), "1/240000");
    EXPECT_EQ(media::readClipIndex(path).value().playbackRate->fps,
              (timebase::Rational{240000, 1001}));
}

TEST(Film, HasSoundThatFfprobeSees) {
    for (const Form& form :
         {Form{"libx264", "mp4", 2}, Form{"libx264", "mkv", 0}, Form{"mjpeg", "avi", 0}}) {
        const auto path = tests::clipFolder() / ("sounding." + form.ending);
        auto options = optionsOf(form);
        options.soundSamplesPerSecond = 48000;
        auto writer = FilmWriter::create(path, options).value();
        const std::vector<float> silence(48000, 0.1F);
        ASSERT_TRUE(writer->addSound(silence.data(), silence.size()).has_value());
        for (int i = 0; i < 30; ++i) {
            ASSERT_TRUE(writer->add(picture(i).view(), 3000 * i, 3000).has_value());
        }
        ASSERT_TRUE(writer->finish().has_value());
        const std::string seconds =
            tests::outputOf(std::string{FFPROBE_PROGRAM} +
                            " -v error -select_streams a -count_packets "
                            "-show_entries stream=codec_name,sample_rate,channels -of csv=p=0 '" +
                            path.string() + "'");
        EXPECT_EQ(seconds, form.ending == "avi" ? "pcm_s16le,48000,1\n" : "aac,48000,1\n");
        EXPECT_EQ(tests::probeFrames(path, "pkt_size").size(), 30U);
    }
}

TEST(Film, RefusesWhatItCannotWrite) {
    const auto code = [](const std::string& file, const Form& form) {
        auto made = FilmWriter::create(tests::clipFolder() / file, optionsOf(form));
        EXPECT_TRUE(made.has_error()) << file;
        return made.error().code;
    };
    EXPECT_EQ(code("x.mp4", {"noencoder", "mp4", 0}), ErrorCode::Unsupported);
    EXPECT_EQ(code("x.unknown", {"libx264", "unknown", 0}), ErrorCode::Unsupported);
    EXPECT_EQ(code("x.webm", {"libx264", "webm", 0}), ErrorCode::Unsupported);
    EXPECT_EQ(code("no/such/folder/x.mp4", {"libx264", "mp4", 0}), ErrorCode::WriteFailed);
}

TEST(Film, RefusesStampsAndPicturesThatDoNotFit) {
    const auto path = tests::clipFolder() / "refused.mp4";
    auto writer = FilmWriter::create(path, optionsOf({"libx264", "mp4", 0})).value();
    EXPECT_EQ(writer->finish().error().code, ErrorCode::InvalidInput);  // no picture yet
    ASSERT_TRUE(writer->add(picture(0).view(), 100, 10).has_value());
    EXPECT_EQ(writer->add(picture(1).view(), 100, 10).error().code, ErrorCode::InvalidInput);
    EXPECT_EQ(writer->add(picture(1).view(), 200, 0).error().code, ErrorCode::InvalidInput);
    const PixelBuffer small{kWidth / 2, kHeight, PixelFormat::Rgb8};
    EXPECT_EQ(writer->add(small.view(), 200, 10).error().code, ErrorCode::InvalidInput);
    writer.reset();
    EXPECT_FALSE(std::filesystem::exists(path));  // an unfinished film leaves no file
}

}  // namespace
