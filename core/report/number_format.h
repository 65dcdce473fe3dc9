#pragma once

#include <optional>
#include <string>

#include "core/base/units.h"

namespace core::report {

/// How many digits a number deserves: the standard uncertainty is given with two significant
/// digits and the value to the same decimal place (JCGM 100:2008, 7.2.6). Never an exponent, no
/// grouping. What people read has the decimal sign of their language (core/base/words.h); files
/// have the point in every language: roundTrip().

/// Decimals for values whose standard uncertainty is sigma: 0 for 12 or 120, 1 for 3.4, 2 for 0.56.
/// Absent when sigma is zero or not finite. A leading 9.95 that rounds to 10 counts as 10.
[[nodiscard]] std::optional<int> decimalsFor(double sigma);

/// value with a fixed number of decimals; "-0.0" becomes "0.0"; a non-finite value is "–".
[[nodiscard]] std::string fixed(double value, int decimals);

/// "1441" with its uncertainty "83": value to the place that sigma sets; with sigma 0, one decimal.
[[nodiscard]] std::string withDigitsOf(double value, double sigma);

/// "1441 ± 83" (standard uncertainty after the sign is named by the caller's header).
[[nodiscard]] std::string plusMinus(double value, double sigma);

/// "1302 to 1588", both ends to the place that sigma sets, in the words of the language.
[[nodiscard]] std::string intervalText(double low, double high, double sigma);

/// A number that somebody entered, as short as it can be: "150", "0.5". Not finite: "–".
[[nodiscard]] std::string shortest(double value);

/// Shortest text that reads back to the same double, with a point: for data files and for fields
/// in which a number is changed. Not finite: empty.
[[nodiscard]] std::string roundTrip(double value);

}  // namespace core::report
