#include "core/image/flight_linking.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <set>

#include "core/base/expects.h"
#include "core/image/blob_chain.h"
#include "core/image/flight_continuation.h"

namespace core::image {

namespace {

constexpr std::size_t kSeedGap = 3;     // frames between the two blobs of a seed
constexpr double kMinSeedWay = 0.4;     // radii between them
constexpr double kMaxStepRadii = 12.0;  // the same a frame
constexpr std::size_t kMostShared = 2;  // blobs at an end that belong to another flight

using BlobPair = std::pair<const Blob*, const Blob*>;

struct FoundFlight {
    LinkedFlight flight;
    BlobChain chain;
};

bool canBeSeed(const Blob& a, const Blob& b, std::size_t frames) {
    const double ratio = a.areaPx2 / b.areaPx2;
    const double way = std::hypot(a.centre.x - b.centre.x, a.centre.y - b.centre.y);
    const double radius = equivalentRadius(b);
    return ratio > 0.5 && ratio < 2.0 && way > kMinSeedWay * radius &&
           way < kMaxStepRadii * radius * static_cast<double>(frames);
}

void noteLinks(const BlobChain& chain, std::set<BlobPair>& linked) {
    for (std::size_t k = 0; k < chain.blobs.size(); ++k) {
        for (std::size_t l = k + 1; l < std::min(chain.blobs.size(), k + 1 + kSeedGap); ++l) {
            linked.emplace(chain.blobs[k], chain.blobs[l]);
        }
    }
}

using Taken = std::set<const Blob*>;

/// Without the blobs of others at its ends; nothing when it shares more than these.
std::optional<BlobChain> ownPart(const BlobChain& chain, const Taken& taken) {
    std::size_t begin = 0;
    std::size_t end = chain.blobs.size();
    while (begin < end && taken.contains(chain.blobs[begin])) {
        ++begin;
    }
    while (end > begin && taken.contains(chain.blobs[end - 1])) {
        --end;
    }
    const std::size_t shared = begin + chain.blobs.size() - end;
    for (std::size_t k = begin; k < end; ++k) {
        if (taken.contains(chain.blobs[k])) {
            return std::nullopt;
        }
    }
    return shared > kMostShared || end - begin < kFewestBlobs
               ? std::nullopt
               : std::optional{partOf(chain, begin, end)};
}

/// Flights of the best chains, none of which shares a blob, cut at their kinks.
std::vector<LinkedFlight> chosenFlights(const ChainGrower& grower, std::vector<FoundFlight> found,
                                        const MovingPictures& moving) {
    std::sort(found.begin(), found.end(), [](const FoundFlight& a, const FoundFlight& b) {
        return a.flight.score > b.flight.score;
    });
    std::vector<LinkedFlight> flights;
    std::vector<BlobChain> brief;
    Taken taken;
    for (const FoundFlight& one : found) {
        const auto own = ownPart(one.chain, taken);
        if (!own) {
            continue;
        }
        for (const BlobChain& part : grower.partsOf(*own)) {
            LinkedFlight flight = grower.finish(part, 0.0);
            if (flight.score > 0.0) {
                taken.insert(part.blobs.begin(), part.blobs.end());
                flights.push_back(std::move(flight));
            } else if (grower.isShortFlight(part)) {
                brief.push_back(part);
            }
        }
    }
    const std::size_t count = flights.size();
    for (const BlobChain& chain : brief) {
        const auto own = ownPart(chain, taken);
        if (!own || !grower.isShortFlight(*own)) {
            continue;
        }
        LinkedFlight flight = grower.finish(*own, 0.0);
        const bool goesOn = std::any_of(
            flights.begin(), flights.begin() + static_cast<std::ptrdiff_t>(count),
            [&](const auto& f) { return continuation(flight, f) == Continuation::Bounce; });
        if (goesOn) {
            taken.insert(own->blobs.begin(), own->blobs.end());
            flights.push_back(std::move(flight));
        }
    }
    std::stable_sort(flights.begin(), flights.end(),
                     [](const auto& a, const auto& b) { return a.score > b.score; });
    limitAtMeetings(flights, moving);
    return flights;
}

BlobChain chainOf(const std::vector<LinkedFlight::Member>& members, double radiusPx) {
    CORE_EXPECTS(members.size() >= 2);
    BlobChain chain;
    for (const auto& member : members) {
        chain.ordinals.push_back(member.ordinal);
        chain.points.push_back(member.centre);
        chain.blobs.push_back(nullptr);
    }
    chain.areaPx2 = kPi * radiusPx * radiusPx;
    return chain;
}

}  // namespace

PointPx LinkedFlight::centreAt(Seconds time) const {
    const double t = time.seconds - referenceTime.seconds;
    return {x[0] + t * (x[1] + t * x[2]), y[0] + t * (y[1] + t * y[2])};
}

PointPx LinkedFlight::velocityAt(Seconds time) const {
    const double t = time.seconds - referenceTime.seconds;
    return {x[1] + 2.0 * t * x[2], y[1] + 2.0 * t * y[2]};
}

std::vector<LinkedFlight> linkFlights(const MovingPictures& moving) {
    const ChainGrower grower(moving);
    std::vector<FoundFlight> found;
    std::set<BlobPair> linked;  // pairs that a chain contains already
    const auto& usable = grower.usable();
    for (std::size_t i = 0; i < usable.size(); ++i) {
        for (std::size_t j = i + 1; j < std::min(usable.size(), i + 1 + kSeedGap); ++j) {
            for (const Blob* a : usable[i]) {
                for (const Blob* b : usable[j]) {
                    if (canBeSeed(*a, *b, j - i) && !linked.contains({a, b})) {
                        BlobChain chain{{i, j},
                                        {a->centre, b->centre},
                                        {a, b},
                                        0.5 * (a->areaPx2 + b->areaPx2)};
                        grower.grow(chain);
                        noteLinks(chain, linked);
                        found.push_back({grower.finish(chain, 0.0), std::move(chain)});
                    }
                }
            }
        }
    }
    return chosenFlights(grower, std::move(found), moving);
}

LinkedFlight flightThrough(const MovingPictures& moving,
                           const std::vector<LinkedFlight::Member>& members, double radiusPx) {
    return ChainGrower(moving).finish(chainOf(members, radiusPx), radiusPx);
}

LinkedFlight growFlight(const MovingPictures& moving, const std::vector<LinkedFlight::Member>& seed,
                        double radiusPx) {
    const ChainGrower grower(moving);
    BlobChain chain = chainOf(seed, radiusPx);
    grower.grow(chain);
    return grower.finish(chain, radiusPx);
}

}  // namespace core::image
