#pragma once

#include <optional>

#include "core/image/ball_track.h"
#include "core/reading/filming_facts.h"

/// The readout time of a rolling shutter in a reading: its value, and its part of the uncertainty.
namespace core::reading {

/// Where a readout time comes from.
enum class ReadoutSource {
    Stated,    ///< by the tester: decisive, and taken as exact
    Outlines,  ///< of the balls of this shot
    Unknown,   ///< nothing but what a camera can have: evenly from 0 to the frame interval or 12 ms
};

/// The readout time that a reading rests on. Its uncertainty is shared by all shots of the camera
/// in this mode, as the clock's is by those of the clip: it does not average out over shots, but
/// shots that rise and shots that fall err in opposite senses.
struct ReadoutPart {
    ReadoutSource source{ReadoutSource::Unknown};
    image::ReadoutKnowledge readout;
    /// Relative change of the rate for a second more of readout:
    /// - d ln f / d T = d s / d t, the slope of the ball's row s (0 to 1) over time.
    double relativePerSecond{};

    /// The readout's part of the relative standard uncertainty of the rate, with the sign of
    /// relativePerSecond.
    [[nodiscard]] double relativeSigma() const noexcept {
        return relativePerSecond * readout.sigma.seconds;
    }
};

/// facts that state a readout come before what the outlines say.
[[nodiscard]] ReadoutPart readoutPart(const image::BallTrack& track, const FilmingFacts& facts);

/// Factor of a rate that was read with the times of the track, if the readout were another: times
/// at t + (T' - T) s(t) stretch by 1 + (T' - T) ds/dt (derived here).
[[nodiscard]] double rateFactor(const image::BallTrack& track, const ReadoutPart& part,
                                Seconds readout) noexcept;

}  // namespace core::reading
