// How long the findings of a season take: 10,000 kept shots of 50 implements and two hitters, all
// anew, after one reading changed, and published without films; and of a season of whole-frame
// counts.
//
// Usage: findings_benchmark [anew|changed|counted|publish] …; no part named: all of them.
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <filesystem>
#include <optional>
#include <random>
#include <span>
#include <string_view>

#include "core/base/version.h"
#include "core/findings/findings.h"
#include "core/publish/publish.h"
#include "tests/benchmarks/support/figures.h"
#include "tests/support/process.h"

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
                reading.madeAt = "2026-05-16T10:00:00Z";
                reading.interval95 = {{reading.rate.value.rpm - 29.4},
                                      {reading.rate.value.rpm + 29.4}};
                reading.inputsJson = "{}";
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
    made.sessions = project::Entities{std::vector{session}};
    made.clips = project::Entities{std::vector{clip}};
    made.implements = project::Entities{std::move(implements)};
    made.hitters = project::Entities{std::move(hitters)};
    made.cells = project::Entities{std::move(cells)};
    made.shots = project::Entities{std::move(shots)};
    made.readings = project::Entities{std::move(readings)};
    return made;
}

/// The same season as whole-frame counts at 120 frames per second, `perCell` shots in each cell.
project::Snapshot countedSeason(spin::CountingHabit habit, int perCell) {
    project::Snapshot made = season(std::nullopt);
    std::vector<project::Reading> readings{made.readings.begin(), made.readings.end()};
    std::vector<project::Shot> shots{made.shots.begin(), made.shots.end()};
    std::vector<project::Cell> cells{made.cells.begin(), made.cells.end()};
    std::vector<project::Implement> implements{made.implements.begin(), made.implements.end()};
    const int rows = static_cast<int>(shots.size()) / (kHitters * perCell);
    for (int i = kImplements + 1; i <= rows; ++i) {
        implements.push_back({{i}, "implement " + std::to_string(i), "", {}});
        for (int h = 1; h <= kHitters; ++h) {
            cells.push_back({{(i - 1) * kHitters + h}, {1}, {i}, {h}});
        }
    }
    for (std::size_t i = 0; i < readings.size(); ++i) {
        shots[i].cell = project::CellId{static_cast<std::int64_t>(i) / perCell + 1};
        project::Reading& reading = readings[i];
        const double frames = std::round(7200.0 / reading.rate.value.rpm);
        reading.habit = habit;
        reading.bounds = {{7200.0 / (frames + 1.0)}, {7200.0 / (frames - 1.0)}};
        reading.rate = {{7200.0 / frames}, {120.0}};
    }
    made.readings = project::Entities{std::move(readings)};
    made.shots = project::Entities{std::move(shots)};
    made.cells = project::Entities{std::move(cells)};
    made.implements = project::Entities{std::move(implements)};
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

/// Everything but films, into an empty folder; the clip is nowhere, as it is for whoever gets the
/// project file alone.
int printPublishing(const project::Snapshot& snapshot) {
    publish::Material material;
    material.snapshot = std::make_shared<const project::Snapshot>(snapshot);
    material.projectFile = "season.turnmark";
    material.origin = {"season", 1, "2026-05-17T08:30:00Z", core::programName()};
    const tests::TemporaryFolder folder;
    std::string problem;
    const auto cost = benchmarks::costOf([&] {
        const auto done = publish::publish(material, folder.path() / "out", {});
        problem = done ? "" : done.error().message;
    });
    if (!problem.empty()) {
        std::fputs(problem.c_str(), stderr);
        return 1;
    }
    benchmarks::printFigure("publishing 10,000 shots without films, s", cost.wallSeconds,
                            benchmarks::atMost(20.0));
    benchmarks::printFigure("the same, processor time, s", cost.processorSeconds);
    return 0;
}

}  // namespace

int main(int count, char** words) {
    const std::span<char*> parts{words + 1, static_cast<std::size_t>(std::max(0, count - 1))};
    const auto isWanted = [&](std::string_view part) {
        return parts.empty() || std::any_of(parts.begin(), parts.end(),
                                            [&](const char* word) { return word == part; });
    };
    const auto before = season(std::nullopt);
    const auto known = findings::findFindings(before);
    if (!known) {
        std::fputs(known.error().message.c_str(), stderr);
        return 1;
    }
    if (isWanted("anew")) {
        printTimes("all anew", before, nullptr, 200.0);
    }
    if (isWanted("changed")) {
        printTimes("one reading changed", season(1777.0), &known.value(), 50.0);
    }
    if (isWanted("counted")) {
        printTimes("counted, both ends rounded, 100 to a cell",
                   countedSeason(spin::CountingHabit::Both, 100), nullptr, 1000.0);
        printTimes("counted, habit not known, 100 to a cell",
                   countedSeason(spin::CountingHabit::Unknown, 100), nullptr, 1000.0);
        printTimes("counted, both ends rounded, 20 to a cell",
                   countedSeason(spin::CountingHabit::Both, 20), nullptr, 1000.0);
    }
    return isWanted("publish") ? printPublishing(before) : 0;
}
