// How well the shots of rendered sessions are found, with sound, decoys and a moving figure; and
// how long it takes in a long clip.
//   shot_finding [--clips 36] [--seed 20261] [--films FOLDER] [well] [fast] [--minutes 10]
// Targets: 99 % of the shots found, at most 1 % of what is found false, the strike within one frame
// for 95 %; the time of finding_time.h.
#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <stdexcept>

#include "core/media/file/sound_envelope.h"
#include "core/media/frames/frame_decoder.h"
#include "core/reading/decoded_frames.h"
#include "core/shots/find_shots.h"
#include "core/synthesis/random_numbers.h"
#include "core/timebase/clip_clock.h"
#include "tests/benchmarks/shots/finding_time.h"
#include "tests/benchmarks/support/bench_clips.h"
#include "tests/benchmarks/support/figures.h"
#include "tests/demo/demo_footage.h"
#include "tests/support/must.h"

namespace {

using tests::must;

namespace fs = std::filesystem;
using core::synthesis::RandomNumbers;
using core::synthesis::Scene;
using core::synthesis::ShotTruth;

constexpr double kFoundShare = 99.0;  // percent
constexpr double kFalseShare = 1.0;
constexpr double kStrikeShare = 95.0;
constexpr int kInstantsPerPixel = 12;  // of the exposure; the demo has more

struct Tally {
    int shots{};
    int found{};
    int claimed{};
    int falseOnes{};
    int strikesNear{};
};

/// The demo's flights before another wall, with a person walking by, slamming doors and bouncing
/// balls; every fourth clip without sound, every sixth from a camera held by hand.
Scene sessionScene(const Scene& demo, std::uint64_t seed, int clip) {
    using core::synthesis::BackgroundKind;
    constexpr BackgroundKind kPlaces[] = {BackgroundKind::PlainWall, BackgroundKind::Brick,
                                          BackgroundKind::Fence, BackgroundKind::Foliage,
                                          BackgroundKind::Gradient};
    RandomNumbers random{seed + static_cast<std::uint64_t>(clip)};
    Scene scene = demo;
    scene.seed = seed + static_cast<std::uint64_t>(clip);
    scene.backgroundSeed = scene.seed;
    scene.background = kPlaces[clip % 5];
    scene.samplesPerPixel = kInstantsPerPixel;
    if (clip % 2 == 1) {
        scene.figure = core::synthesis::MovingFigure{};
        scene.figure->startX = random.uniform(0.05, 0.8);
        scene.figure->walkPerSecond = random.uniform(-0.15, 0.15);
    }
    if (clip % 6 == 5) {
        scene.shakePx = 1.0;
    }
    if (clip % 4 == 3) {
        scene.sound.reset();
        return scene;
    }
    const double seconds = static_cast<double>(scene.timing.instants) / 240.0;
    for (int decoy = 0; decoy < 3; ++decoy) {
        const auto kind =
            decoy == 0 ? core::synthesis::SoundKind::DoorSlam : core::synthesis::SoundKind::Bounce;
        scene.sound->decoys.push_back({core::Seconds{random.uniform(0.0, seconds)}, kind});
    }
    return scene;
}

std::vector<core::shots::FoundShot> find(const fs::path& file) {
    const auto index = must(core::media::readClipIndex(file, {}));
    const auto clock = must(core::timebase::ClipClock::stamped(index.stamps));
    const auto sound = must(core::media::readSoundEnvelope(file, {}));
    core::reading::DecodedFrames frames{must(core::media::FrameDecoder::open(file, index))};
    return must(core::shots::findShots(frames, clock, index.stamps, sound, {}));
}

bool isSame(const core::shots::FoundShot& found, const ShotTruth& truth) {
    return found.flight.first <= truth.frames.back().frame &&
           truth.frames.front().frame <= found.flight.last;
}

void count(const std::vector<core::shots::FoundShot>& found, const std::vector<ShotTruth>& truths,
           Tally& tally) {
    tally.shots += static_cast<int>(truths.size());
    tally.claimed += static_cast<int>(found.size());
    std::vector<bool> isTaken(found.size(), false);
    for (const ShotTruth& truth : truths) {
        for (std::size_t i = 0; i < found.size(); ++i) {
            if (!isTaken[i] && isSame(found[i], truth)) {
                isTaken[i] = true;
                ++tally.found;
                const auto late = found[i].strike.value - truth.strikeFrame.value;
                tally.strikesNear += std::abs(late) <= 1 ? 1 : 0;
                break;
            }
        }
    }
    tally.falseOnes += static_cast<int>(std::count(isTaken.begin(), isTaken.end(), false));
}

/// Renders the film unless it is there already.
core::synthesis::ClipTruth filmOf(const Scene& scene, const fs::path& file) {
    if (fs::exists(file)) {
        return must(core::synthesis::truthOf(scene));
    }
    // Under another name first: an interrupted run leaves no half film to be used again.
    const fs::path unfinished = file.parent_path() / ("unfinished_" + file.filename().string());
    auto truth = must(core::synthesis::makeFootage(scene, {}, unfinished));
    fs::rename(unfinished, file);
    return truth;
}

void measureHowWell(int clips, std::uint64_t seed, const fs::path& folder) {
    const auto plan = must(tests::demo::planDemoFootage());
    Tally heard;
    Tally silent;
    for (int clip = 0; clip < clips; ++clip) {
        const auto& demo = plan.scenes[static_cast<std::size_t>(clip) % plan.scenes.size()];
        const Scene scene = sessionScene(demo, seed, clip);
        const fs::path file = folder / fmt::format("shots_{}_{}.mp4", seed, clip);
        const auto truth = filmOf(scene, file);
        Tally& tally = scene.sound ? heard : silent;
        const Tally before = tally;
        count(find(file), truth.shots, tally);
        if (tally.found - before.found < static_cast<int>(truth.shots.size()) ||
            tally.falseOnes > before.falseOnes) {
            std::printf("clip %d: %d of %zu found, %d false\n", clip, tally.found - before.found,
                        truth.shots.size(), tally.falseOnes - before.falseOnes);
        }
    }
    const auto print = [](const char* what, const Tally& t) {
        const auto share = [](int part, int whole) { return 100.0 * part / std::max(1, whole); };
        benchmarks::printFigure(fmt::format("{}, shots", what), t.shots);
        benchmarks::printFigure(fmt::format("{}, found, %", what), share(t.found, t.shots),
                                benchmarks::atLeast(kFoundShare));
        benchmarks::printFigure(fmt::format("{}, false of what was found, %", what),
                                share(t.falseOnes, t.claimed), benchmarks::atMost(kFalseShare));
        benchmarks::printFigure(fmt::format("{}, strike within one frame, %", what),
                                share(t.strikesNear, t.found), benchmarks::atLeast(kStrikeShare));
    };
    print("with sound", heard);
    print("without sound", silent);
}

}  // namespace

int main(int argc, char** argv) {
    CLI::App options{"How well and how fast shots are found"};
    int clips = 36;
    std::uint64_t seed = 20261;
    double minutes = 10.0;
    std::string films;
    std::vector<std::string> parts;
    options.add_option("--clips", clips, "Rendered clips of six shots");
    options.add_option("--seed", seed, "Another seed, other clips");
    options.add_option("--minutes", minutes, "Length of the clip that the time is measured on");
    options.add_option("--films", films, "Keep the films in this folder and use them again");
    options.add_option("parts", parts, "well, fast; both when none is named")
        ->check(CLI::IsMember{{"well", "fast"}});
    CLI11_PARSE(options, argc, argv);
    const auto isAsked = [&parts](const char* part) {
        return parts.empty() || std::find(parts.begin(), parts.end(), part) != parts.end();
    };
    try {
        const benchmarks::BenchClips folder{films};
        if (isAsked("well")) {
            measureHowWell(clips, seed, folder.folder());
        }
        if (isAsked("fast")) {
            benchmarks::measureFindingTime(folder, minutes);
        }
    } catch (const std::exception& error) {
        std::fprintf(stderr, "shot_finding: %s\n", error.what());
        return 1;
    }
    return 0;
}
