#pragma once

#include <vector>

#include "core/synthesis/scene.h"

namespace core::synthesis {

/// A sound as it is heard on the film.
struct HeardSound {
    SoundKind kind{SoundKind::Strike};
    Seconds fileTime;  ///< when it begins, in the time of the file (stretch times capture time)
};

/// The strikes of all flights that are no decoys and the decoy sounds, in order of time. A strike
/// is heard distance / 343 m/s later. Empty without a sound track.
[[nodiscard]] std::vector<HeardSound> heardSoundsOf(const Scene& scene);

/// Samples of the whole sound track in [-1, 1]: short bursts over noise. A strike is a burst of a
/// few milliseconds from 1 to 4 kHz; decoys are duller and longer.
[[nodiscard]] std::vector<float> soundOf(const Scene& scene, Seconds fileDuration);

}  // namespace core::synthesis
