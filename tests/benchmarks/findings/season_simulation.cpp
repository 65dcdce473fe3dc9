// What the findings say of simulated seasons, against the truth that made them: kept readings in
// the memory, through core::findings as the window and the command line use it. Seeded: the same
// numbers on every run of one build.
//
//   season_simulation [coverage|odd] [SEASONS]   200 seasons for each line; no part named: both
#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <optional>
#include <random>
#include <string>
#include <vector>

#include "core/findings/findings.h"
#include "tests/core/findings/made_project.h"

namespace {

using namespace core;
using spin::CountingHabit;

constexpr unsigned kSeed = 20260406;
constexpr double kFramesPerMinute = 60.0 * 120.0;
constexpr double kReadingSigma = 3.0;  // of a reading that is no count, rpm
constexpr double kStepRpm = 300.0;     // the noticeable step
constexpr double kHitterRpm = 60.0;    // what each hitter gets more than the one before
constexpr int kImplements = 12;

// How the shots of a season are read; no habit: exactly.
using Habit = std::optional<CountingHabit>;

std::string nameOf(Habit habit) {
    return habit ? std::string{spin::habitName(*habit)} : "exact";
}

struct Line {
    Habit habit;
    double scatterRpm{};
    int shots{};
    int hitters{2};
};

// A cell that does not fit: so much is added to its mean.
struct OddCell {
    int implement{};
    int hitter{};
    double rpm{};
};

// Means of the implements with the first hitter, and the habit that the counting really has.
struct Truth {
    std::vector<double> implements;
    Habit habit;
    std::optional<OddCell> odd;

    [[nodiscard]] double cell(int implement, int hitter) const {
        const bool isOdd = odd && odd->implement == implement && odd->hitter == hitter;
        return implements[static_cast<std::size_t>(implement)] + kHitterRpm * hitter +
               (isOdd ? odd->rpm : 0.0);
    }
};

// Means are spread evenly over four whole steps of the count, so that no step is cut in half.
Truth truthOf(const Line& line, bool areEqual, std::mt19937_64& generator) {
    constexpr std::array kKnown{CountingHabit::Nearest, CountingHabit::Both, CountingHabit::After};
    std::uniform_int_distribution<std::size_t> anyHabit{0, kKnown.size() - 1};
    Truth truth;
    truth.habit = line.habit == CountingHabit::Unknown ? kKnown[anyHabit(generator)] : line.habit;
    const double edge = truth.habit == CountingHabit::After ? 0.0 : 0.5;
    std::uniform_real_distribution<double> any{kFramesPerMinute / (8.0 - edge),
                                               kFramesPerMinute / (4.0 - edge)};
    const double first = any(generator);
    for (int i = 0; i < kImplements; ++i) {
        truth.implements.push_back(areEqual ? first : any(generator));
    }
    return truth;
}

// A frame count of a turn at a rate, as a person with that habit makes it.
double countOf(double rpm, CountingHabit habit, std::mt19937_64& generator) {
    const double frames = kFramesPerMinute / rpm;
    if (habit == CountingHabit::After) {
        return std::ceil(frames);
    }
    std::uniform_real_distribution<double> offset{-0.5, 0.5};
    return std::round(frames + (habit == CountingHabit::Both ? offset(generator) : 0.0));
}

// Ids run by implement, then by hitter, from 1.
findings::Findings findingsOf(const Line& line, const Truth& truth, std::mt19937_64& generator) {
    tests::MadeProject project;
    project.set("noticeable_step_rpm", std::to_string(kStepRpm));
    std::normal_distribution<double> noise;
    for (int i = 0; i < kImplements; ++i) {
        const auto implement = project.implement(std::to_string(i + 1));
        for (int h = 0; h < line.hitters; ++h) {
            const std::string hitter(1, static_cast<char>('A' + h));
            for (int k = 0; k < line.shots; ++k) {
                const double rpm = truth.cell(i, h) + line.scatterRpm * noise(generator);
                if (truth.habit) {
                    project.keepCount(implement, hitter, countOf(rpm, *truth.habit, generator),
                                      *line.habit);
                } else {
                    project.keep(implement, hitter, rpm + kReadingSigma * noise(generator),
                                 kReadingSigma);
                }
            }
        }
    }
    auto found = findings::findFindings(project.snapshot());
    if (!found) {
        std::fprintf(stderr, "%s\n", found.error().message.c_str());
        std::exit(1);
    }
    return std::move(found).value();
}

class Share {
public:
    void count(bool hit) {
        m_hits += hit ? 1 : 0;
        ++m_trials;
    }
    [[nodiscard]] double percent() const { return m_trials == 0 ? 0.0 : 100.0 * m_hits / m_trials; }

private:
    int m_hits{};
    int m_trials{};
};

struct Coverage {
    Share cells;
    Share implements;
    Share wrongPairs;     // seasons of equal implements in which a pair is said to differ
    Share falseSteps;     // seasons with a false "at least", "less than" or "equivalent"
    Share outliers;       // shots of clean cells that are called so
    Share oddShots;       // likewise outliers or stragglers
    Share oddCells;       // seasons without an odd cell in which one is named
    double cellError{};   // sum over cells, rpm
    double halfWidths{};  // likewise
    int means{};
};

std::size_t at(std::int64_t id) {
    return static_cast<std::size_t>(id) - 1;
}

bool holds(const Interval<double>& interval, double truth) {
    return interval.low <= truth && truth <= interval.high;
}

bool isFalse(stats::StepVerdict verdict, double trueDifference) {
    const bool isLarge = trueDifference >= kStepRpm;
    return verdict == stats::StepVerdict::DiffersByAtLeast ? !isLarge
           : verdict == stats::StepVerdict::NotSettled     ? false
                                                           : isLarge;
}

void judgeCells(const findings::Findings& found, const Line& line, const Truth& truth,
                Coverage& coverage) {
    for (std::size_t i = 0; i < found.cells.size(); ++i) {
        const auto& cell = found.cells[i];
        const auto outliers = static_cast<int>(std::count_if(
            cell.oddShots.begin(), cell.oddShots.end(),
            [](const auto& shot) { return shot.word == stats::OutlierWord::Outlier; }));
        for (int k = 0; k < line.shots; ++k) {
            coverage.outliers.count(k < outliers);
            coverage.oddShots.count(k < static_cast<int>(cell.oddShots.size()));
        }
        if (!cell.mean) {
            coverage.cells.count(false);
            continue;
        }
        const double mean =
            truth.cell(static_cast<int>(i) / line.hitters, static_cast<int>(i) % line.hitters);
        coverage.cells.count(holds(cell.mean->interval95, mean));
        coverage.cellError += cell.mean->value - mean;
        coverage.halfWidths += 0.5 * (cell.mean->interval95.high - cell.mean->interval95.low);
        ++coverage.means;
    }
}

void judgeComparison(const findings::Findings& found, const Line& line, const Truth& truth,
                     bool areEqual, Coverage& coverage) {
    for (const auto& row : found.together().ranked) {
        const double mean = truth.implements[at(row.implement.value)] +
                            0.5 * kHitterRpm * static_cast<double>(line.hitters - 1);
        coverage.implements.count(holds(row.mean.interval95, mean));
    }
    bool isAnyWrong = false;
    bool isStepFalse = false;
    for (const auto& pair : found.together().pairs) {
        const double difference = std::abs(truth.implements[at(pair.first.value)] -
                                           truth.implements[at(pair.second.value)]);
        isAnyWrong = isAnyWrong || pair.differs;
        isStepFalse = isStepFalse || (pair.verdict && isFalse(*pair.verdict, difference));
    }
    if (areEqual) {
        coverage.wrongPairs.count(isAnyWrong);
    } else {
        coverage.falseSteps.count(isStepFalse);
    }
}

void printCoverage(int seasons) {
    std::mt19937_64 generator{kSeed};
    std::printf(
        "\n%d implements, two hitters, means over four whole steps of a count at 120 frames per "
        "second (900 to 2057 rpm), %d seasons a line and as many of equal implements.\nShare of 95 "
        "%% intervals of cells and implements that hold the truth, %%; bias and half width of cell "
        "means, rpm; seasons of equal implements in which a pair is said to differ, %%; seasons "
        "with a false verdict at a step of %.0f rpm, %%; shots called outliers, and outliers or "
        "stragglers, %%; seasons with a cell called odd, %%. No shot and no cell is odd.\n",
        kImplements, seasons, kStepRpm);
    std::printf("%-8s %8s %6s | %6s %6s %6s %6s %6s %6s %6s %6s %6s\n", "read", "scatter", "shots",
                "cells", "impl.", "bias", "half", "pairs", "steps", "outl.", "strag.", "odd c.");
    for (const Habit habit : {Habit{}, Habit{CountingHabit::Nearest}, Habit{CountingHabit::Both},
                              Habit{CountingHabit::After}, Habit{CountingHabit::Unknown}}) {
        for (const double scatter : {30.0, 60.0, 100.0, 150.0}) {
            for (const int shots : {4, 6, 10, 20}) {
                const Line line{habit, scatter, shots};
                Coverage coverage;
                for (int i = 0; i < 2 * seasons; ++i) {
                    const bool areEqual = i % 2 == 1;
                    const Truth truth = truthOf(line, areEqual, generator);
                    const auto found = findingsOf(line, truth, generator);
                    judgeCells(found, line, truth, coverage);
                    judgeComparison(found, line, truth, areEqual, coverage);
                    coverage.oddCells.count(!found.hitters.interaction.empty());
                }
                std::printf(
                    "%-8s %8.0f %6d | %6.1f %6.1f %6.1f %6.0f %6.1f %6.1f %6.2f %6.2f %6.1f\n",
                    nameOf(habit).c_str(), scatter, shots, coverage.cells.percent(),
                    coverage.implements.percent(), coverage.cellError / coverage.means,
                    coverage.halfWidths / coverage.means, coverage.wrongPairs.percent(),
                    coverage.falseSteps.percent(), coverage.outliers.percent(),
                    coverage.oddShots.percent(), coverage.oddCells.percent());
                std::fflush(stdout);
            }
        }
    }
}

struct OddCellTally {
    Share named;    // the odd cell, alone or among several
    Share alone;    // the odd cell alone
    Share accused;  // a sound cell, without the odd one beside it
};

void judgeOddCell(const findings::Findings& found, const Truth& truth, OddCellTally& tally) {
    const auto& cells = found.hitters.interaction;
    const auto isOddOne = [&](const findings::InteractionCell& cell) {
        return at(cell.implement.value) == static_cast<std::size_t>(truth.odd->implement) &&
               at(cell.hitter.value) == static_cast<std::size_t>(truth.odd->hitter);
    };
    const auto named = std::find_if(cells.begin(), cells.end(), isOddOne);
    const bool isNamed = named != cells.end();
    tally.named.count(isNamed);
    tally.alone.count(isNamed && !named->isOneOfSeveral);
    tally.accused.count(
        std::any_of(cells.begin(), cells.end(), [&](const findings::InteractionCell& cell) {
            return !isNamed || cell.group != named->group;
        }));
}

void printOddCells(int seasons) {
    std::mt19937_64 generator{kSeed};
    std::printf(
        "\nOne cell of %d implements lies 500 rpm off, above or below in turn, %d seasons a line: "
        "seasons in which it is named (alone or among several that the readings cannot tell "
        "apart), named alone, and in which a sound cell is accused without it, %%.\n",
        kImplements, seasons);
    std::printf("%-8s %8s %8s %6s | %6s %6s %8s\n", "read", "hitters", "scatter", "shots", "named",
                "alone", "accused");
    for (const Habit habit : {Habit{}, Habit{CountingHabit::Nearest}, Habit{CountingHabit::Both}}) {
        for (const int hitters : {2, 3}) {
            for (const double scatter : {60.0, 100.0, 150.0}) {
                for (const int shots : {6, 10, 20}) {
                    const Line line{habit, scatter, shots, hitters};
                    OddCellTally tally;
                    for (int i = 0; i < seasons; ++i) {
                        Truth truth = truthOf(line, false, generator);
                        truth.odd = OddCell{i % kImplements, (i / kImplements) % hitters,
                                            i % 2 == 0 ? 500.0 : -500.0};
                        judgeOddCell(findingsOf(line, truth, generator), truth, tally);
                    }
                    std::printf("%-8s %8d %8.0f %6d | %6.1f %6.1f %8.1f\n", nameOf(habit).c_str(),
                                hitters, scatter, shots, tally.named.percent(),
                                tally.alone.percent(), tally.accused.percent());
                    std::fflush(stdout);
                }
            }
        }
    }
}

}  // namespace

int main(int count, char** words) {
    std::string part;
    int seasons = 200;
    for (int i = 1; i < count; ++i) {
        const std::string word{words[i]};
        if (word == "coverage" || word == "odd") {
            part = word;
        } else if (seasons = std::atoi(word.c_str()); seasons < 1) {
            std::fputs("season_simulation [coverage|odd] [SEASONS]: at least one season\n", stderr);
            return 2;
        }
    }
    if (part != "odd") {
        printCoverage(seasons);
    }
    if (part != "coverage") {
        printOddCells(seasons);
    }
    return 0;
}
