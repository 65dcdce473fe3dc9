#pragma once

#include <array>
#include <cstddef>
#include <limits>
#include <vector>

#include "core/image/moving_blobs.h"

namespace core::image {

/// Blobs that move together like a ball in flight.
struct LinkedFlight {
    struct Member {
        std::size_t ordinal{};  ///< of the frame in MovingPictures
        PointPx centre;
        Seconds time;
    };
    std::vector<Member> members;  ///< in time order, not in every frame
    /// Frames beyond which the ball flies otherwise, because its path has a kink (kink.h).
    std::size_t firstUsable{0};
    std::size_t lastUsable{std::numeric_limits<std::size_t>::max()};
    Seconds referenceTime;
    std::array<double, 3> x{};  ///< picture position: polynomial of seconds after referenceTime
    std::array<double, 3> y{};
    double radiusPx{};
    double score{};      ///< about the number of frames that fit well
    double discShare{};  ///< of the blobs that have the shape of a swept disc

    [[nodiscard]] PointPx centreAt(Seconds time) const;
    [[nodiscard]] PointPx velocityAt(Seconds time) const;
};

/// The flights, best first; no blob belongs to two, and none spans a kink that blobs can tell.
/// Every pair of similar blobs a few frames apart is grown both ways under constant acceleration;
/// what stays long, straight and of one size wins. At least 4 frames and three radii of way, or 3
/// frames of a ball that another flight goes on from.
std::vector<LinkedFlight> linkFlights(const MovingPictures& moving);

/// The flight through these members and no other; at least two.
[[nodiscard]] LinkedFlight flightThrough(const MovingPictures& moving,
                                         const std::vector<LinkedFlight::Member>& members,
                                         double radiusPx);

/// The flight through the given points (at least two, in time order), grown over the blobs;
/// radiusPx serves until three blobs tell it.
LinkedFlight growFlight(const MovingPictures& moving, const std::vector<LinkedFlight::Member>& seed,
                        double radiusPx);

}  // namespace core::image
