#pragma once

#include <Eigen/Core>
#include <vector>

#include "core/image/flight_linking.h"

namespace core::image {

/// Blobs of one thing that moves, at most one a frame, in time order.
struct BlobChain {
    std::vector<std::size_t> ordinals;  ///< of the frames in MovingPictures
    std::vector<PointPx> points;
    std::vector<const Blob*> blobs;  ///< null for a point that was given
    double areaPx2{};                ///< the middle one of those that no border cuts
};

/// In a flight that another one goes on from.
inline constexpr std::size_t kFewestBlobs = 3;

[[nodiscard]] double equivalentRadius(const Blob& blob);

/// Without the blobs before begin and from end on.
[[nodiscard]] BlobChain partOf(const BlobChain& chain, std::size_t begin, std::size_t end);

/// Finds the blobs that go on from a few under constant acceleration.
class ChainGrower {
public:
    /// moving outlives it.
    explicit ChainGrower(const MovingPictures& moving);

    /// By frame the blobs that could be a ball, the largest first.
    [[nodiscard]] const std::vector<std::vector<const Blob*>>& usable() const { return m_usable; }

    void grow(BlobChain& chain) const;
    /// The path through the chain, with a score; radiusPx is taken where the blobs tell none.
    [[nodiscard]] LinkedFlight finish(const BlobChain& chain, double radiusPx) const;
    /// The chain cut at its kinks.
    [[nodiscard]] std::vector<BlobChain> partsOf(const BlobChain& chain) const;
    /// Whether the few blobs of a short chain look like a ball in flight.
    [[nodiscard]] bool isShortFlight(const BlobChain& chain) const;

private:
    struct Quadratic {
        double t0{};
        Eigen::Vector3d x;
        Eigen::Vector3d y;
        [[nodiscard]] PointPx at(double t) const;
    };

    [[nodiscard]] double time(std::size_t ordinal) const { return m_moving.times[ordinal].seconds; }
    /// Through members [from, to) of the chain, acceleration held small by a prior.
    [[nodiscard]] Quadratic fit(const BlobChain& chain, std::size_t from, std::size_t to) const;
    [[nodiscard]] const Blob* nearest(std::size_t ordinal, PointPx expected, double gate,
                                      double areaPx2) const;
    void growOneWay(BlobChain& chain, bool forward) const;

    const MovingPictures& m_moving;
    std::vector<std::vector<const Blob*>> m_usable;
};

}  // namespace core::image
