// Speed and memory of core/media beside loops that use FFmpeg's libraries alone.
//   media_benchmark [--clips FOLDER] [PART …]      all parts when none is named
// Clips are made in a folder that vanishes at the end, or kept in FOLDER and used again.
#include <CLI/CLI.hpp>
#include <algorithm>
#include <cstdio>
#include <exception>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "tests/benchmarks/media/media_parts.h"

namespace {

using Part = void (*)(const benchmarks::BenchClips&);

const std::vector<std::pair<std::string, Part>> kParts{
    {"memory", benchmarks::measureMemory}, {"index", benchmarks::measureIndex},
    {"seek", benchmarks::measureSeek},     {"play", benchmarks::measurePlay},
    {"steps", benchmarks::measureSteps},   {"backward", benchmarks::measureBackward},
    {"sound", benchmarks::measureSound},
};

void run(const std::string& folder, const std::vector<std::string>& wanted) {
    const benchmarks::BenchClips clips{folder};
    for (const auto& [name, part] : kParts) {
        if (wanted.empty() || std::find(wanted.begin(), wanted.end(), name) != wanted.end()) {
            part(clips);
        }
    }
}

}  // namespace

int main(int argc, char** argv) {
    CLI::App options{"Speed and memory of the footage engine"};
    std::string folder;
    std::vector<std::string> wanted;
    std::vector<std::string> names;
    for (const auto& part : kParts) {
        names.push_back(part.first);
    }
    options.add_option("--clips", folder, "Keep the clips in this folder and use them again");
    options.add_option("parts", wanted, "Parts to run")->check(CLI::IsMember(names));
    CLI11_PARSE(options, argc, argv);
    try {
        run(folder, wanted);
    } catch (const std::exception& error) {
        std::fprintf(stderr, "media_benchmark: %s\n", error.what());
        return 1;
    }
    return 0;
}
