#pragma once

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <limits>

namespace tests {

/// Number of digits in which computed agrees with certified: the log relative error, as NIST scores
/// statistical software (McCullough 1998, Am. Stat. 52:358-366); log absolute error where the
/// certified value is zero. At most 16.
inline double matchingDigits(double computed, double certified) {
    if (computed == certified) {
        return 16.0;
    }
    const double scale = certified == 0.0 ? 1.0 : std::abs(certified);
    const double digits = -std::log10(std::abs(computed - certified) / scale);
    return std::isnan(digits) ? -std::numeric_limits<double>::infinity() : std::min(digits, 16.0);
}

/// Prints both sides and the digits reached when there are too few.
inline ::testing::AssertionResult agrees(double computed, double certified, double digits) {
    const double reached = matchingDigits(computed, certified);
    if (reached >= digits) {
        return ::testing::AssertionSuccess();
    }
    char text[160];
    std::snprintf(text, sizeof text, "computed %.17g, expected %.17g: %.2f digits of %.2f",
                  computed, certified, reached, digits);
    return ::testing::AssertionFailure() << text;
}

}  // namespace tests
