#include "tests/benchmarks/spin_fit/accuracy_table.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <functional>

namespace tests {

namespace {

constexpr double kBlunder = 0.05;  // relative error from which a reading misleads

double quantile(std::vector<double> values, double share) {
    if (values.empty()) {
        return 0.0;
    }
    std::sort(values.begin(), values.end());
    const double place = share * static_cast<double>(values.size() - 1);
    const auto below = static_cast<std::size_t>(place);
    const auto above = std::min(values.size() - 1, below + 1);
    return values[below] + (place - std::floor(place)) * (values[above] - values[below]);
}

using Condition = std::function<bool(const AccuracyRow&)>;

void printLine(const std::string& name, const std::vector<AccuracyRow>& rows,
               const Condition& condition) {
    std::vector<double> errors, axes, scaled, scaledAxes;
    double all = 0.0, covered = 0.0, milliseconds = 0.0;
    int blunders = 0;
    for (const AccuracyRow& row : rows) {
        if (!condition(row)) {
            continue;
        }
        all += 1.0;
        milliseconds += row.milliseconds;
        if (row.isReading) {
            errors.push_back(100.0 * std::abs(row.relativeError()));
            axes.push_back(row.axisErrorDegrees);
            scaled.push_back(std::abs(row.rpm - row.trueRpm) / row.sigmaRpm);
            scaledAxes.push_back(row.axisErrorDegrees / row.axisSigmaDegrees);
            covered += row.isCovered ? 1.0 : 0.0;
            blunders += std::abs(row.relativeError()) > kBlunder ? 1 : 0;
        }
    }
    const auto read = static_cast<double>(errors.size());
    fmt::print(
        "{:<20} {:4.0f} {:5.1f} % | {:6.3f} {:6.3f} {:7.3f} | {:5.2f} {:6.2f} {:5.2f} | {:5.1f} "
        "{:4.2f} {:4.2f} | {:3d} | {:4.0f}\n",
        name, all, 100.0 * (1.0 - read / std::max(1.0, all)), quantile(errors, 0.5),
        quantile(errors, 0.9), quantile(errors, 1.0), quantile(axes, 0.5), quantile(axes, 0.9),
        quantile(scaledAxes, 0.5), 100.0 * covered / std::max(1.0, read), quantile(scaled, 0.5),
        quantile(scaled, 0.95), blunders, milliseconds / std::max(1.0, all));
}

}  // namespace

void printRow(const AccuracyRow& row) {
    fmt::print(
        "{:<24} {:<20} {:3.0f} fps {:5.0f} rpm tilt {:2.0f} ball {:2.0f} px n {:2d} smear {:3.0f} "
        "f/turn {:4.1f} | {} {:6.0f} {:+8.3f} % s {:6.3f} z {:+7.2f} axis {:5.1f} ({:4.2f}) "
        "view {:+5.1f} uniq {:5.1f} ratio {:5.2f} expl {:4.2f} {:4.0f} ms {}\n",
        row.name, row.marking, row.captureFps, row.trueRpm, row.axisToCameraDegrees, row.ballPx,
        row.frames, row.exposureTurnDegrees, row.framesPerTurn, row.isReading ? "ok" : "NO",
        row.rpm, 100.0 * row.relativeError(), 100.0 * row.sigmaRpm / row.trueRpm,
        (row.rpm - row.trueRpm) / row.sigmaRpm, row.axisErrorDegrees, row.axisSigmaDegrees,
        row.fieldOfViewErrorDegrees, row.uniqueness, row.nextRatio, row.explained, row.milliseconds,
        row.reason);
}

void printTables(const std::vector<AccuracyRow>& rows) {
    fmt::print(
        "\n{:<20} {:>4} {:>7} | {:>6} {:>6} {:>7} | {:>5} {:>6} {:>5} | {:>5} {:>4} {:>4} | {:>3} "
        "| {:>4}\n",
        "condition", "n", "refused", "med %", "p90 %", "max %", "axis", "p90", "z", "cover", "z50",
        "z95", "bad", "ms");
    const auto line = [&](const std::string& name, const Condition& condition) {
        printLine(name, rows, condition);
    };
    line("all", [](const AccuracyRow&) { return true; });
    line("in scope", [](const AccuracyRow& r) { return r.isInScope(); });
    std::vector<std::string> markings;
    for (const AccuracyRow& row : rows) {
        if (std::find(markings.begin(), markings.end(), row.marking) == markings.end()) {
            markings.push_back(row.marking);
        }
    }
    for (const std::string& marking : markings) {
        line("  " + marking,
             [&](const AccuracyRow& r) { return r.isInScope() && r.marking == marking; });
    }
    line("  8 to 10 frames", [](const AccuracyRow& r) { return r.isInScope() && r.frames <= 10; });
    line("  11 to 16 frames",
         [](const AccuracyRow& r) { return r.isInScope() && r.frames > 10 && r.frames <= 16; });
    line("  over 16 frames", [](const AccuracyRow& r) { return r.isInScope() && r.frames > 16; });
    line("  ball under 40 px", [](const AccuracyRow& r) { return r.isInScope() && r.ballPx < 40; });
    line("  ball over 55 px", [](const AccuracyRow& r) { return r.isInScope() && r.ballPx > 55; });
    line("  axis within 30",
         [](const AccuracyRow& r) { return r.isInScope() && r.axisToCameraDegrees < 30; });
    line("  axis beyond 60",
         [](const AccuracyRow& r) { return r.isInScope() && r.axisToCameraDegrees > 60; });
    line("  under 5 f/turn",
         [](const AccuracyRow& r) { return r.isInScope() && r.framesPerTurn < 5; });
    line("out of scope", [](const AccuracyRow& r) { return !r.isInScope(); });
}

}  // namespace tests
