#pragma once

#include <vector>

#include "core/base/units.h"
#include "core/media/file/sound_envelope.h"

namespace core::shots {

/// A sudden sound: a strike, a clap, something dropped. Speech and wind rise too slowly.
struct SoundOnset {
    Seconds time;         ///< container time at which the level begins to rise
    double prominence{};  ///< peak level over the level before, > 1
};

/// Sudden rises of the level within 3 ms to several times what it was in the 30 ms before, loudest
/// within 60 ms; in time order. A sound alone does not make a shot: see findShots().
std::vector<SoundOnset> findOnsets(const media::SoundEnvelope& sound);

/// A sound that begins while another may still ring.
struct SoundRise {
    Seconds time;       ///< container time at which it begins
    double strength{};  ///< how much louder the sharp part of the sound becomes, over the usual
};

/// Every sudden rise within 3 ms over the loudest of the 8 ms before, so over the decaying tail of
/// an earlier sound, in time order: the strike and what shortly led to it, not its echo, which is
/// weaker. By the sharpness of the sound where it is known, else by its level. More of them than
/// sounds that matter: for telling when a strike was that is known to be.
std::vector<SoundRise> findRises(const media::SoundEnvelope& sound);

}  // namespace core::shots
