#pragma once

#include <algorithm>

#include "core/spin/reading_by_marks.h"

namespace tests {

/// Whether a reading carries a warning of this kind.
inline bool warns(const core::spin::MarksReading& reading, core::spin::MarksWarning::Kind kind) {
    return std::any_of(reading.warnings.begin(), reading.warnings.end(),
                       [&](const auto& warning) { return warning.kind == kind; });
}

}  // namespace tests
