#pragma once

#include <cmath>
#include <concepts>
#include <cstdint>
#include <stdexcept>
#include <utility>

#include "core/base/words.h"

namespace core {

/// A whole number out of JSON (RFC 8259) or CBOR; Json is a type of nlohmann-json. A number with a
/// point or an exponent is one when it is whole and at most 2^53, up to which every whole number
/// has a binary64 of its own (RFC 8259, section 6).
///
/// Throws std::out_of_range for a number that T cannot hold, of which the library would make any
/// other, and for one that is not whole; what Json throws for what is no number.
template <std::integral T, class Json>
T wholeFrom(const Json& json) {
    constexpr double kLargestExact = 9007199254740992.0;
    if (json.is_number_unsigned()) {
        if (const auto value = json.template get<std::uint64_t>(); std::in_range<T>(value)) {
            return static_cast<T>(value);
        }
    } else if (json.is_number_integer() || !json.is_number()) {
        if (const auto value = json.template get<std::int64_t>(); std::in_range<T>(value)) {
            return static_cast<T>(value);
        }
    } else if (const auto value = json.template get<double>();
               std::abs(value) <= kLargestExact && value == std::trunc(value) &&
               std::in_range<T>(static_cast<std::int64_t>(value))) {
        return static_cast<T>(value);
    }
    throw std::out_of_range(said("the number {} cannot be used here", json.dump()));
}

}  // namespace core
