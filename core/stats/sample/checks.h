#pragma once

#include <span>
#include <string_view>

#include "core/base/result.h"
#include "core/stats/model/distributions.h"

namespace core::stats {

/// Checks shared by this module's entry points. `what` names the values in the message.
/// Errors: InvalidInput when fewer than atLeast values; NotFinite, with the position.
Result<void> checkValues(std::span<const double> values, std::string_view what,
                         std::size_t atLeast);

/// Errors: OutOfRange for a level outside (0, 1).
Result<void> checkConfidence(Confidence confidence);

/// Errors: NotFinite for NaN or infinity; OutOfRange for zero or less.
Result<void> checkPositive(double value, std::string_view what);

}  // namespace core::stats
