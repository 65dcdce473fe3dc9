#pragma once

#include <compare>
#include <cstdint>
#include <vector>

#include "core/timebase/rational.h"

namespace core::timebase {

/// Position of a frame in presentation order within its clip, from 0.
struct FrameIndex {
    std::int64_t value{};
    auto operator<=>(const FrameIndex&) const = default;
};

/// Frames per second at which the camera sampled the world.
struct CaptureRate {
    Rational fps;
    bool operator==(const CaptureRate&) const = default;
};

/// Frames per second at which the file plays.
struct PlaybackRate {
    Rational fps;
    bool operator==(const PlaybackRate&) const = default;
};

/// A capture rate from a decimal number: whole numbers and the rates n/1.001 of television practice
/// are taken as exact when the number agrees to 5e-6 relative (239.76 and 239.7602 become
/// 240000/1001; SMPTE ST 12-1 family), anything else by continued fraction.
/// Errors: NotFinite; OutOfRange unless 0 < fps <= 1e6.
Result<CaptureRate> captureRateFromDecimal(double fps);

/// The presentation time stamps of a clip, one a frame, in presentation order. Immutable value.
struct FrameStamps {
    std::vector<std::int64_t> ticks;  ///< in units of timeBase
    Rational timeBase;                ///< seconds per tick
};

}  // namespace core::timebase
