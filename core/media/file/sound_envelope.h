#pragma once

#include <filesystem>
#include <optional>
#include <stop_token>
#include <vector>

#include "core/base/result.h"
#include "core/base/units.h"

namespace core::media {

/// Level of the first sound track in steps of one millisecond of the file's own time. Value k is
/// the root mean square over [start + k ms, start + (k + 1) ms), full scale 1, the squares averaged
/// over the channels. Steps without samples (a gap, damaged sound) are 0.
struct SoundEnvelope {
    Seconds start;  ///< container time of the first step, same zero as the video stamps' time base
    std::vector<float> level;
    /// The same of the change from each sample to the next, which rises with the pitch: a blow is
    /// sharp at its beginning, a slammed door and a voice are not. As long as level, or empty.
    std::vector<float> sharpness{};
};

/// Decodes sound only. Absent when the file has no sound track.
/// Errors: as readClipIndex; Cancelled.
Result<std::optional<SoundEnvelope>> readSoundEnvelope(const std::filesystem::path& file,
                                                       std::stop_token stop = {});

}  // namespace core::media
