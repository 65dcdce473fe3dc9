#include "core/stats/sample/checks.h"

#include <cmath>
#include <string>

#include "core/base/words.h"

namespace core::stats {

Result<void> checkValues(std::span<const double> values, std::string_view what,
                         std::size_t atLeast) {
    if (values.size() < atLeast) {
        return fail(ErrorCode::InvalidInput,
                    said("{}: {} values given, at least {} are needed. Add more values.",
                         saidText(what), values.size(), atLeast));
    }
    for (std::size_t i = 0; i < values.size(); ++i) {
        if (!std::isfinite(values[i])) {
            return fail(ErrorCode::NotFinite,
                        said("{}: value {} is not a finite number. Leave it out or correct it.",
                             saidText(what), i + 1));
        }
    }
    return ok();
}

Result<void> checkConfidence(Confidence confidence) {
    if (confidence.level > 0.0 && confidence.level < 1.0) {
        return ok();
    }
    return fail(
        ErrorCode::OutOfRange,
        said("The level of an interval is {}. It must be between 0 and 1, for example 0.95.",
             confidence.level));
}

Result<void> checkPositive(double value, std::string_view what) {
    if (!std::isfinite(value)) {
        return fail(ErrorCode::NotFinite, said("{} is not a finite number.", saidText(what)));
    }
    if (value <= 0.0) {
        return fail(ErrorCode::OutOfRange,
                    said("{} is {}. It must be greater than zero.", saidText(what), value));
    }
    return ok();
}

}  // namespace core::stats
