// How right whole films are read, and what it costs, over any folder of films with their truth
// beside them (tests/data/footage). Of the truth only the ball's diameter and, unless it is said
// not to be told, the shutter's readout are told.
//   film_reading make CONDITION FOLDER FIRST COUNT   renders shots number FIRST and on
//   film_reading read FOLDER... [--repeat N] [--readout-not-told]
// Of several readings of a film the least processor time counts, which other work lengthens least.
#include <fmt/core.h>
#include <sys/resource.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <numbers>
#include <stdexcept>

#include "core/accuracy/situation.h"
#include "core/intake/clip_shots.h"
#include "core/intake/read_film.h"
#include "tests/benchmarks/support/figures.h"
#include "tests/support/must.h"

namespace {

namespace fs = std::filesystem;
using nlohmann::json;
using tests::must;

constexpr double kDegrees = 180.0 / std::numbers::pi;
constexpr double kBlunder = 0.05;

void makeFilms(const std::string& condition, const fs::path& folder, std::uint64_t first,
               std::uint64_t count) {
    fs::create_directories(folder);
    auto situation = core::accuracy::Situation::Usual;
    for (const auto further : core::accuracy::kFurtherSituations) {
        situation = core::accuracy::situationName(further) == condition ? further : situation;
    }
    for (std::uint64_t k = 0; k < count; ++k) {
        const fs::path film = folder / fmt::format("{}_{:05d}.mp4", condition, first + k);
        const std::uint64_t seed = first + k + core::accuracy::seedOffset(situation);
        const auto shot =
            must(core::synthesis::randomShot(seed, core::accuracy::rangesOf(situation)));
        must(core::synthesis::makeFootage(shot.scene, shot.encoding, film));
    }
}

struct Spent {
    double seconds{};
    long pageFaults{};
};

Spent spentSoFar() {
    rusage usage{};
    getrusage(RUSAGE_SELF, &usage);
    const auto seconds = [](const timeval& time) {
        return static_cast<double>(time.tv_sec) + 1e-6 * static_cast<double>(time.tv_usec);
    };
    return {seconds(usage.ru_utime) + seconds(usage.ru_stime), usage.ru_minflt};
}

long peakMegabytes() {
    rusage usage{};
    getrusage(RUSAGE_SELF, &usage);
    return usage.ru_maxrss / 1024;
}

struct Film {
    fs::path file;
    json truth;
};

std::vector<Film> filmsOf(const std::vector<std::string>& folders) {
    std::vector<Film> films;
    for (const auto& folder : folders) {
        std::vector<fs::path> truths;
        for (const auto& entry : fs::directory_iterator{folder}) {
            if (entry.path().extension() == ".json") {
                truths.push_back(entry.path());
            }
        }
        std::sort(truths.begin(), truths.end());
        for (const auto& path : truths) {
            std::ifstream stream{path};
            const json truth = json::parse(stream);
            films.push_back({path.parent_path() / truth.at("file").get<std::string>(), truth});
        }
    }
    return films;
}

core::project::Session sessionOf(const json& truth, bool isReadoutTold) {
    core::project::Session session;
    session.ballDiameterMm = 1000.0 * truth.at("ball_diameter_m").get<double>();
    if (isReadoutTold) {
        session.readoutSeconds = truth.at("readout_s").get<double>();
    }
    return session;
}

core::intake::StatedRate rateOf(const json& truth) {
    core::intake::StatedRate rate;
    const double capture = truth.at("capture_fps").get<double>();
    const bool isTagged = truth.contains("capture_fps_tag") && truth["capture_fps_tag"].is_number();
    const bool isSlow = truth.contains("container_fps") && truth["container_fps"].is_number() &&
                        truth["container_fps"].get<double>() != capture;
    if (isSlow && !isTagged) {
        rate.framesPerSecond = capture;
    }
    return rate;
}

/// Errors over stated uncertainties of what a reading rests on.
struct Grounds {
    std::vector<double> centre, radius, focal;
};

struct Score {
    Grounds grounds;
    int shots{}, readings{}, covered{}, silent{}, others{};
    std::vector<double> errors, axes, squares, axisSquares, costs;
};

const core::intake::FilmShot* shotAt(const core::intake::FilmReading& film, const json& truth) {
    const auto first = truth.at("first_frame").get<std::int64_t>();
    const auto last = truth.at("last_frame").get<std::int64_t>();
    const core::intake::FilmShot* best = nullptr;
    std::int64_t most = 0;
    for (const auto& shot : film.shots) {
        const std::int64_t shared = std::min(last, shot.shot.lastFrame.value) -
                                    std::max(first, shot.shot.firstFrame.value) + 1;
        if (shared > most && !core::intake::isFlightAfterKink(shot.shot)) {
            most = shared;
            best = &shot;
        }
    }
    return best;
}

/// The mean error of a coordinate over the frames is nearly that of all frames in common.
void compareTrack(const core::image::BallTrack& track, const json& truth, Grounds& grounds) {
    double x = 0.0;
    double y = 0.0;
    double radius = 0.0;
    double centreSigma = 0.0;
    double radiusSigma = 0.0;
    double count = 0.0;
    for (const auto& frame : truth.at("frames")) {
        const auto* ball = track.find({frame.at("frame").get<std::int64_t>()});
        if (ball != nullptr && frame.at("fully_inside").get<bool>()) {
            x += ball->centre.x - frame.at("centre_px")[0].get<double>();
            y += ball->centre.y - frame.at("centre_px")[1].get<double>();
            radius += ball->radiusPx / frame.at("radius_px").get<double>() - 1.0;
            centreSigma += std::hypot(ball->centreSigma.x, ball->centreSigma.y) / std::sqrt(2.0);
            radiusSigma += ball->radiusSigmaPx / ball->radiusPx;
            count += 1.0;
        }
    }
    if (count > 0.0) {
        fmt::print("    centre {:+.3f} {:+.3f} px u {:.3f}, radius {:+.2f} % u {:.2f}\n", x / count,
                   y / count, centreSigma / count, 100.0 * radius / count,
                   100.0 * radiusSigma / count);
        grounds.centre.push_back(x / centreSigma);
        grounds.centre.push_back(y / centreSigma);
        grounds.radius.push_back(radius / radiusSigma);
    }
}

void compareFieldOfView(const core::reading::PictureReading& reading, double trueDegrees,
                        Grounds& grounds) {
    const auto& seen = reading.fit.fieldOfView.value;
    const bool isWide = reading.track.pictureWidth >= reading.track.pictureHeight;
    if (isWide) {
        const double error = kDegrees * seen.value.radians - trueDegrees;
        fmt::print("    field of view {:+.1f} degrees u {:.1f}\n", error,
                   kDegrees * seen.sigma.radians);
        grounds.focal.push_back(error / (kDegrees * seen.sigma.radians));
    }
}

void scoreShot(const core::intake::FilmShot* shot, const json& truth, double fieldOfViewDegrees,
               Score& score) {
    ++score.shots;
    if (shot == nullptr || !shot->reading || !shot->reading.value().rate) {
        const std::string reason = shot == nullptr  ? "not found"
                                   : !shot->reading ? shot->reading.error().message
                                                    : shot->reading.value().reason;
        fmt::print("  no reading: {}\n", reason);
        return;
    }
    ++score.readings;
    const auto& reading = shot->reading.value();
    const double trueRpm = truth.at("spin_rpm").get<double>();
    const double rpm = reading.rate->value.rpm;
    const double error = (rpm - trueRpm) / trueRpm;
    const double z = (rpm - trueRpm) / reading.rate->sigma.rpm;
    const bool isCovered =
        reading.interval95->low.rpm <= trueRpm && trueRpm <= reading.interval95->high.rpm;
    const auto& omega = reading.fit.angularVelocity;
    const auto& axis = truth.at("axis");
    const double cosine = (omega.x * axis[0].get<double>() + omega.y * axis[1].get<double>() +
                           omega.z * axis[2].get<double>()) /
                          std::hypot(omega.x, omega.y, omega.z);
    const double axisError = kDegrees * std::acos(std::clamp(cosine, -1.0, 1.0));
    const double axisSigma = kDegrees * reading.fit.axisSigma.radians;
    score.errors.push_back(std::abs(error));
    score.axes.push_back(axisError);
    score.squares.push_back(z * z);
    // Two components: the mean square of the angle is twice that of one.
    score.axisSquares.push_back(0.5 * std::pow(axisError / axisSigma, 2));
    score.covered += isCovered ? 1 : 0;
    score.silent += std::abs(error) > kBlunder && reading.fit.warnings.empty() ? 1 : 0;
    fmt::print(
        "  {:.2f} for {:.0f} rpm, {:+.3f} %, u {:.3f} %, z {:+.2f}{}, axis {:.2f} u {:.2f}, "
        "readout {:.2f} ms\n",
        rpm, trueRpm, 100.0 * error, 100.0 * reading.rate->sigma.rpm / rpm, z,
        isCovered ? "" : " OUTSIDE", axisError, axisSigma,
        1000.0 * reading.readout.readout.mean.seconds);
    compareFieldOfView(reading, fieldOfViewDegrees, score.grounds);
    if (truth.contains("frames")) {
        compareTrack(reading.track, truth, score.grounds);
    }
}

void readOne(const Film& film, bool isReadoutTold, int repeats, Score& score) {
    Spent least{1e9, 0};
    std::optional<core::intake::FilmReading> reading;
    for (int k = 0; k < repeats; ++k) {
        const Spent before = spentSoFar();
        reading = must(core::intake::readFilm(film.file, sessionOf(film.truth, isReadoutTold),
                                              rateOf(film.truth)));
        const Spent after = spentSoFar();
        if (after.seconds - before.seconds < least.seconds) {
            least = {after.seconds - before.seconds, after.pageFaults - before.pageFaults};
        }
    }
    fmt::print("{}: {:.2f} s, {} page faults\n", film.file.filename().string(), least.seconds,
               least.pageFaults);
    score.costs.push_back(least.seconds);
    std::vector<const core::intake::FilmShot*> matched;
    for (const auto& truth : film.truth.at("shots")) {
        matched.push_back(shotAt(*reading, truth));
        scoreShot(matched.back(), truth, film.truth.at("hfov_deg").get<double>(), score);
    }
    for (const auto& shot : reading->shots) {
        if (std::find(matched.begin(), matched.end(), &shot) == matched.end() && shot.reading &&
            shot.reading.value().rate && !core::intake::isFlightAfterKink(shot.shot)) {
            ++score.others;
            fmt::print("  another flight is read: {:.0f} rpm\n",
                       shot.reading.value().rate->value.rpm);
        }
    }
    std::fflush(stdout);
}

double rootMean(const std::vector<double>& squares) {
    double sum = 0.0;
    for (const double square : squares) {
        sum += square;
    }
    return std::sqrt(sum / static_cast<double>(squares.size()));
}

void printGrounds(const std::string& name, std::vector<double> ratios) {
    for (double& ratio : ratios) {
        ratio *= ratio;
    }
    if (!ratios.empty()) {
        benchmarks::printFigure("error / uncertainty of " + name + ", root mean square",
                                rootMean(ratios));
    }
}

void printScore(const Score& score) {
    using benchmarks::printFigure;
    printFigure("shots", score.shots);
    printFigure("read", score.readings);
    printFigure("other flights read", score.others);
    if (score.readings > 0) {
        printFigure("error of the rate, median, %", 100.0 * benchmarks::median(score.errors));
        printFigure("error of the rate, 90th percentile, %",
                    100.0 * benchmarks::quantile(score.errors, 0.9));
        printFigure("off by more than 5 % without a warning", score.silent);
        printFigure("covered, %", 100.0 * score.covered / score.readings);
        printFigure("error / uncertainty, root mean square", rootMean(score.squares));
        printFigure("error of the axis, median, degrees", benchmarks::median(score.axes));
        printFigure("error / uncertainty of the axis, root mean square",
                    rootMean(score.axisSquares));
    }
    printGrounds("the centres, mean over a flight", score.grounds.centre);
    printGrounds("the radius", score.grounds.radius);
    printGrounds("the field of view", score.grounds.focal);
    printFigure("processor time of a film, median, s", benchmarks::median(score.costs));
    double whole = 0.0;
    for (const double cost : score.costs) {
        whole += cost;
    }
    printFigure("processor time of all films, s", whole);
    printFigure("largest memory, MB", static_cast<double>(peakMegabytes()));
}

}  // namespace

int main(int argc, char** argv) {
    CLI::App options{"Right and fast reading of whole films"};
    options.require_subcommand(1);
    std::string condition;
    std::string folder;
    std::uint64_t first = 0;
    std::uint64_t count = 1;
    auto* make = options.add_subcommand("make");
    make->add_option("condition", condition, "as turnmark-cli accuracy calls them")->required();
    make->add_option("folder", folder)->required();
    make->add_option("first", first)->required();
    make->add_option("count", count)->required();
    std::vector<std::string> folders;
    int repeats = 1;
    bool isNotTold = false;
    auto* read = options.add_subcommand("read");
    read->add_option("folders", folders)->required();
    read->add_option("--repeat", repeats, "readings of each film");
    read->add_flag("--readout-not-told", isNotTold);
    CLI11_PARSE(options, argc, argv);
    try {
        if (make->parsed()) {
            makeFilms(condition, folder, first, count);
            return 0;
        }
        Score score;
        for (const Film& film : filmsOf(folders)) {
            readOne(film, !isNotTold, repeats, score);
        }
        printScore(score);
    } catch (const std::exception& error) {
        fmt::print(stderr, "film_reading: {}\n", error.what());
        return 1;
    }
    return 0;
}
