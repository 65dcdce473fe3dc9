#pragma once

#include <memory>
#include <stop_token>
#include <vector>

#include "core/image/flight_linking.h"
#include "core/image/frame_source.h"
#include "core/timebase/clip_clock.h"

namespace core::shots {

/// A stretch in which something flies like a ball. Internal to core/shots.
struct SeenFlight {
    image::FrameRange range;  ///< first to last frame in which it was seen
    image::LinkedFlight path;
    /// It goes on from a shot after a bounce or the like (image/kink.h).
    bool isAfterKink{};
    /// The window in which its beginning was seen.
    std::shared_ptr<const image::MovingPictures> window;
    [[nodiscard]] double directionX() const { return path.x[1]; }
};

/// Searches the ranges in overlapping windows; a flight cut by a window's edge is put together from
/// both. Flights that go on in each other are told apart by the rule of
/// image/kink.h: what comes before a strike (a pitch) is left out, the first one after it is the
/// shot, however short, and what goes on from that is said to be after a kink.
/// Errors: those of the source; Cancelled.
Result<std::vector<SeenFlight>> searchFlights(image::FrameSource& source,
                                              const timebase::ClipClock& clock,
                                              const std::vector<image::FrameRange>& ranges,
                                              const std::stop_token& stop);

}  // namespace core::shots
