#include "core/report/cell_estimate.h"

#include <algorithm>
#include <cmath>

namespace core::report {
namespace {

// A reading that is surer than a triangle between its limits does not rest on them.
constexpr double kSurerThanTriangle = 0.8;

double square(double value) {
    return value * value;
}

stats::ReadingLikelihood likelihoodBetween(Interval<double> limits, double rate, double variance) {
    const auto triangle = stats::ReadingLikelihood::bounded(limits, 0.0);
    const double least = square(triangle.spread());
    if (variance < kSurerThanTriangle * least) {
        return stats::ReadingLikelihood::normal(rate, std::sqrt(variance));
    }
    const double most = square(stats::ReadingLikelihood::bounded(limits, 1.0).spread());
    if (variance >= most) {
        return stats::ReadingLikelihood::bounded(limits, 1.0, std::sqrt(variance - most));
    }
    // Variance of a trapezoid: a²(1 + top²)/6 (JCGM 100:2008, 4.3.9).
    const double top = std::sqrt(std::clamp((variance - least) / (most - least), 0.0, 1.0));
    return stats::ReadingLikelihood::bounded(limits, top);
}

}  // namespace

double varianceOf(const SharedParts& parts) noexcept {
    double sum = 0.0;
    for (const auto& [key, effect] : parts) {
        sum += effect * effect;
    }
    return sum;
}

void addParts(SharedParts& parts, const SharedParts& more, double weight) {
    for (const auto& [key, effect] : more) {
        parts[key] += weight * effect;
    }
}

CountingReading countingReading(const project::Reading& reading) {
    CountingReading counting{.shot = reading.shot,
                             .rate = reading.rate,
                             .clockRelativeSigma = reading.clockRelativeSigma,
                             .method = reading.method,
                             .habit = reading.habit,
                             .viewRelativeSigma = reading.viewRelativeSigma.value_or(0.0)};
    const double rate = reading.rate.value.rpm;
    const double own =
        std::max(0.0, square(reading.rate.sigma.rpm) - square(rate * counting.clockRelativeSigma) -
                          square(rate * counting.viewRelativeSigma));
    const bool hasLimits = reading.bounds && reading.bounds->low.rpm > 0.0 &&
                           reading.bounds->low.rpm < reading.bounds->high.rpm;
    if (hasLimits && reading.habit) {
        const auto counted = spin::countedRate(*reading.habit, *reading.bounds);
        counting.habitRpm = counted.habitRpm;
        counting.likelihood = stats::ReadingLikelihood::bounded(
            {counted.bounds.low.rpm, counted.bounds.high.rpm}, counted.top);
    } else if (hasLimits) {
        counting.likelihood =
            likelihoodBetween({reading.bounds->low.rpm, reading.bounds->high.rpm}, rate, own);
    } else {
        counting.likelihood = stats::ReadingLikelihood::normal(rate, std::sqrt(own));
    }
    return counting;
}

stats::SharedWidening CellEstimate::total() const {
    return stats::widen(own, std::sqrt(varianceOf(shared)));
}

stats::Moments CellEstimate::moments() const noexcept {
    const auto n = static_cast<long double>(count);
    return {count, static_cast<long double>(own.mean),
            static_cast<long double>(variance()) * n * (n - 1.0L)};
}

Result<CellEstimate> estimateCell(project::SessionId session,
                                  std::span<const CountingReading> readings) {
    std::vector<stats::ReadingLikelihood> likelihoods;
    likelihoods.reserve(readings.size());
    const auto n = static_cast<double>(readings.size());
    double clock = 0.0;
    SharedParts shared;
    for (const CountingReading& reading : readings) {
        likelihoods.push_back(reading.likelihood);
        clock = std::max(clock, reading.clockRelativeSigma);
        if (reading.viewRelativeSigma > 0.0) {
            shared[{SharedSource::View, session, reading.method}] +=
                reading.viewRelativeSigma * reading.rate.value.rpm / n;
        }
        if (reading.habitRpm > 0.0) {
            shared[{SharedSource::Habit, session, {}}] += reading.habitRpm / n;
        }
    }
    BOOST_OUTCOME_TRY(own, stats::likelyMean(likelihoods));
    if (clock > 0.0) {
        // Several clips in one cell: the largest is taken as shared by all, which never makes the
        // interval too short.
        shared[{SharedSource::Clock, session, {}}] = clock * own.mean;
    }
    return CellEstimate{readings.size(), own, std::move(shared)};
}

CellsAverage averageOf(std::span<const CellEstimate* const> cells) {
    CellsAverage average;
    const auto count = static_cast<double>(cells.size());
    double satterthwaite = 0.0;
    double common = 0.0;
    double commonSquares = 0.0;
    double squares = 0.0;
    double dof = 0.0;
    for (const CellEstimate* cell : cells) {
        const double part = cell->variance() / (count * count);
        average.meanRpm += cell->own.mean / count;
        average.variance += part;
        average.shotsVariance += square(cell->own.shotsError / count);
        satterthwaite += part > 0.0 ? part * part / cell->own.dof.value : 0.0;
        common += cell->own.commonError / count;
        commonSquares += square(cell->own.commonError / count);
        const auto own = static_cast<double>(cell->count) - 1.0;
        squares += own * square(cell->own.scatter);
        dof += own;
        addParts(average.shared, cell->shared, 1.0 / count);
    }
    average.variance += common * common - commonSquares;
    average.dof = satterthwaite > 0.0 ? square(average.variance) / satterthwaite : 0.0;
    average.scatterRpm = std::sqrt(squares / dof);
    return average;
}

}  // namespace core::report
