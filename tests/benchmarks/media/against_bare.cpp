// Parts that hold the engine against bare loops: index, seek, play, sound.
#include <random>
#include <stdexcept>
#include <string>

#include "core/media/file/sound_envelope.h"
#include "core/media/frames/frame_decoder.h"
#include "tests/benchmarks/media/bare_decoding.h"
#include "tests/benchmarks/media/media_parts.h"
#include "tests/benchmarks/media/served_clip.h"
#include "tests/benchmarks/support/figures.h"

namespace benchmarks {
namespace {

namespace media = core::media;
using Direction = ServedClip::Direction;

constexpr double kMostIndexRatio = 1.5;
constexpr double kMostSeekRatio = 1.15;
constexpr double kMostPlayRatio = 1.10;
constexpr double kLeastSoundSpeed = 100.0;  // times real time
constexpr int kSeeks = 24;
constexpr int kSeeksInTurn = 8;
constexpr unsigned kSeed = 20250105;

struct NamedClip {
    std::string name;
    std::filesystem::path file;
};

std::vector<NamedClip> videoClips(const BenchClips& clips) {
    return {{"H.264 1080p 240 fps", clips.h264At1080p()},
            {"HEVC 1080p 240 fps", clips.hevcAt1080p()},
            {"H.264 2160p 120 fps", clips.h264At2160p()},
            {"H.264 1080p variable rate, B-frames", clips.variableRateWithBFrames()}};
}

void expect(bool holds, const char* what) {
    if (!holds) {
        throw std::runtime_error(what);
    }
}

std::vector<std::int64_t> randomFrames(std::int64_t frameCount) {
    std::mt19937 random{kSeed};
    std::uniform_int_distribution<std::int64_t> any{0, frameCount - 1};
    std::vector<std::int64_t> frames;
    for (int i = 0; i < kSeeks; ++i) {
        frames.push_back(any(random));
    }
    return frames;
}

/// The decoder alone, seek by seek in turn with the bare loop.
void seekByDecoder(const NamedClip& clip, const media::ClipIndex& index) {
    const auto decoder = media::FrameDecoder::open(clip.file, index).value();
    BareClip bare{clip.file};
    bare.openDecoder(0);
    Pairs pairs;
    for (const std::int64_t frame : randomFrames(index.frameCount())) {
        const std::int64_t ticks = index.stamps.ticks[static_cast<std::size_t>(frame)];
        const Pairs one = runInTurn(
            1, [&] { expect(decoder->decode({frame}).has_value(), "a frame did not come"); },
            [&] { bare.decodeAt(ticks); });
        pairs.engine.push_back(one.engine.front());
        pairs.bare.push_back(one.bare.front());
    }
    printPairs("exact seek by the decoder, " + clip.name, pairs, atMost(kMostSeekRatio));
}

/// Requests to the service, which begins to prepare the surroundings after each answer and is
/// interrupted by the next: some in a row, then the same by the bare loop while the service rests.
void seekByService(const NamedClip& clip) {
    ServedClip served{clip.file};
    const auto& stamps = served.index().stamps.ticks;
    BareClip bare{clip.file};
    bare.openDecoder(0);
    Pairs pairs;
    const auto frames = randomFrames(served.index().frameCount());
    for (std::size_t from = 0; from < frames.size(); from += kSeeksInTurn) {
        served.reopen();
        served.show(0, Direction::Forward);  // opens the decoder
        for (std::size_t i = from; i < from + kSeeksInTurn; ++i) {
            pairs.engine.push_back(costOf([&] { served.show(frames[i], Direction::Forward); }));
        }
        served.reopen();
        for (std::size_t i = from; i < from + kSeeksInTurn; ++i) {
            const std::int64_t ticks = stamps[static_cast<std::size_t>(frames[i])];
            pairs.bare.push_back(costOf([&] { bare.decodeAt(ticks); }));
        }
    }
    printPairs("exact seek by the service, " + clip.name, pairs, atMost(kMostSeekRatio));
}

void playThrough(const NamedClip& clip, const media::ClipIndex& index) {
    const auto service = media::FrameService::create({});
    const auto id = service->openClip(clip.file, index);
    for (std::int64_t frame = 0; frame < index.frameCount(); ++frame) {
        expect(service->fetch(id, {frame}).has_value(), "a frame did not come");
    }
}

}  // namespace

void measureIndex(const BenchClips& clips) {
    constexpr int kRounds = 21;
    for (const NamedClip& clip : videoClips(clips)) {
        const auto pairs = runInTurn(
            kRounds,
            [&] {
                expect(media::readClipIndex(clip.file).has_value(), "the index cannot be read");
            },
            [&] { expect(BareClip{clip.file}.readPackets() > 0, "there are no packets"); });
        printPairs("open and index, " + clip.name, pairs, atMost(kMostIndexRatio));
    }
}

void measureSeek(const BenchClips& clips) {
    for (const NamedClip& clip : videoClips(clips)) {
        seekByDecoder(clip, media::readClipIndex(clip.file).value());
        seekByService(clip);
    }
}

void measurePlay(const BenchClips& clips) {
    constexpr int kRounds = 3;
    for (const NamedClip& clip : videoClips(clips)) {
        const auto index = media::readClipIndex(clip.file).value();
        const auto against = [&](std::size_t kept) {
            return runInTurn(
                kRounds, [&] { playThrough(clip, index); },
                [&] {
                    BareClip bare{clip.file};
                    bare.openDecoder(0);
                    expect(bare.decodeAll(kept) == index.frameCount(), "a picture is missing");
                });
        };
        printPairs("play forward, " + clip.name, against(0), atMost(kMostPlayRatio));
        // What of the difference comes from writing to as much memory as the service keeps.
        const auto pixels = static_cast<std::size_t>(index.facts.width) *
                            static_cast<std::size_t>(index.facts.height);
        printPairs("play forward, as many pictures kept by both, " + clip.name,
                   against(media::FrameService::Options{}.maxBytes / (pixels * 3 / 2)), {});
    }
}

void measureSound(const BenchClips& clips) {
    constexpr int kRounds = 5;
    constexpr double kSeconds = 600.0;
    const auto file = clips.tenMinutesOfSound();
    const auto pairs = runInTurn(
        kRounds,
        [&] { expect(media::readSoundEnvelope(file).has_value(), "the sound cannot be read"); },
        [&] {
            BareClip bare{file, AVMEDIA_TYPE_AUDIO};
            bare.openDecoder(1);
            expect(bare.decodeAll() > 0, "there is no sound");
        });
    printPairs("sound envelope of ten minutes", pairs, {});
    std::vector<double> speeds;
    for (const Cost& cost : pairs.engine) {
        speeds.push_back(kSeconds / cost.wallSeconds);
    }
    printFigure("sound envelope, times real time", median(speeds), atLeast(kLeastSoundSpeed));
}

}  // namespace benchmarks
