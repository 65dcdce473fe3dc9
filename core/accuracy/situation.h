#pragma once

#include <array>
#include <string>

#include "core/synthesis/random_shot.h"

namespace core::accuracy {

/// What is rendered beside the usual shots, each with ranges and seeds of its own.
enum class Situation {
    Usual,           ///< what the targets are for; the readout is told
    ReadoutNotTold,  ///< a rolling shutter of 3 to 10 ms, at most a frame; falling, level, rising
    GlobalNotTold,   ///< a global shutter, and nobody says so
    Bounce,          ///< 0.05 to 0.12 s after the ball comes into view; the truth is before it
    Gloss,           ///< a varnished ball outdoors
    Smear,           ///< the ball moves by 0.7 to 1.2 of its width while the shutter is open
    LowLight,        ///< 1/300 to 1/240 s, a ball of 26 to 32 px, much noise
    FedBall,         ///< a ball crosses the picture before it is struck
};

inline constexpr std::array<Situation, 7> kFurtherSituations{
    Situation::ReadoutNotTold, Situation::GlobalNotTold, Situation::Bounce, Situation::Gloss,
    Situation::Smear,          Situation::LowLight,      Situation::FedBall};

/// One word for lists and options, for example "low-light".
[[nodiscard]] std::string situationName(Situation situation);

/// A line of the table.
[[nodiscard]] std::string situationTitle(Situation situation);

/// Whether the reader is told the readout of the shutter.
[[nodiscard]] bool isReadoutTold(Situation situation) noexcept;

/// What is drawn.
[[nodiscard]] synthesis::ShotRanges rangesOf(Situation situation);

/// Distance of the seeds of its shots from those of the usual ones, so that no other row depends on
/// how many of them there are.
[[nodiscard]] std::uint64_t seedOffset(Situation situation) noexcept;

}  // namespace core::accuracy
