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

/// The rates |rate ± j·F/m|, j = 1 … maxMultiple, ascending, zero left out. With a variable frame
/// rate these are approximate.
[[nodiscard]] std::vector<LookAlike> aliasCandidates(Rpm rate, timebase::CaptureRate capture,
                                                     int symmetryOrder = 1, int maxMultiple = 1);

/// rate/m and rate·m for a marking that looks the same after 1/m of a turn; empty for m = 1.
[[nodiscard]] std::vector<LookAlike> symmetryAlternatives(Rpm rate, int symmetryOrder);

}  // namespace core::spin
