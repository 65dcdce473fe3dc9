#include "tests/benchmarks/support/figures.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <ctime>

namespace benchmarks {

namespace {

double processorSeconds() {
    timespec time{};
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &time);
    return static_cast<double>(time.tv_sec) + 1e-9 * static_cast<double>(time.tv_nsec);
}

std::vector<double> valuesOf(const std::vector<Cost>& costs, double Cost::*part) {
    std::vector<double> values;
    for (const Cost& cost : costs) {
        values.push_back(cost.*part);
    }
    return values;
}

double medianRatio(const Pairs& pairs, double Cost::*part) {
    std::vector<double> ratios;
    for (std::size_t i = 0; i < pairs.engine.size(); ++i) {
        ratios.push_back(pairs.engine[i].*part / pairs.bare[i].*part);
    }
    return median(ratios);
}

}  // namespace

Cost costOf(const std::function<void()>& call) {
    const double processorsBefore = processorSeconds();
    const auto begin = std::chrono::steady_clock::now();
    call();
    const auto end = std::chrono::steady_clock::now();
    return {std::chrono::duration<double>(end - begin).count(),
            processorSeconds() - processorsBefore};
}

double quantile(std::vector<double> values, double share) {
    std::sort(values.begin(), values.end());
    const double rank = std::ceil(share * static_cast<double>(values.size()));
    return values.at(static_cast<std::size_t>(std::max(1.0, rank)) - 1);
}

double median(std::vector<double> values) {
    return quantile(std::move(values), 0.5);
}

void printFigure(const std::string& name, double value, Target target) {
    std::string line = fmt::format("{}: {:.4g}", name, value);
    if (target.kind != Target::Kind::None) {
        const bool isAtMost = target.kind == Target::Kind::AtMost;
        const bool isMet = isAtMost ? value <= target.value : value >= target.value;
        line += fmt::format(" (wanted: {} {:.4g}; {})", isAtMost ? "at most" : "at least",
                            target.value, isMet ? "met" : "MISSED");
    }
    std::puts(line.c_str());
    std::fflush(stdout);
}

Pairs runInTurn(int rounds, const std::function<void()>& engine,
                const std::function<void()>& bare) {
    Pairs pairs;
    for (int round = 0; round < rounds; ++round) {
        // Whoever goes second finds warmer caches: they take turns at that, too.
        if (round % 2 == 0) {
            pairs.engine.push_back(costOf(engine));
            pairs.bare.push_back(costOf(bare));
        } else {
            pairs.bare.push_back(costOf(bare));
            pairs.engine.push_back(costOf(engine));
        }
    }
    return pairs;
}

void printPairs(const std::string& name, const Pairs& pairs, Target ratio) {
    const double milli = 1000.0;
    printFigure(name + ", engine, ms", milli * median(valuesOf(pairs.engine, &Cost::wallSeconds)));
    printFigure(name + ", bare, ms", milli * median(valuesOf(pairs.bare, &Cost::wallSeconds)));
    printFigure(name + ", engine/bare", medianRatio(pairs, &Cost::wallSeconds), ratio);
    printFigure(name + ", engine/bare in processor time",
                medianRatio(pairs, &Cost::processorSeconds));
}

}  // namespace benchmarks
