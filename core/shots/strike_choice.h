#pragma once

#include <optional>
#include <vector>

#include "core/shots/container_time.h"
#include "core/shots/flight_search.h"
#include "core/shots/sound_onsets.h"

namespace core::shots {

/// The sound of a strike comes at most so much after the ball is seen: 8 m of air.
inline constexpr double kSoundLateSeconds = 0.025;
/// Most time for which the ball stays behind the hitter or outside the picture after the strike.
inline constexpr double kUnseenSeconds = 0.1;

/// When a strike was heard.
struct StrikeSound {
    Seconds time;
    bool leadsToHitter{};  ///< the ball was at the hitter's place then, which others tell
};

/// When each flight's strike was heard, of all sounds that begin about its first sight. Internal to
/// core/shots.
///
/// The strike is the sound that begins most strongly, unless the clip tells better: every ball is
/// struck at about one place, also outside the picture. Each path, run back from its first sight to
/// each of the sounds, gives a place; the place on which most flights of the usual direction agree
/// (at least three, and six in ten) is the hitter's, and a sound that leads elsewhere counts little
/// against one that leads there. Absent where no sound begins.
std::vector<std::optional<StrikeSound>> chooseStrikeSounds(const ContainerTime& time,
                                                           const timebase::ClipClock& clock,
                                                           const std::vector<SeenFlight>& flights,
                                                           const std::vector<SoundRise>& rises,
                                                           double usualDirection);

}  // namespace core::shots
