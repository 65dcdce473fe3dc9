#pragma once

#include <optional>
#include <vector>

#include "core/base/units.h"
#include "core/timebase/frame_time.h"

namespace core::spin {

using timebase::FrameIndex;

/// The frame whose orientation is the reference of a shot.
///
/// Without a spread the frame itself defines the reference, so its instant is exact. With a spread
/// the reference is something outside the frame ("mark level"), and the true instant lies within
/// that many frame intervals on either side: 0.5 says that this was the nearest frame.
struct StartMark {
    FrameIndex frame;
    std::optional<double> spreadIntervals;
    bool operator==(const StartMark&) const = default;
};

/// Where between two frames an instant lies: 0 at the first, 1 at the second; rectangular.
struct BracketFraction {
    double value{0.5};
    double halfWidth{0.5};
    bool operator==(const BracketFraction&) const = default;
};

/// The mark is back in the reference orientation after a whole number of turns.
struct ReturnMark {
    enum class Kind {
        Nearest,  ///< `frame` is the nearest frame to the instant
        Bracket,  ///< the instant lies between `frame` and `frameAfter`
    };
    Kind kind{Kind::Nearest};
    FrameIndex frame;
    FrameIndex frameAfter;                    ///< Bracket only; equal to frame for Nearest
    std::optional<BracketFraction> fraction;  ///< Bracket only
    std::optional<int> turns;                 ///< whole turns since the start; absent: inferred

    static ReturnMark nearest(FrameIndex frame, std::optional<int> turns = {}) {
        return {Kind::Nearest, frame, frame, {}, turns};
    }
    static ReturnMark between(FrameIndex before, FrameIndex after, std::optional<int> turns = {},
                              std::optional<BracketFraction> fraction = {}) {
        return {Kind::Bracket, before, after, fraction, turns};
    }
    bool operator==(const ReturnMark&) const = default;
};

/// The attitude of the mark in a frame, read with a dial on the picture, counter-clockwise
/// positive.
struct AngleMark {
    enum class Spread {
        Normal,       ///< `spread` is a standard uncertainty
        Rectangular,  ///< `spread` is a half-width
    };
    FrameIndex frame;
    Radians angle;
    Radians spread{fromDegrees(5.0)};
    Spread spreadKind{Spread::Rectangular};
    /// Whole turns to add to the angle; absent: found by unwrapping.
    std::optional<int> turns;
    bool operator==(const AngleMark&) const = default;
};

/// Everything a reader marked on one shot. Order does not matter.
struct MarkSet {
    std::optional<StartMark> start;
    std::vector<ReturnMark> returns;
    std::vector<AngleMark> angles;
    bool operator==(const MarkSet&) const = default;
};

}  // namespace core::spin
