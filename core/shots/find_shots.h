#pragma once

#include <optional>
#include <stop_token>
#include <vector>

#include "core/base/result.h"
#include "core/image/frame_source.h"
#include "core/media/file/sound_envelope.h"
#include "core/timebase/clip_clock.h"

namespace core::shots {

/// A shot found in a clip.
struct FoundShot {
    /// First frame after contact: by the sound less 5 ms for its way, else the first frame that
    /// shows the ball on its path, which may be late while the hitter hides it. Of several sounds
    /// the one that begins most strongly and at which the ball was where the others are struck.
    timebase::FrameIndex strike;
    image::FrameRange flight;  ///< first and last frame in which the flying ball was seen
    /// Where to follow the ball: the flight with frames before and after it for the background.
    image::FrameRange searchRange;
    bool isHeard{};  ///< a sudden sound belongs to it
    /// It goes on from the shot before it after a bounce, a net or the like, with another spin: no
    /// shot of the implement. Its strike is its first frame.
    bool isAfterKink{};
    /// In [0, 1): from how long and how well a ball-like object was seen to fly, raised by a sound
    /// at the right time, lowered when the clip has sound and this strike none, or when it flies
    /// against the direction of the others.
    double confidence{};
};

/// Finds the shots of a clip: a ball-like object that leaves fast, in time order.
///
/// A shot is the flight that begins at the strike and ends at the first kink of its path
/// (image/kink.h). The flight that goes on after the kink is given too, and marked; a pitch, which
/// ends in the strike, is not.
/// When the clip has sudden sounds only their neighbourhoods are looked at; a sound without a
/// flight (a clap, a dropped thing) is no shot. Without such sounds, or when none of them leads to
/// a flight, the whole clip is searched. A walking figure is too slow, an implement not round.
/// stamps: the clip's own time stamps, which sound times refer to; one a frame of the clock.
/// Errors: InvalidInput when stamps and clock count different frames; those of the source;
/// Cancelled.
Result<std::vector<FoundShot>> findShots(image::FrameSource& source,
                                         const timebase::ClipClock& clock,
                                         const timebase::FrameStamps& stamps,
                                         const std::optional<media::SoundEnvelope>& sound,
                                         std::stop_token stop = {});

}  // namespace core::shots
