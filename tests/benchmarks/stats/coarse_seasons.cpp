#include "tests/benchmarks/stats/coarse_seasons.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <random>
#include <vector>

#include "core/spin/counting_habit.h"
#include "core/stats/comparison/noticeable_step.h"
#include "core/stats/comparison/pairwise.h"
#include "core/stats/sample/grubbs.h"
#include "core/stats/sample/likely_mean.h"
#include "core/stats/sample/moments.h"

namespace {

using namespace core;
using spin::CountingHabit;

constexpr double kFps = 120.0;
constexpr double kStep = 300.0;  // the noticeable step, rpm
constexpr int kImplements = 6;
constexpr int kHitters = 2;
constexpr double kFramesPerMinute = 60.0 * kFps;

// A frame count of a turn at a rate, as a person with that habit makes it.
int countOf(double rpm, CountingHabit habit, std::mt19937_64& generator) {
    const double frames = kFramesPerMinute / rpm;
    if (habit == CountingHabit::After) {
        return static_cast<int>(std::ceil(frames));
    }
    std::uniform_real_distribution<double> offset{-0.5, 0.5};
    const double start = habit == CountingHabit::Both ? offset(generator) : 0.0;
    return static_cast<int>(std::lround(frames + start));
}

struct Line {
    CountingHabit habit{};
    double deviation{};
    int shots{};
};

// What is said of a cell from its counts.
struct Said {
    double mean{};
    Interval<double> interval{};
    double variance{};
    double dof{};
    double commonRpm{};  // part of the variance that cells with like counts share
    double habitRpm{};
};

struct Readings {
    std::vector<stats::ReadingLikelihood> likelihoods;
    double habitRpm{};
};

Readings readingsOf(const std::vector<int>& counts, CountingHabit habit) {
    Readings readings;
    for (const int count : counts) {
        const double k = count;
        const double before = habit == CountingHabit::Nearest ? 0.5 : 1.0;
        const double after = habit == CountingHabit::Nearest ? 0.5
                             : habit == CountingHabit::After ? 0.0
                                                             : 1.0;
        const auto counted = spin::countedRate(
            habit, {{kFramesPerMinute / (k + after)}, {kFramesPerMinute / (k - before)}});
        readings.likelihoods.push_back(stats::ReadingLikelihood::bounded(
            {counted.bounds.low.rpm, counted.bounds.high.rpm}, counted.top));
        readings.habitRpm += counted.habitRpm / static_cast<double>(counts.size());
    }
    return readings;
}

Said bySaidLikelihood(const std::vector<int>& counts, CountingHabit habit) {
    const auto [likelihoods, habitRpm] = readingsOf(counts, habit);
    const auto mean = stats::likelyMean(likelihoods).value();
    return {.mean = mean.mean,
            .interval = stats::widen(mean, habitRpm).interval,
            .variance = mean.standardError * mean.standardError,
            .dof = mean.dof.value,
            .commonRpm = mean.commonError,
            .habitRpm = habitRpm};
}

// As it was: each count gives the expectation of its rate under a triangle of periods.
Said byStudent(const std::vector<int>& counts) {
    std::vector<double> rates;
    for (const int count : counts) {
        const double k = count;
        rates.push_back(kFramesPerMinute *
                        ((k + 1.0) * std::log1p(1.0 / k) + (k - 1.0) * std::log1p(-1.0 / k)));
    }
    const auto moments = stats::momentsOf(rates);
    const auto n = static_cast<double>(rates.size());
    const double variance = moments.variance() / n;
    const double reach = stats::StudentT{{n - 1.0}}.coverageFactor({}) * std::sqrt(variance);
    const auto mean = static_cast<double>(moments.mean);
    return {.mean = mean,
            .interval = {mean - reach, mean + reach},
            .variance = variance,
            .dof = n - 1.0};
}

bool isHeld(const Interval<double>& interval, double truth) {
    return interval.low <= truth && truth <= interval.high;
}

// Average of the two cells of an implement.
Said averageOf(const Said& a, const Said& b) {
    Said both;
    both.mean = 0.5 * (a.mean + b.mean);
    both.habitRpm = 0.5 * (a.habitRpm + b.habitRpm);
    const double own = a.variance + b.variance;
    both.variance = 0.25 * (own + 2.0 * a.commonRpm * b.commonRpm);
    if (!(both.variance > 0.0)) {
        both.dof = 1.0;
        both.interval = {both.mean, both.mean};
        return both;
    }
    both.dof = std::pow(4.0 * both.variance, 2.0) /
               (a.variance * a.variance / a.dof + b.variance * b.variance / b.dof);
    const double total = both.variance + both.habitRpm * both.habitRpm;
    const double dof = both.dof * std::pow(total / both.variance, 2.0);
    const double reach = stats::StudentT{{dof}}.coverageFactor({}) * std::sqrt(total);
    both.interval = {both.mean - reach, both.mean + reach};
    return both;
}

// Counts of one state of the program.
struct Tally {
    int cells{};
    int cellsHeld{};
    double worstCells{1.0};
    int implements{};
    int implementsHeld{};
    double errors{};
    double halfWidths{};
    int seasons{};
    int wrongPairs{};  // seasons of equal implements in which a pair is said to differ
    int falseSteps{};  // seasons with a false "at least D" or "equivalent within D"
};

double critical(double dof, double level) {
    // Family of all pairs by Bonferroni over Student's t: close to the studentized range, quicker.
    const double pairs = 0.5 * kImplements * (kImplements - 1);
    return stats::StudentT{{dof}}.quantile({1.0 - 0.5 * (1.0 - level) / pairs});
}

void judgePairs(const std::vector<Said>& means, const std::vector<double>& truths, bool isEqual,
                Tally& tally) {
    bool isAnyWrong = false;
    bool isStepFalse = false;
    for (std::size_t i = 0; i < means.size(); ++i) {
        for (std::size_t j = i + 1; j < means.size(); ++j) {
            const Said& a = means[i];
            const Said& b = means[j];
            const double difference = a.mean - b.mean;
            const double own = a.variance + b.variance;
            if (!(own > 0.0)) {
                continue;  // was left out
            }
            const double total = own + std::pow(a.habitRpm - b.habitRpm, 2.0);
            const double dof = own * own /
                               (a.variance * a.variance / a.dof + b.variance * b.variance / b.dof) *
                               std::pow(total / own, 2.0);
            const double error = std::sqrt(total);
            const double reach = critical(dof, 0.95) * error;
            const double narrow = critical(dof, 0.90) * error;
            const auto verdict = stats::judgeStep({{difference - reach, difference + reach},
                                                   {difference - narrow, difference + narrow}},
                                                  {kStep})
                                     .value();
            const double truth = std::abs(truths[i] - truths[j]);
            isAnyWrong = isAnyWrong || std::abs(difference) > reach;
            isStepFalse = isStepFalse ||
                          (verdict == stats::StepVerdict::DiffersByAtLeast && truth < kStep) ||
                          ((verdict == stats::StepVerdict::Equivalent ||
                            verdict == stats::StepVerdict::DiffersByLess) &&
                           truth >= kStep);
        }
    }
    tally.wrongPairs += isEqual && isAnyWrong ? 1 : 0;
    tally.falseSteps += !isEqual && isStepFalse ? 1 : 0;
}

struct SeasonTruth {
    CountingHabit habit{};  // a known one
    std::vector<double> implements;
    bool areEqual{};
};

// Means are spread evenly over four whole steps of the count, so that no step is cut in half.
SeasonTruth truthOf(const Line& line, bool areEqual, std::mt19937_64& generator) {
    constexpr std::array kKnown{CountingHabit::Nearest, CountingHabit::Both, CountingHabit::After};
    std::uniform_int_distribution<std::size_t> anyHabit{0, kKnown.size() - 1};
    SeasonTruth truth{line.habit, {}, areEqual};
    if (line.habit == CountingHabit::Unknown) {
        truth.habit = kKnown[anyHabit(generator)];
    }
    const double edge = truth.habit == CountingHabit::After ? 0.0 : 0.5;
    std::uniform_real_distribution<double> any{kFramesPerMinute / (8.0 - edge),
                                               kFramesPerMinute / (4.0 - edge)};
    const double first = any(generator);
    for (int i = 0; i < kImplements; ++i) {
        truth.implements.push_back(areEqual ? first : any(generator));
    }
    return truth;
}

void season(const Line& line, const SeasonTruth& truth, std::array<Tally, 2>& tallies,
            std::mt19937_64& generator) {
    std::array<std::vector<Said>, 2> means;
    for (const double mean : truth.implements) {
        std::array<std::vector<Said>, 2> cells;
        for (int hitter = 0; hitter < kHitters; ++hitter) {
            std::normal_distribution<double> shot{mean, line.deviation};
            std::vector<int> counts;
            for (int i = 0; i < line.shots; ++i) {
                counts.push_back(countOf(shot(generator), truth.habit, generator));
            }
            cells[0].push_back(byStudent(counts));
            cells[1].push_back(bySaidLikelihood(counts, line.habit));
        }
        for (std::size_t state = 0; state < 2; ++state) {
            Tally& tally = tallies[state];
            for (const Said& cell : cells[state]) {
                ++tally.cells;
                tally.cellsHeld += isHeld(cell.interval, mean) ? 1 : 0;
                tally.errors += cell.mean - mean;
                tally.halfWidths += 0.5 * (cell.interval.high - cell.interval.low);
            }
            means[state].push_back(averageOf(cells[state][0], cells[state][1]));
            ++tally.implements;
            tally.implementsHeld += isHeld(means[state].back().interval, mean) ? 1 : 0;
        }
    }
    for (std::size_t state = 0; state < 2; ++state) {
        judgePairs(means[state], truth.implements, truth.areEqual, tallies[state]);
        ++tallies[state].seasons;
    }
}

void printState(const Tally& varied, const Tally& equal) {
    std::printf(" | %5.1f %5.1f %6.1f %5.0f %5.1f %5.1f", 100.0 * varied.cellsHeld / varied.cells,
                100.0 * varied.implementsHeld / varied.implements, varied.errors / varied.cells,
                varied.halfWidths / varied.cells, 100.0 * equal.wrongPairs / equal.seasons,
                100.0 * varied.falseSteps / varied.seasons);
}

// Shots of clean cells that are called odd: outliers, and outliers or stragglers.
void printFalseOddShots(int cells, std::mt19937_64& generator) {
    std::printf(
        "\nShots of clean cells called an outlier, and an outlier or a straggler, %%; before: "
        "Grubbs' test of the rates; %d cells a line\n",
        cells);
    for (const CountingHabit habit :
         {CountingHabit::Nearest, CountingHabit::Both, CountingHabit::After}) {
        for (const double deviation : {30.0, 60.0, 100.0, 150.0}) {
            for (const int shots : {6, 10, 20}) {
                std::array<int, 4> odd{};
                for (int i = 0; i < cells; ++i) {
                    const auto truth = truthOf({habit, deviation, shots}, true, generator);
                    std::normal_distribution<double> shot{truth.implements.front(), deviation};
                    std::vector<int> counts;
                    std::vector<double> rates;
                    for (int k = 0; k < shots; ++k) {
                        counts.push_back(countOf(shot(generator), habit, generator));
                        rates.push_back(kFramesPerMinute / counts.back());
                    }
                    const auto before = stats::grubbsTest(rates).value().word;
                    const auto now =
                        stats::grubbsTest(readingsOf(counts, habit).likelihoods).value().word;
                    odd[0] += before == stats::OutlierWord::Outlier ? 1 : 0;
                    odd[1] += before != stats::OutlierWord::Ordinary ? 1 : 0;
                    odd[2] += now == stats::OutlierWord::Outlier ? 1 : 0;
                    odd[3] += now != stats::OutlierWord::Ordinary ? 1 : 0;
                }
                const double all = 0.01 * cells * shots;
                std::printf("%-8s %11.0f %11d | before %5.2f %5.2f | now %5.2f %5.2f\n",
                            std::string{habitName(habit)}.c_str(), deviation, shots, odd[0] / all,
                            odd[1] / all, odd[2] / all, odd[3] / all);
            }
        }
    }
}

}  // namespace

void printCoarseSeasons(int seasons, unsigned seed) {
    std::mt19937_64 generator{seed};
    printFalseOddShots(10 * seasons, generator);
    std::printf(
        "\nWhole-frame counts at 120 frames per second, %d implements, %d hitters, means over four "
        "whole steps (900 to 2057 rpm), %d seasons a line.\nCells and implements: share of 95 %% "
        "intervals that hold "
        "the "
        "truth, %%; bias and half width of cell means, rpm; seasons of equal implements in which a "
        "pair is said to differ, %%; seasons with a false \"at least 300\" or \"less than 300\", "
        "%%.\n",
        kImplements, kHitters, seasons);
    std::printf("%-32s | %-37s | %s\n", "", "before: Student's t", "likelihood");
    std::printf("%-8s %11s %11s", "counted", "scatter", "shots");
    for (int state = 0; state < 2; ++state) {
        std::printf(" | %5s %5s %6s %5s %5s %5s", "cells", "impl.", "bias", "half", "pairs",
                    "steps");
    }
    std::printf("\n");
    for (const CountingHabit habit : {CountingHabit::Nearest, CountingHabit::Both,
                                      CountingHabit::After, CountingHabit::Unknown}) {
        for (const double deviation : {30.0, 60.0, 100.0, 150.0}) {
            for (const int shots : {4, 6, 10, 20}) {
                const Line line{habit, deviation, shots};
                std::array<Tally, 2> varied{};
                std::array<Tally, 2> equal{};
                for (int i = 0; i < seasons; ++i) {
                    season(line, truthOf(line, false, generator), varied, generator);
                    season(line, truthOf(line, true, generator), equal, generator);
                }
                std::printf("%-8s %11.0f %11d", std::string{habitName(habit)}.c_str(), deviation,
                            shots);
                for (std::size_t state = 0; state < 2; ++state) {
                    printState(varied[state], equal[state]);
                }
                std::printf("\n");
                std::fflush(stdout);
            }
        }
    }
}
