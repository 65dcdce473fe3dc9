#include "core/spin/aliases.h"

#include <gtest/gtest.h>

#include <cmath>

#include "tests/support/reference_csv.h"

namespace core::spin {
namespace {

using timebase::CaptureRate;
using timebase::Rational;

CaptureRate captureOf(double fps) {
    return timebase::captureRateFromDecimal(fps).value();
}

TEST(Aliases, ApparentRateAgreesWithTheSamplingTheorem) {
    const auto table = tests::ReferenceTable::load("video/alias.csv");
    ASSERT_GT(table.rowCount(), 25U);
    constexpr double kTableDigits = 1e-6;  // rpm; cycles per frame are given to ten digits
    for (std::size_t i = 0; i < table.rowCount(); ++i) {
        const auto capture = captureOf(table.number(i, "fps"));
        const Rpm rate{table.number(i, "rpm")};
        EXPECT_NEAR(apparentRate(rate, capture).rpm, table.number(i, "apparent_rpm"), kTableDigits);
        EXPECT_EQ(isAliased(rate, capture), table.number(i, "aliased") != 0.0) << rate.rpm;
    }
}

TEST(Aliases, EveryCandidateShowsTheSameRate) {
    const CaptureRate capture{Rational{240}};
    for (const int order : {1, 2, 3}) {
        const auto found = aliasCandidates({1500.0}, capture, order, 2);
        ASSERT_EQ(found.size(), 4U);
        for (const auto& one : found) {
            const double truth = one.turnsOtherWay ? -one.rate.rpm : one.rate.rpm;
            EXPECT_NEAR(apparentRate({truth}, capture, order).rpm,
                        apparentRate({1500.0}, capture, order).rpm, 1e-9);
        }
    }
}

TEST(Aliases, SymmetryOfOrderMFoldsAtTheMthPart) {
    // m equal marks: replace f by m·f and divide the result by m (video/alias.csv, head).
    const CaptureRate capture{Rational{120}};
    EXPECT_NEAR(apparentRate({1500.0}, capture, 2).rpm, 1500.0, 1e-9);
    EXPECT_NEAR(apparentRate({2000.0}, capture, 2).rpm, 2000.0 - 3600.0, 1e-9);
    EXPECT_TRUE(isAliased({2000.0}, capture, 2));
    EXPECT_FALSE(isAliased({2000.0}, capture, 1));
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
