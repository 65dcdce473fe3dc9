#pragma once

#include <optional>
#include <stop_token>
#include <vector>

#include "core/base/result.h"
#include "core/image/frame_source.h"
#include "core/media/sound_envelope.h"
#include "core/pictures/read_shot.h"
#include "core/shots/find_shots.h"
#include "core/timebase/clip_clock.h"

namespace core::pictures {

/// A shot of a clip: where it is, and what the pictures say or why they say nothing.
struct ShotInClip {
    shots::FoundShot found;
    Result<PictureReading> reading;
};

/// Reads every shot of a clip. The field of view, where it is not known, is estimated from all
/// shots together, since they share the camera.
///
/// stamps: as for shots::findShots. A shot whose ball cannot be tracked or fitted keeps its place
/// in the list with the reason. Errors: those of shots::findShots; Cancelled.
Result<std::vector<ShotInClip>> readClip(image::FrameSource& source,
                                         const timebase::ClipClock& clock,
                                         const timebase::FrameStamps& stamps,
                                         const std::optional<media::SoundEnvelope>& sound,
                                         const FilmingFacts& facts, std::stop_token stop = {});

}  // namespace core::pictures
