#pragma once

#include <vector>

#include "core/image/flight_linking.h"

namespace core::image {

/// How a flight goes on in a later one.
enum class Continuation {
    None,    ///< they have nothing to do with each other
    Bounce,  ///< the later one begins at a kink that ends the earlier one
    Strike,  ///< the same, and the ball was struck there (isStruck() in kink.h)
};

/// Whether two flights meet, of balls of about one size, within the frames between them.
[[nodiscard]] Continuation continuation(const LinkedFlight& earlier, const LinkedFlight& later);

/// Says of flights that go on in others up to which frames they reach.
void limitAtMeetings(std::vector<LinkedFlight>& flights, const MovingPictures& moving);

}  // namespace core::image
