#pragma once

#include "core/base/result.h"
#include "core/project/model.h"

namespace core::project {

/// The clock of a clip as settled. Errors: InvalidInput when time stamps do not increase although
/// the clock trusts them, or a counted clock has no rate; OutOfRange.
Result<timebase::ClipClock> clipClock(const ClockSetting& setting, const ClipFrames& frames);

}  // namespace core::project
