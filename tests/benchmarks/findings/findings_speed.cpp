// How long the findings of a season take: 10,000 kept shots of 50 implements and two hitters,
// all anew, and after one reading changed.
#include <cstdio>
#include <optional>
#include <random>

#include "core/findings/findings.h"
#include "tests/benchmarks/support/figures.h"

namespace {

using namespace core;

constexpr int kImplements = 50;
constexpr int kHitters = 2;
constexpr int kShotsPerCell = 100;
constexpr int kRuns = 5;

/// A season in the memory, seeded; `changedRpm` replaces the reading of the first shot.
project::Snapshot season(std::optional<double> changedRpm) {
    std::mt19937_64 generator{20261125};
    std::normal_distribution<double> noise{0.0, 60.0};
    std::vector<project::Implement> implements;
    std::vector<project::Hitter> hitters{{{1}, "A"}, {{2}, "B"}};
    std::vector<project::Cell> cells;
    std::vector<project::Shot> shots;
    std::vector<project::Reading> readings;
    for (int i = 1; i <= kImplements; ++i) {
        implements.push_back({{i}, "implement " + std::to_string(i), "", {}});
        for (int h = 1; h <= kHitters; ++h) {
            const project::CellId cell{(i - 1) * kHitters + h};
            cells.push_back({cell, {1}, {i}, {h}});
            for (int k = 0; k < kShotsPerCell; ++k) {
                project::Shot shot;
                shot.id = {static_cast<std::int64_t>(shots.size()) + 1};
                shot.clip = {1};
                shot.cell = cell;
                shot.ordinal = shot.id.value;
                shot.standing = project::ShotStanding::Kept;
                shot.counting = project::ReadingId{shot.id.value};
                project::Reading reading;
                reading.id = *shot.counting;
                reading.shot = shot.id;
                reading.reader = "reader";
                reading.methodVersion = "marks 1";
                reading.rate = {{1500.0 + 8.0 * i + 40.0 * h + noise(generator)}, {15.0}};
                reading.clockRelativeSigma = 0.001;
                readings.push_back(std::move(reading));
                shots.push_back(std::move(shot));
            }
        }
    }
    if (changedRpm) {
        readings.front().rate.value.rpm = *changedRpm;
    }
    project::Session session;
    session.id = {1};
    session.name = "day";
    project::Clip clip;
    clip.id = {1};
    clip.session = {1};
    project::Snapshot made;
    made.settings["noticeable_step_rpm"] = "100";
    made.settings["bands"] = "low 1600 medium 1800 high";
    made.sessions = project::Table{std::vector{session}};
    made.clips = project::Table{std::vector{clip}};
    made.implements = project::Table{std::move(implements)};
    made.hitters = project::Table{std::move(hitters)};
    made.cells = project::Table{std::move(cells)};
    made.shots = project::Table{std::move(shots)};
    made.readings = project::Table{std::move(readings)};
    return made;
}

/// Median times, by the wall clock and of the processor, which a busy machine disturbs less.
void printTimes(const std::string& what, const project::Snapshot& snapshot,
                const findings::Findings* earlier, double targetMilliseconds) {
    std::vector<double> wall;
    std::vector<double> processor;
    for (int run = 0; run < kRuns; ++run) {
        const auto cost = benchmarks::costOf(
            [&] { static_cast<void>(findings::findFindings(snapshot, {}, {}, earlier)); });
        wall.push_back(1000.0 * cost.wallSeconds);
        processor.push_back(1000.0 * cost.processorSeconds);
    }
    benchmarks::printFigure("findings of 10,000 shots, " + what + ", ms",
                            benchmarks::median(std::move(wall)),
                            benchmarks::atMost(targetMilliseconds));
    benchmarks::printFigure("the same, processor time, ms",
                            benchmarks::median(std::move(processor)));
}

}  // namespace

int main() {
    const auto before = season(std::nullopt);
    const auto after = season(1777.0);
    const auto known = findings::findFindings(before);
    if (!known) {
        std::fputs(known.error().message.c_str(), stderr);
        return 1;
    }
    printTimes("all anew", before, nullptr, 200.0);
    printTimes("one reading changed", after, &known.value(), 50.0);
    return 0;
}
