// Speed and memory of core/media beside loops that use FFmpeg's libraries alone.
//   media_benchmark [--clips FOLDER] [--steps-per-second N] [PART …]     all parts when none is
//   named
// Clips are made in a folder that vanishes at the end, or kept in FOLDER and used again.
#include <CLI/CLI.hpp>
#include <algorithm>
#include <cstdio>
#include <exception>
#include <functional>
#include <string>
#include <utility>
#include <vector>

#include "tests/benchmarks/media/media_parts.h"

namespace {

struct Settings {
    std::string clipFolder;
    int stepsPerSecond{30};
    std::vector<std::string> parts;
};
using Part = std::function<void(const benchmarks::BenchClips&, const Settings&)>;

const std::vector<std::pair<std::string, Part>> kParts{
    {"memory", [](const auto& clips, const auto&) { benchmarks::measureMemory(clips); }},
    {"index", [](const auto& clips, const auto&) { benchmarks::measureIndex(clips); }},
    {"seek", [](const auto& clips, const auto&) { benchmarks::measureSeek(clips); }},
    {"play", [](const auto& clips, const auto&) { benchmarks::measurePlay(clips); }},
    {"steps", [](const auto& clips, const auto&) { benchmarks::measureSteps(clips); }},
    {"backward",
     [](const auto& clips, const auto& settings) {
         benchmarks::measureBackward(clips, settings.stepsPerSecond);
     }},
    {"sound", [](const auto& clips, const auto&) { benchmarks::measureSound(clips); }},
};

void run(const Settings& settings) {
    const benchmarks::BenchClips clips{settings.clipFolder};
    const auto& wanted = settings.parts;
    for (const auto& [name, part] : kParts) {
        if (wanted.empty() || std::find(wanted.begin(), wanted.end(), name) != wanted.end()) {
            part(clips, settings);
        }
    }
}

}  // namespace

int main(int argc, char** argv) {
    CLI::App options{"Speed and memory of the footage engine"};
    Settings settings;
    std::vector<std::string> names;
    for (const auto& part : kParts) {
        names.push_back(part.first);
    }
    options.add_option("--clips", settings.clipFolder,
                       "Keep the clips in this folder and use them again");
    options.add_option("--steps-per-second", settings.stepsPerSecond, "For the part `backward`")
        ->check(CLI::Range(1, 1000));
    options.add_option("parts", settings.parts, "Parts to run")->check(CLI::IsMember(names));
    CLI11_PARSE(options, argc, argv);
    try {
        run(settings);
    } catch (const std::exception& error) {
        std::fprintf(stderr, "media_benchmark: %s\n", error.what());
        return 1;
    }
    return 0;
}
