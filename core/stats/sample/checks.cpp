#include "core/stats/sample/checks.h"

#include <cmath>
#include <string>

namespace core::stats {

Result<void> checkValues(std::span<const double> values, std::string_view what,
                         std::size_t atLeast) {
    if (values.size() < atLeast) {
        return fail(ErrorCode::InvalidInput,
                    std::string{what} + ": " + std::to_string(values.size()) +
                        " values given, at least " + std::to_string(atLeast) +
                        " are needed. Add more values.");
    }
    for (std::size_t i = 0; i < values.size(); ++i) {
        if (!std::isfinite(values[i])) {
            return fail(ErrorCode::NotFinite,
                        std::string{what} + ": value " + std::to_string(i + 1) +
                            " is not a finite number. Leave it out or correct it.");
        }
    }
    return ok();
}

Result<void> checkConfidence(Confidence confidence) {
    if (confidence.level > 0.0 && confidence.level < 1.0) {
        return ok();
    }
    return fail(ErrorCode::OutOfRange, "The level of an interval is " +
                                           std::to_string(confidence.level) +
                                           ". It must lie between 0 and 1, for example 0.95.");
}

Result<void> checkPositive(double value, std::string_view what) {
    if (!std::isfinite(value)) {
        return fail(ErrorCode::NotFinite, std::string{what} + " is not a finite number.");
    }
    if (value <= 0.0) {
        return fail(ErrorCode::OutOfRange, std::string{what} + " is " + std::to_string(value) +
                                               ". It must be greater than zero.");
    }
    return ok();
}

}  // namespace core::stats
