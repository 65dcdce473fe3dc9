#include "core/spin/fit/phase_dispersion.h"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "tests/support/reference_csv.h"

namespace core::spin::fit {
namespace {

constexpr double kTol = 1e-12;  // rounding of sums of 60 numbers

// The statistic of values and the number of the cell each one falls in.
double phaseDispersion(const std::vector<double>& values, const std::vector<int>& cells,
                       int cellCount) {
    std::vector<double> sums(static_cast<std::size_t>(cellCount));
    std::vector<int> counts(static_cast<std::size_t>(cellCount));
    double mean = 0.0;
    for (const double value : values) {
        mean += value / static_cast<double>(values.size());
    }
    double total = 0.0;
    for (std::size_t i = 0; i < values.size(); ++i) {
        const double deviation = values[i] - mean;
        total += deviation * deviation;
        sums[static_cast<std::size_t>(cells[i])] += deviation;
        ++counts[static_cast<std::size_t>(cells[i])];
    }
    double between = 0.0;
    int used = 0;
    for (std::size_t c = 0; c < sums.size(); ++c) {
        if (counts[c] > 0) {
            between += sums[c] * sums[c] / counts[c];
            ++used;
        }
    }
    return dispersionStatistic(total, between, static_cast<double>(values.size()), used);
}

TEST(PhaseDispersion, AgreesWithStellingwerfsStatistic) {
    const auto series = tests::ReferenceTable::load("spin_fit/dispersion_series.csv");
    const auto expected = tests::ReferenceTable::load("spin_fit/dispersion_theta.csv");
    const auto times = series.numbers("time");
    const auto values = series.numbers("value");
    ASSERT_EQ(expected.rowCount(), 7U);
    for (std::size_t row = 0; row < expected.rowCount(); ++row) {
        const double period = expected.number(row, "period");
        std::vector<int> bins;
        for (const double time : times) {
            bins.push_back(static_cast<int>(std::floor(std::fmod(time / period, 1.0) * 10.0)));
        }
        EXPECT_NEAR(phaseDispersion(values, bins, 10), expected.number(row, "theta"), kTol)
            << "period " << period;
    }
}

TEST(PhaseDispersion, IsOneWhereItCannotTell) {
    const std::vector<double> values{1.0, 2.0, 3.0};
    const std::vector<int> ownCells{0, 1, 2};
    EXPECT_DOUBLE_EQ(phaseDispersion(values, ownCells, 3), 1.0);
    const std::vector<double> equal{2.0, 2.0, 2.0};
    const std::vector<int> oneCell{0, 0, 0};
    EXPECT_DOUBLE_EQ(phaseDispersion(equal, oneCell, 1), 1.0);
}

}  // namespace
}  // namespace core::spin::fit
