#pragma once

#include "core/timebase/clip_clock.h"

namespace tests {

/// A clip of 2000 equally spaced frames.
inline core::timebase::ClipClock constantClock(const core::timebase::Rational& fps,
                                               double relativeSigma = 0.0) {
    constexpr std::int64_t kFrames = 2000;
    return core::timebase::ClipClock::counted(kFrames, {fps}, relativeSigma).value();
}

/// 120 frames a second.
inline const core::timebase::ClipClock kClock120 = constantClock(core::timebase::Rational{120});

}  // namespace tests
