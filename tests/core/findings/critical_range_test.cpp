#include "core/findings/critical_range.h"

#include <gtest/gtest.h>

#include <limits>

namespace {

using core::findings::CriticalRange;
using core::stats::StudentizedRange;

constexpr double kTolRelative = 1e-7;  // what the header promises

void expectSameQuantiles(int groups, double least, double greatest) {
    const StudentizedRange range{groups};
    const CriticalRange critical{range, {0.05}, {least}, {greatest}};
    for (int step = 0; step <= 40; ++step) {
        const double share = step / 40.0;
        const double dof = 1.0 / ((1.0 - share) / least + share / greatest);
        const double expected = range.upperQuantile({0.05}, {dof});
        EXPECT_NEAR(critical.at({dof}), expected, kTolRelative * expected)
            << groups << " groups, " << dof << " degrees of freedom";
    }
}

TEST(CriticalRange, AgreesWithTheDistributionFromOneDegreeOfFreedomToInfinity) {
    expectSameQuantiles(2, 1.0, std::numeric_limits<double>::infinity());
    expectSameQuantiles(12, 1.0, std::numeric_limits<double>::infinity());
    expectSameQuantiles(60, 2.0, 500.0);
}

TEST(CriticalRange, OneNumberOfDegreesOfFreedomIsTheDistributionsOwn) {
    const StudentizedRange range{5};
    const CriticalRange critical{range, {0.05}, {17.5}, {17.5}};
    EXPECT_NEAR(critical.at({17.5}), range.upperQuantile({0.05}, {17.5}), 1e-12);
}

}  // namespace
