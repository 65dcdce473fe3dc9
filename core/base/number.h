#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "core/base/result.h"

/// Numbers as people write them, in a field, a spreadsheet or on the command line.
namespace core {

/// What a comma alone before exactly three digits means ("1,000", "23,976").
enum class CommaMeaning {
    Ask,        ///< nobody said
    Decimal,    ///< "1,000" is 1
    Thousands,  ///< "1,000" is 1000
};

/// Reads a number with a decimal point or a decimal comma, an exponent where wanted, and thousands
/// grouped in threes by blanks or apostrophes, or by the sign that is not the decimal one:
/// 119.88, 119,88, 1000, 1 000, 1,000.5, 1.000,5, 1,000,000, 2.5e-3.
///
/// A point alone is the decimal point, as everywhere in this program: 23.976. A comma alone before
/// exactly three digits ("1,000", "23,976") would be 1000 to one person and 1 to another: it is
/// never guessed, but somebody may say it. Outer white space is passed over.
/// Errors: Contradiction when there are two readings, with both; InvalidInput when there is none.
Result<double> numberFrom(std::string_view text, CommaMeaning comma = CommaMeaning::Ask);

/// The same for a field that may be left empty, which says that nothing is known. most: the largest
/// number that is believed. Errors: those of numberFrom(); OutOfRange for zero, a negative or a
/// larger number.
Result<std::optional<double>> positiveNumberFrom(std::string_view text, double most);

}  // namespace core
