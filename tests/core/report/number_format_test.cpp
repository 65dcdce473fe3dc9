#include "core/report/number_format.h"

#include <gtest/gtest.h>

#include <cmath>
#include <cstdlib>
#include <limits>

#include "tests/support/in_german.h"

namespace core::report {
namespace {

// JCGM 100:2008, 7.2.6: two significant digits of the uncertainty, the value to the same place. Its
// examples "10.057 62 Ω with u = 27 mΩ is 10.058 Ω" and "u = 28.05 kHz is 28 kHz" are quoted from
// memory.
TEST(NumberFormat, ValueFollowsTheUncertainty) {
    EXPECT_EQ(withDigitsOf(10.05762, 0.027), "10.058");
    EXPECT_EQ(withDigitsOf(28.05, 28.05), "28");
    EXPECT_EQ(plusMinus(1444.83, 83.75), "1445 ± 84");
    EXPECT_EQ(plusMinus(1502.6466, 7.594), "1502.6 ± 7.6");
}

TEST(NumberFormat, RoundingThatCarriesLosesADecimal) {
    EXPECT_EQ(decimalsFor(0.0996), 2);  // rounds to 0.10
    EXPECT_EQ(decimalsFor(9.96), 0);    // rounds to 10
    EXPECT_EQ(decimalsFor(9.94), 1);    // stays 9.9
}

TEST(NumberFormat, NoUncertaintyHasNoDecimals) {
    EXPECT_FALSE(decimalsFor(0.0).has_value());
    EXPECT_FALSE(decimalsFor(std::numeric_limits<double>::quiet_NaN()).has_value());
}

TEST(NumberFormat, MinusZeroIsZero) {
    EXPECT_EQ(fixed(-0.04, 1), "0.0");
}

TEST(NumberFormat, NotFiniteIsADash) {
    EXPECT_EQ(fixed(std::numeric_limits<double>::infinity(), 1), "–");
    EXPECT_EQ(roundTrip(std::nan("")), "");
}

TEST(NumberFormat, RoundTripComesBackToTheBit) {
    for (const double value : {1.0 / 3.0, 1444.8284271247461, 5e-324, 1e300}) {
        EXPECT_EQ(std::strtod(roundTrip(value).c_str(), nullptr), value);
    }
}

// DIN 1333:1992-02 has the comma as decimal sign (from memory). A file is read by programs.
TEST(NumberFormat, PeopleReadTheirDecimalSignAndFilesThePoint) {
    const InGerman german;
    EXPECT_EQ(fixed(-1234.56, 1), "-1234,6");
    EXPECT_EQ(plusMinus(1502.6466, 7.594), "1502,6 ± 7,6");
    EXPECT_EQ(intervalText(1498.2, 1512.6, 7.594), "1498,2 bis 1512,6");
    EXPECT_EQ(shortest(150.0), "150");
    EXPECT_EQ(shortest(0.5), "0,5");
    EXPECT_EQ(roundTrip(0.5), "0.5");
}

}  // namespace
}  // namespace core::report
