#pragma once

#include <vector>

#include "core/base/units.h"
#include "core/media/sound_envelope.h"

namespace core::shots {

/// A sudden sound: a strike, a clap, something dropped. Speech and wind rise too slowly.
struct SoundOnset {
    Seconds time;         ///< container time at which the level begins to rise
    double prominence{};  ///< peak level over the level before, > 1
};

/// Sudden rises of the level within 3 ms to several times what it was in the 30 ms before, loudest
/// within 60 ms; in time order. A sound alone does not make a shot: see findShots().
std::vector<SoundOnset> findOnsets(const media::SoundEnvelope& sound);

}  // namespace core::shots
