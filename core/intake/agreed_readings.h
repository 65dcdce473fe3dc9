#pragma once

#include <span>
#include <string>
#include <vector>

#include "core/project/store.h"

/// Many shots kept at once, as far as two methods say the same of each.
namespace core::intake {

/// Two standard uncertainties of the difference: u² = u1² + u2² (JCGM 100:2008, 5.1.2), both made
/// independently; twice is its expanded uncertainty with coverage factor 2 (6.3.3).
[[nodiscard]] bool doAgree(const Measured<Rpm>& one, const Measured<Rpm>& other);

struct AgreedReadings {
    /// Of the marks, one for each open shot whose marks and pictures agree; for
    /// project::Store::keepReadings().
    std::vector<project::Reading> readings;
    struct LeftOut {
        project::ShotId shot;
        std::string why;  ///< "its pictures were not read"
    };
    std::vector<LeftOut> leftOut;  ///< the others, in the order asked for
};

/// Cost: a few milliseconds a shot. Errors: those of project::Store::clipFrames().
Result<AgreedReadings> agreedReadings(const project::Store& store,
                                      std::span<const project::ShotId> shots);

}  // namespace core::intake
