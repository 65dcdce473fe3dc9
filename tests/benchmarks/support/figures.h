#pragma once

#include <functional>
#include <string>
#include <vector>

namespace benchmarks {

/// Of at least one value; the lower one of two in the middle.
double median(std::vector<double> values);
/// The smallest value that at least this share of the values does not exceed (nearest rank).
double quantile(std::vector<double> values, double share);

/// What a figure should be.
struct Target {
    enum class Kind { None, AtMost, AtLeast };
    Kind kind{Kind::None};
    double value{};
};
inline Target atMost(double value) {
    return {Target::Kind::AtMost, value};
}
inline Target atLeast(double value) {
    return {Target::Kind::AtLeast, value};
}

/// Prints "name: value", and the target with whether it is met.
void printFigure(const std::string& name, double value, Target target = {});

/// What a run took: of the wall clock, and of the processors by all threads of this process.
struct Cost {
    double wallSeconds{};
    double processorSeconds{};
};
Cost costOf(const std::function<void()>& call);

/// Two ways to do the same, run in turn so that whatever else the machine does slows both alike.
struct Pairs {
    std::vector<Cost> engine;
    std::vector<Cost> bare;
};
Pairs runInTurn(int rounds, const std::function<void()>& engine, const std::function<void()>& bare);
/// Prints both medians in milliseconds and the median of engine/bare, pair by pair, by the wall
/// clock (which the target is for) and by the processors (which a busy machine disturbs less).
void printPairs(const std::string& name, const Pairs& pairs, Target ratio);

}  // namespace benchmarks
