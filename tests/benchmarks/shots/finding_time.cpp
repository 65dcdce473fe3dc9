#include "tests/benchmarks/shots/finding_time.h"

#include <fmt/format.h>

#include <cmath>
#include <stdexcept>

#include "core/media/file/sound_envelope.h"
#include "core/media/frames/frame_decoder.h"
#include "core/reading/decoded_frames.h"
#include "core/shots/find_shots.h"
#include "core/synthesis/footage_maker.h"
#include "core/timebase/clip_clock.h"
#include "tests/benchmarks/support/figures.h"

namespace benchmarks {

namespace {

namespace fs = std::filesystem;
using core::synthesis::Scene;

constexpr double kMostShare = 20.0;  // percent of the time of decoding everything
constexpr int kFps = 240;
constexpr int kPieceSeconds = 2;
constexpr int kInstantsPerPixel = 8;                 // of the exposure
constexpr std::int64_t kBitsPerSecond = 50'000'000;  // of the order that telephones write

/// Each event lies elsewhere between two key frames, for what comes before it is decoded too.
enum class Piece { EarlyStrike, LateStrike, Slam, Quiet };
constexpr double kEventSeconds[] = {0.3, 0.8, 0.55, 0.0};
constexpr Piece kTwentySeconds[] = {
    Piece::EarlyStrike, Piece::Quiet, Piece::Quiet, Piece::Quiet, Piece::Quiet,
    Piece::LateStrike,  Piece::Quiet, Piece::Slam,  Piece::Quiet, Piece::Quiet};
constexpr int kStrikes = 2;  // in these twenty seconds

template <class T>
T gained(core::Result<T> result) {
    if (!result) {
        throw std::runtime_error(result.error().message);
    }
    return std::move(result).value();
}

Scene sceneOf(Piece piece) {
    Scene scene;
    scene.camera = {
        .widthPx = 1920, .heightPx = 1080, .horizontalFieldOfViewDeg = 55.0, .shift = {}};
    scene.timing.captureRate = core::timebase::Rational{kFps};
    scene.timing.instants = kFps * kPieceSeconds;
    scene.background = core::synthesis::BackgroundKind::Brick;
    scene.samplesPerPixel = kInstantsPerPixel;
    scene.figure = core::synthesis::MovingFigure{};
    scene.sound = core::synthesis::SoundTrack{};
    const core::Seconds event{kEventSeconds[static_cast<int>(piece)]};
    if (piece == Piece::EarlyStrike || piece == Piece::LateStrike) {
        core::synthesis::Flight flight;
        flight.strike = event;
        flight.positionM = {-0.95, 0.0, 1.4};
        flight.velocityMPerS = {17.5, -0.8, 0.0};
        flight.spinRadPerS = {20.0, 20.0, 240.0};
        flight.lifetime = {0.15};
        scene.flights.push_back(flight);
    } else if (piece == Piece::Slam) {
        scene.sound->decoys.push_back({event, core::synthesis::SoundKind::DoorSlam});
    }
    return scene;
}

fs::path filmOfPiece(const BenchClips& clips, Piece piece) {
    constexpr const char* kNames[] = {"early_strike", "late_strike", "slam", "quiet"};
    const std::string name = fmt::format("piece_{}.mp4", kNames[static_cast<int>(piece)]);
    const fs::path file = clips.folder() / name;
    if (!fs::exists(file)) {
        core::synthesis::FilmEncoding encoding;
        encoding.bitsPerSecond = kBitsPerSecond;
        encoding.keyFrameInterval = kFps;
        const fs::path unfinished = clips.folder() / ("unfinished_" + name);
        static_cast<void>(
            gained(core::synthesis::makeFootage(sceneOf(piece), encoding, unfinished)));
        fs::rename(unfinished, file);
    }
    return file;
}

void decodeEverything(const fs::path& file, const core::media::ClipIndex& index) {
    const auto decoder = gained(core::media::FrameDecoder::open(file, index));
    std::int64_t decoded = 0;
    const auto run = decoder->decodeRange({0}, {index.frameCount() - 1}, [&](auto, auto frame) {
        decoded += frame.has_value() ? 1 : 0;
        return true;
    });
    if (!run || decoded != index.frameCount()) {
        throw std::runtime_error("Not every frame of the long clip can be decoded.");
    }
}

std::size_t findInLongClip(const fs::path& file, const core::media::ClipIndex& index) {
    const auto clock = gained(core::timebase::ClipClock::stamped(index.stamps));
    const auto sound = gained(core::media::readSoundEnvelope(file));
    core::reading::DecodedFrames frames{gained(core::media::FrameDecoder::open(file, index))};
    return gained(core::shots::findShots(frames, clock, index.stamps, sound)).size();
}

}  // namespace

void measureFindingTime(const BenchClips& clips, double minutes) {
    std::vector<fs::path> films;
    for (const Piece piece : kTwentySeconds) {
        films.push_back(filmOfPiece(clips, piece));
    }
    const int times = std::max(1, static_cast<int>(std::lround(minutes * 3.0)));
    const auto file = clips.joined(fmt::format("long_{}.mp4", times), films, times);
    const auto index = gained(core::media::readClipIndex(file));
    std::size_t found = 0;
    const Cost finding = costOf([&] { found = findInLongClip(file, index); });
    const Cost decoding = costOf([&] { decodeEverything(file, index); });
    const std::string what = fmt::format("shots of {:.1f} min of 1080p", times / 3.0);
    printFigure(what + ", strikes", kStrikes * times);
    printFigure(what + ", found", static_cast<double>(found));
    printFigure(what + ", finding, s", finding.wallSeconds);
    printFigure(what + ", decoding everything, s", decoding.wallSeconds);
    printFigure(what + ", finding of decoding, %",
                100.0 * finding.wallSeconds / decoding.wallSeconds, atMost(kMostShare));
    printFigure(what + ", the same in processor time, %",
                100.0 * finding.processorSeconds / decoding.processorSeconds);
    if (found != static_cast<std::size_t>(kStrikes) * static_cast<std::size_t>(times)) {
        throw std::runtime_error("The shots of the long clip were not all found, or others too.");
    }
}

}  // namespace benchmarks
