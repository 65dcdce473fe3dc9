// How right the rotation fit is: over rendered shots of varied conditions, or over any folder of
// clips with their truth beside them (tests/data/footage). Seeded: the same numbers on every run.
//   rotation_accuracy make FOLDER FIRST COUNT   renders shots number FIRST and on into the folder
//   rotation_accuracy fit FOLDER [FIRST COUNT [CENTRE_PX RADIUS_SHARE]]
//                                               fits the clips of the folder, in order of name
#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <ctime>
#include <filesystem>
#include <stdexcept>

#include "core/synthesis/random_shot.h"
#include "tests/benchmarks/spin_fit/accuracy_table.h"
#include "tests/core/spin_fit/filmed_shot.h"

namespace {

namespace fs = std::filesystem;
namespace fit = core::spin::fit;

void makeShots(const fs::path& folder, std::uint64_t first, std::uint64_t count) {
    fs::create_directories(folder);
    for (std::uint64_t seed = first; seed < first + count; ++seed) {
        const fs::path film = folder / fmt::format("shot_{:05d}.mp4", seed);
        if (fs::exists(fs::path{film}.replace_extension(".json"))) {
            continue;
        }
        const auto shot = core::synthesis::randomShot(seed);
        if (!shot) {
            throw std::runtime_error{shot.error().message};
        }
        const auto made =
            core::synthesis::makeFootage(shot.value().scene, shot.value().encoding, film);
        if (!made) {
            throw std::runtime_error{made.error().message};
        }
    }
}

/// Prediction error of the strongest candidate with another rate over the best's; 0: there is none.
double strongestRatio(const fit::FitOutcome& outcome) {
    constexpr double kSameRate = 0.01;
    double ratio = 0.0;
    for (const fit::Candidate& candidate : outcome.candidates) {
        const double apart = std::abs(candidate.rate.rpm / outcome.rate.value.rpm - 1.0);
        if (candidate.relativeError && apart > kSameRate &&
            (ratio == 0.0 || *candidate.relativeError < ratio)) {
            ratio = *candidate.relativeError;
        }
    }
    return ratio;
}

tests::AccuracyRow rowOf(const tests::FilmedShot& shot, const fit::FitOutcome& outcome) {
    tests::AccuracyRow row;
    row.marking = shot.marking;
    row.captureFps = shot.captureFps;
    row.trueRpm = shot.rpm;
    const Eigen::Vector3d axis = shot.angularVelocity.normalized();
    row.axisToCameraDegrees = core::toDegrees({std::acos(std::min(1.0, std::abs(axis.z())))});
    row.ballPx = 2.0 * shot.meanRadiusPx;
    row.frames = static_cast<int>(shot.input.frames.size());
    row.exposureTurnDegrees = 6.0 * shot.rpm * shot.exposureS;
    row.framesPerTurn = 60.0 * shot.captureFps / shot.rpm;
    row.isReading = outcome.status == fit::FitStatus::Reading;
    row.rpm = outcome.rate.value.rpm;
    row.sigmaRpm = outcome.rate.sigma.rpm;
    row.isCovered =
        outcome.interval95.low.rpm <= shot.rpm && shot.rpm <= outcome.interval95.high.rpm;
    const Eigen::Vector3d omega{outcome.angularVelocity.x, outcome.angularVelocity.y,
                                outcome.angularVelocity.z};
    row.axisErrorDegrees =
        core::toDegrees({std::acos(std::clamp(omega.normalized().dot(axis), -1.0, 1.0))});
    row.axisSigmaDegrees = core::toDegrees(outcome.axisSigma);
    row.fieldOfViewErrorDegrees =
        core::toDegrees(outcome.fieldOfView.value.value) - shot.fieldOfViewDegrees;
    row.uniqueness = outcome.uniqueness.value_or(0.0);
    row.explained = outcome.explainedShare;
    row.nextRatio = strongestRatio(outcome);
    row.reason = outcome.reason;
    return row;
}

std::vector<fs::path> truthFiles(const fs::path& folder) {
    std::vector<fs::path> files;
    for (const auto& entry : fs::directory_iterator{folder}) {
        if (entry.path().extension() == ".json") {
            files.push_back(entry.path());
        }
    }
    std::sort(files.begin(), files.end());
    return files;
}

std::vector<tests::AccuracyRow> fitShots(const std::vector<fs::path>& files,
                                         tests::TrackErrors errors) {
    std::vector<tests::AccuracyRow> rows;
    for (const fs::path& file : files) {
        errors.seed = std::hash<std::string>{}(file.stem().string());
        const tests::FilmedShot shot{file, errors};
        const std::clock_t start = std::clock();
        const auto outcome = fit::fitRotation(shot.input);
        if (!outcome) {
            throw std::runtime_error{file.string() + ": " + outcome.error().message};
        }
        const std::clock_t end = std::clock();
        rows.push_back(rowOf(shot, outcome.value()));
        rows.back().name = file.stem().string();
        rows.back().milliseconds = 1e3 * static_cast<double>(end - start) / CLOCKS_PER_SEC;
        printRow(rows.back());
        std::fflush(stdout);
    }
    return rows;
}

int usage() {
    fmt::print(stderr,
               "rotation_accuracy make FOLDER FIRST COUNT\n"
               "rotation_accuracy fit FOLDER [FIRST COUNT [CENTRE_PX RADIUS_SHARE]]\n");
    return 2;
}

}  // namespace

int main(int argc, char** argv) {
    const std::vector<std::string> words{argv + 1, argv + argc};
    try {
        if (words.size() == 4 && words[0] == "make") {
            makeShots(words[1], std::stoull(words[2]), std::stoull(words[3]));
            return 0;
        }
        if (words.size() >= 2 && words[0] == "fit") {
            auto files = truthFiles(words[1]);
            const std::size_t first = words.size() > 3 ? std::stoul(words[2]) : 0;
            const std::size_t count = words.size() > 3 ? std::stoul(words[3]) : files.size();
            files.resize(std::min(files.size(), first + count));
            files.erase(files.begin(),
                        files.begin() + static_cast<std::ptrdiff_t>(std::min(first, files.size())));
            tests::TrackErrors errors{.centrePx = 0.3, .radiusShare = 0.007};
            if (words.size() > 5) {
                errors.centrePx = std::stod(words[4]);
                errors.radiusShare = std::stod(words[5]);
            }
            printTables(fitShots(files, errors));
            return 0;
        }
    } catch (const std::exception& failure) {
        fmt::print(stderr, "{}\n", failure.what());
        return 1;
    }
    return usage();
}
