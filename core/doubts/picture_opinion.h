#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/reading/read_shot.h"

namespace core::doubts {

/// What the pictures of a shot say, as far as doubts rest on it.
struct PictureOpinion {
    /// Without the clock's share, so that it can be held against marks on the same clock; absent
    /// for no reading.
    std::optional<Measured<Rpm>> rate;
    std::optional<Interval<Rpm>> interval95;  ///< with the clock's share
    std::string reason;                       ///< why there is no reading
    std::string clockRefuted;  ///< what the flight says against the clock; else empty
    std::optional<double> uniqueness;  ///< see spin::fit::FitOutcome
    std::optional<Rpm> nextRate;       ///< the rate that comes next
    std::optional<double> speedMetresPerSecond;
};

[[nodiscard]] PictureOpinion opinionOf(const reading::PictureReading& reading);

}  // namespace core::doubts
