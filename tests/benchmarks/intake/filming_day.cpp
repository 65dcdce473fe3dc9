// A whole filming day taken in without anybody: clips added, shots found, slate cards looked for,
// pictures read, on all processors, and how true the time that is said to be left was.
//   filming_day [--shots 700] [--clips 40] [--films FOLDER]
// Every other clip is 1080p, the others 720p, 240 a second, 50 and 25 Mbit/s, a key frame a second;
// a shot every four seconds and a slammed door after every fifth. The films are joined, each in an
// order of its own, from eight rendered pieces of each size, so shots repeat; the program does not
// know.
#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <map>
#include <thread>

#include "core/intake/intake_words.h"
#include "core/intake/take_in.h"
#include "core/synthesis/footage_maker.h"
#include "core/synthesis/random_numbers.h"
#include "tests/benchmarks/support/bench_clips.h"
#include "tests/benchmarks/support/figures.h"
#include "tests/support/must.h"

namespace {

using core::intake::TakeInProgress;
using core::synthesis::RandomNumbers;
using core::synthesis::Scene;
using tests::must;
namespace fs = std::filesystem;

constexpr double kMostMinutes = 60.0;
constexpr double kMostEstimateError = 20.0;  // percent
constexpr int kFps = 240;
constexpr int kPieceSeconds = 2;
constexpr int kStrikePieces = 6;
constexpr int kInstantsPerPixel = 8;  // of the exposure
constexpr int kShotsPerSlam = 5;
constexpr double kExposureSeconds = 0.0005;
constexpr double kFieldOfViewDeg = 55.0;

struct Size {
    const char* name;
    int widthPx;
    int heightPx;
    std::int64_t bitsPerSecond;
};
constexpr Size kSizes[] = {{"1080p", 1920, 1080, 50'000'000}, {"720p", 1280, 720, 25'000'000}};

Scene emptyScene(const Size& size, std::uint64_t seed) {
    Scene scene;
    scene.camera = {.widthPx = size.widthPx,
                    .heightPx = size.heightPx,
                    .horizontalFieldOfViewDeg = kFieldOfViewDeg,
                    .shift = {}};
    scene.timing.captureRate = core::timebase::Rational{kFps};
    scene.timing.instants = kFps * kPieceSeconds;
    scene.shutter.exposure = core::Seconds{kExposureSeconds};
    scene.background = core::synthesis::BackgroundKind::Fence;
    scene.figure = core::synthesis::MovingFigure{};
    scene.sound = core::synthesis::SoundTrack{};
    scene.samplesPerPixel = kInstantsPerPixel;
    scene.seed = seed;
    return scene;
}

/// A strike left of the picture; speed, height and spin differ from piece to piece.
Scene strikeScene(const Size& size, int piece) {
    RandomNumbers random{static_cast<std::uint64_t>(piece) + 1};
    Scene scene = emptyScene(size, static_cast<std::uint64_t>(piece) + 1);
    core::synthesis::Flight flight;
    flight.strike = core::Seconds{random.uniform(0.3, 1.5)};
    flight.positionM = {-0.95, random.uniform(-0.15, 0.15), random.uniform(1.2, 1.5)};
    flight.velocityMPerS = {random.uniform(14.0, 19.0), random.uniform(-1.5, 0.5), 0.0};
    flight.spinRadPerS = {random.uniform(-25.0, 25.0), random.uniform(-25.0, 25.0),
                          random.uniform(120.0, 250.0)};
    flight.lifetime = core::Seconds{0.2};
    scene.flights.push_back(flight);
    return scene;
}

Scene slamScene(const Size& size) {
    Scene scene = emptyScene(size, 101);
    scene.sound->decoys.push_back({core::Seconds{0.7}, core::synthesis::SoundKind::DoorSlam});
    return scene;
}

fs::path rendered(const benchmarks::BenchClips& clips, const Size& size, const std::string& name,
                  const Scene& scene) {
    const fs::path file = clips.folder() / fmt::format("day_{}_{}.mp4", size.name, name);
    if (!fs::exists(file)) {
        core::synthesis::FilmEncoding encoding;
        encoding.bitsPerSecond = size.bitsPerSecond;
        encoding.keyFrameInterval = kFps;
        const fs::path unfinished = clips.folder() / ("unfinished_" + file.filename().string());
        static_cast<void>(must(core::synthesis::makeFootage(scene, encoding, unfinished)));
        fs::rename(unfinished, file);
    }
    return file;
}

/// One clip of the day: so many strikes, each in a place of its own.
fs::path filmOfDay(const benchmarks::BenchClips& clips, int clip, int shots) {
    const Size& size = kSizes[clip % 2];
    const auto quiet = rendered(clips, size, "quiet", emptyScene(size, 100));
    const auto slam = rendered(clips, size, "slam", slamScene(size));
    RandomNumbers random{1000 + static_cast<std::uint64_t>(clip)};
    std::vector<fs::path> films;
    for (int shot = 0; shot < shots; ++shot) {
        const int piece = static_cast<int>(random.uniform(0.0, kStrikePieces));
        films.push_back(
            rendered(clips, size, fmt::format("strike_{}", piece), strikeScene(size, piece)));
        films.push_back((shot + 1) % kShotsPerSlam == 0 ? slam : quiet);
    }
    return clips.joined(fmt::format("filmed_{}_{}.mp4", clip + 1, shots), films, 1);
}

/// What was said to be left, and when.
struct Estimate {
    TakeInProgress::Phase phase{};
    double at{};
    double share{};
    double left{};
};

/// How far the time that was said to be left, once a tenth of the phase was done, was from the time
/// that it took, as a share of the whole phase.
void printEstimates(const std::vector<Estimate>& estimates) {
    std::map<TakeInProgress::Phase, double> begins;
    std::map<TakeInProgress::Phase, double> ends;
    for (const Estimate& each : estimates) {
        ends[each.phase] = std::max(ends[each.phase], each.at);
    }
    double begin = 0.0;
    for (const auto& [phase, end] : ends) {  // phases are in their order
        begins[phase] = begin;
        benchmarks::printFigure(fmt::format("{}, min", core::intake::phaseWords(phase)),
                                (end - begin) / 60.0);
        begin = end;
    }
    for (const auto& [phase, end] : ends) {
        const double whole = end - begins[phase];
        std::vector<double> errors;
        for (const Estimate& each : estimates) {
            if (each.phase == phase && each.share >= 0.1) {
                errors.push_back(100.0 * std::abs(each.at + each.left - end) / whole);
            }
        }
        if (!errors.empty()) {
            benchmarks::printFigure(
                fmt::format("{}, error of the time left, 95th percentile, % of the phase",
                            core::intake::phaseWords(phase)),
                benchmarks::quantile(errors, 0.95), benchmarks::atMost(kMostEstimateError));
        }
    }
}

void measure(const std::vector<fs::path>& day, const fs::path& project, int shots) {
    const auto store = must(core::project::Store::create(project));
    core::project::Session session;
    session.name = "Filming day";
    session.marking = core::project::BallMarking::ThreeQuarterDark;
    session.ballDiameterMm = 67.0;
    session.exposureSeconds = kExposureSeconds;
    session.fieldOfViewDeg = kFieldOfViewDeg;
    session.readoutSeconds = 0.0;
    const auto id = must(store->addSession(session));
    std::vector<Estimate> estimates;
    core::intake::TakeInReport report;
    const auto began = std::chrono::steady_clock::now();
    const auto seconds = [began] {
        return std::chrono::duration<double>(std::chrono::steady_clock::now() - began).count();
    };
    const auto cost = benchmarks::costOf([&] {
        core::intake::TakeIn work{
            *store, id, day, {.findShots = true, .readCards = true, .readPictures = true}};
        report = core::intake::takeIn(
            work, std::thread::hardware_concurrency(), {}, [&](const TakeInProgress& progress) {
                if (progress.secondsLeft) {
                    estimates.push_back(
                        {progress.phase, seconds(), progress.share, *progress.secondsLeft});
                }
            });
    });
    for (const auto& refused : report.refused) {
        std::printf("refused: %s: %s\n", refused.what.c_str(), refused.reason.c_str());
    }
    benchmarks::printFigure("clips", static_cast<double>(report.added));
    benchmarks::printFigure("shots", shots);
    benchmarks::printFigure("shots found", static_cast<double>(report.shotsFound));
    benchmarks::printFigure("shots read", static_cast<double>(report.shotsRead));
    benchmarks::printFigure("shots that cannot be read", static_cast<double>(report.shotsUnread));
    printEstimates(estimates);
    benchmarks::printFigure("the whole, min", cost.wallSeconds / 60.0,
                            benchmarks::atMost(kMostMinutes));
    benchmarks::printFigure("the whole, processor min", cost.processorSeconds / 60.0);
}

}  // namespace

int main(int argc, char** argv) {
    CLI::App options{"How long a filming day takes"};
    int shots = 700;
    int clips = 40;
    std::string films;
    options.add_option("--shots", shots, "Shots of the day");
    options.add_option("--clips", clips, "Clips that they are filmed in");
    options.add_option("--films", films, "Keep the films in this folder and use them again");
    CLI11_PARSE(options, argc, argv);
    try {
        const benchmarks::BenchClips folder{films};
        std::vector<fs::path> day;
        for (int clip = 0; clip < clips; ++clip) {
            const int before = shots * clip / clips;
            day.push_back(filmOfDay(folder, clip, shots * (clip + 1) / clips - before));
        }
        const fs::path project = folder.folder() / "day.turnmark";
        fs::remove(project);
        measure(day, project, shots);
    } catch (const std::exception& error) {
        std::fprintf(stderr, "filming_day: %s\n", error.what());
        return 1;
    }
    return 0;
}
