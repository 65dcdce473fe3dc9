#include "core/spin/aliases.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "tests/support/reference_csv.h"

namespace core::spin {
namespace {

using timebase::CaptureRate;
using timebase::Rational;

CaptureRate captureOf(double fps) {
    return timebase::captureRateFromDecimal(fps).value();
}

// The sampling theorem (Shannon 1949): frames show a rate of less than half the folding rate, F in
// turns per minute. The table says which.
TEST(Aliases, TheRateThatFramesShowIsACandidate) {
    const auto table = tests::ReferenceTable::load("video/alias.csv");
    ASSERT_GT(table.rowCount(), 25U);
    constexpr double kTableDigits = 1e-6;  // rpm; cycles per frame are given to ten digits
    int aliased = 0;
    for (std::size_t i = 0; i < table.rowCount(); ++i) {
        const double shown = table.number(i, "apparent_rpm");
        const double truth = table.number(i, "rpm");
        if (std::abs(truth - shown) < kTableDigits || shown == 0.0) {
            continue;  // frames show it as it is, or standing still
        }
        const auto found = aliasCandidates({truth}, captureOf(table.number(i, "fps")), 1, 8);
        EXPECT_TRUE(std::any_of(found.begin(), found.end(),
                                [&](const auto& one) {
                                    return std::abs(one.rate.rpm - std::abs(shown)) <
                                               kTableDigits &&
                                           one.turnsOtherWay == ((shown < 0.0) != (truth < 0.0));
                                }))
            << truth << " rpm is shown as " << shown;
        ++aliased;
    }
    EXPECT_GT(aliased, 5);
}

// m equal marks fold at the m-th part (video/alias.csv, head): 2000 rpm at 120 frames per second
// with two marks looks like 2000 - 3600.
TEST(Aliases, SymmetryOfOrderMFoldsAtTheMthPart) {
    const auto found = aliasCandidates({2000.0}, {Rational{120}}, 2, 1);
    ASSERT_EQ(found.size(), 2U);
    EXPECT_NEAR(found[0].rate.rpm, 1600.0, 1e-9);
    EXPECT_TRUE(found[0].turnsOtherWay);
    EXPECT_NEAR(found[1].rate.rpm, 5600.0, 1e-9);
    EXPECT_FALSE(found[1].turnsOtherWay);
}

TEST(Aliases, RateZeroIsNoCandidate) {
    const auto found = aliasCandidates({7200.0}, {Rational{120}}, 1, 1);
    ASSERT_EQ(found.size(), 1U);
    EXPECT_NEAR(found.front().rate.rpm, 14400.0, 1e-9);
}

TEST(Aliases, SymmetryListsTheMthPartAndTheMultiple) {
    EXPECT_TRUE(symmetryAlternatives({1500.0}, 1).empty());
    const auto found = symmetryAlternatives({1500.0}, 2);
    ASSERT_EQ(found.size(), 2U);
    EXPECT_DOUBLE_EQ(found[0].rate.rpm, 750.0);
    EXPECT_DOUBLE_EQ(found[1].rate.rpm, 3000.0);
}

TEST(AliasesDeathTest, OrderBelowOneIsABugOfTheCaller) {
    EXPECT_DEATH(static_cast<void>(symmetryAlternatives({1.0}, 0)), "precondition");
}

}  // namespace
}  // namespace core::spin
