#pragma once

#include <array>
#include <cstddef>
#include <vector>

#include "core/image/moving_blobs.h"

namespace core::image {

/// Blobs that move together like a ball in flight.
struct LinkedFlight {
    struct Member {
        std::size_t ordinal{};  ///< of the frame in MovingPictures
        PointPx centre;
    };
    std::vector<Member> members;  ///< in time order, not in every frame
    Seconds referenceTime;
    std::array<double, 3> x{};  ///< picture position: polynomial of seconds after referenceTime
    std::array<double, 3> y{};
    double radiusPx{};
    double score{};      ///< about the number of frames that fit well
    double discShare{};  ///< of the blobs that have the shape of a swept disc

    [[nodiscard]] PointPx centreAt(Seconds time) const;
    [[nodiscard]] PointPx velocityAt(Seconds time) const;
};

/// The flights, best first; no blob belongs to two. Every pair of similar blobs a few frames apart
/// is grown both ways under constant acceleration; what stays long, straight and of one size wins.
/// At least 4 frames and three radii of way.
std::vector<LinkedFlight> linkFlights(const MovingPictures& moving);

/// The flight through the given points (at least two, in time order), grown over the blobs;
/// radiusPx serves until three blobs tell it.
LinkedFlight growFlight(const MovingPictures& moving, std::vector<LinkedFlight::Member> seed,
                        double radiusPx);

}  // namespace core::image
