#include "core/spin/fit/phase_dispersion.h"

#include <gtest/gtest.h>

#include <cmath>

#include "tests/support/reference_csv.h"

namespace core::spin::fit {
namespace {

constexpr double kTol = 1e-12;  // rounding of sums of 60 numbers

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
