#pragma once

#include <vector>

#include "core/base/units.h"
#include "core/timebase/frame_time.h"

namespace core::spin {

/// A spin rate that would look the same, and why.
struct LookAlike {
    enum class Kind {
        Alias,      ///< |rate ± multiple·F/m|: the same attitude in every frame
        TurnCount,  ///< the same returns with other numbers of turns
        Symmetry,   ///< the marking looks the same after 1/m of a turn: rate·m or rate/m
    };
    Kind kind{Kind::Alias};
    Rpm rate;
    int multiple{};        ///< of F/m for an alias; m for a symmetry; turns of the last return
    bool turnsOtherWay{};  ///< the mark would turn against the sense that is seen
    bool operator==(const LookAlike&) const = default;
};

/// The rate that frames at a constant capture rate show for a ball that truly turns at `rate`:
///   f - (F/m)·round(f·m/F)
/// with F the capture rate in turns per minute and m the order of symmetry of the marking (sampling
/// theorem, Shannon 1949). Negative: seems to turn the other way. Exactly half of F/m has no
/// direction; its sign is then that of `rate`. symmetryOrder >= 1.
[[nodiscard]] Rpm apparentRate(Rpm rate, timebase::CaptureRate capture, int symmetryOrder = 1);

/// True when frames alone show another rate than the true one: fewer than (or exactly) two frames
/// per turn of a marking of order m.
[[nodiscard]] bool isAliased(Rpm rate, timebase::CaptureRate capture, int symmetryOrder = 1);

/// The rates |rate ± j·F/m|, j = 1 … maxMultiple, ascending, zero left out. With a variable frame
/// rate these are approximate.
[[nodiscard]] std::vector<LookAlike> aliasCandidates(Rpm rate, timebase::CaptureRate capture,
                                                     int symmetryOrder = 1, int maxMultiple = 1);

/// rate/m and rate·m for a marking that looks the same after 1/m of a turn; empty for m = 1.
[[nodiscard]] std::vector<LookAlike> symmetryAlternatives(Rpm rate, int symmetryOrder);

}  // namespace core::spin
