#include "core/shots/flight_search.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <iterator>
#include <memory>

#include "core/image/flight_continuation.h"
#include "core/jobs/aside.h"

namespace core::shots {

namespace {

constexpr std::int64_t kWindow = 80;  // frames looked at together; a flight lasts 10 to 40
constexpr std::int64_t kOverlap = 40;
constexpr std::size_t kMinMembers = 5;
constexpr double kMinScore = 3.0;
constexpr double kMinDiscShare = 0.4;
constexpr double kUndoubtedScore = 6.0;  // a long steady flight counts whatever its blobs' shape
constexpr double kUndoubtedRadii = 20.0;
constexpr double kMinRadii = 8.0;          // of way: gaps between moving limbs stay where they are
constexpr double kMinRadiiPerFrame = 0.3;  // a struck ball; limbs of a walking figure are slower
constexpr double kMinRadiiPerSecond = 25.0;  // the same when the capture rate is right or too low

bool fliesLikeStruckBall(const image::MovingPictures& moving, const image::LinkedFlight& flight) {
    const auto& first = flight.members.front();
    const auto& last = flight.members.back();
    const double way = std::hypot(last.centre.x - first.centre.x, last.centre.y - first.centre.y) /
                       flight.radiusPx;
    const double frames = static_cast<double>(last.ordinal - first.ordinal);
    const double seconds = moving.times[last.ordinal].seconds - moving.times[first.ordinal].seconds;
    const bool looksLikeBall = flight.discShare >= kMinDiscShare ||
                               (flight.score >= kUndoubtedScore && way >= kUndoubtedRadii);
    return flight.members.size() >= kMinMembers && flight.score >= kMinScore && looksLikeBall &&
           way >= kMinRadii && way >= kMinRadiiPerFrame * frames &&
           way >= kMinRadiiPerSecond * seconds;
}

std::vector<image::FrameRange> windowsOf(const std::vector<image::FrameRange>& ranges) {
    std::vector<image::FrameRange> windows;
    for (const image::FrameRange& range : ranges) {
        std::int64_t first = range.first.value;
        while (range.last.value - first + 1 > kWindow) {
            windows.push_back({{first}, {first + kWindow - 1}});
            first += kWindow - kOverlap;
        }
        windows.push_back({{first}, range.last});
    }
    return windows;
}

/// Adds the flights that go on in one of these, though they are short themselves.
void addEarlier(std::vector<image::LinkedFlight> others, std::vector<image::LinkedFlight>& struck) {
    for (std::size_t k = 0; k < struck.size(); ++k) {
        const auto goesOn = [&](const image::LinkedFlight& other) {
            return other.discShare >= kMinDiscShare &&
                   image::continuation(other, struck[k]) == image::Continuation::Bounce;
        };
        const auto found = std::find_if(others.begin(), others.end(), goesOn);
        if (found != others.end()) {
            struck.push_back(std::move(*found));
            others.erase(found);
        }
    }
}

/// Everything in these pictures that flies like a struck ball.
std::vector<SeenFlight> flightsIn(const std::vector<image::SmallFramePtr>& pictures,
                                  const timebase::ClipClock& clock) {
    const auto window =
        std::make_shared<const image::MovingPictures>(image::findMovingBlobs(pictures, clock));
    const image::MovingPictures& moving = *window;
    std::vector<image::LinkedFlight> struck;
    std::vector<image::LinkedFlight> others;
    for (image::LinkedFlight& flight : image::linkFlights(moving)) {
        auto& list = fliesLikeStruckBall(moving, flight) ? struck : others;
        list.push_back(std::move(flight));
    }
    addEarlier(std::move(others), struck);
    std::vector<SeenFlight> flights;
    for (image::LinkedFlight& flight : struck) {
        const image::FrameRange range{moving.frames[flight.members.front().ordinal],
                                      moving.frames[flight.members.back().ordinal]};
        for (auto& member : flight.members) {  // windows count from their own first frame
            member.ordinal = static_cast<std::size_t>(moving.frames[member.ordinal].value);
        }
        flights.push_back({range, std::move(flight), false, window});
    }
    return flights;
}

image::Continuation continuation(const SeenFlight& earlier, const SeenFlight& later) {
    return image::continuation(earlier.path, later.path);
}

bool areOne(const SeenFlight& a, const SeenFlight& b) {
    using image::Continuation;
    return a.range.first <= b.range.last && b.range.first <= a.range.last &&
           continuation(a, b) == Continuation::None && continuation(b, a) == Continuation::None;
}

bool isSameBall(const image::LinkedFlight& a, const image::LinkedFlight& b) {
    return std::any_of(a.members.begin(), a.members.end(), [&](const auto& one) {
        return std::any_of(b.members.begin(), b.members.end(), [&](const auto& other) {
            return one.ordinal == other.ordinal &&
                   std::hypot(one.centre.x - other.centre.x, one.centre.y - other.centre.y) <
                       0.5 * a.radiusPx;
        });
    });
}

/// Two windows cut a flight differently: what the one saw before and after the other is added.
void join(SeenFlight& flight, const SeenFlight& part) {
    std::vector<image::LinkedFlight::Member> before;
    std::vector<image::LinkedFlight::Member> after;
    for (const auto& member : part.path.members) {
        if (member.ordinal < flight.path.members.front().ordinal) {
            before.push_back(member);
        } else if (member.ordinal > flight.path.members.back().ordinal) {
            after.push_back(member);
        }
    }
    if (!before.empty()) {  // where it came from is told by the path at its beginning
        flight.path.referenceTime = part.path.referenceTime;
        flight.path.x = part.path.x;
        flight.path.y = part.path.y;
        flight.window = part.window;
    }
    auto& members = flight.path.members;
    members.insert(members.begin(), before.begin(), before.end());
    members.insert(members.end(), after.begin(), after.end());
    flight.range = {std::min(flight.range.first, part.range.first),
                    std::max(flight.range.last, part.range.last)};
}

// Keeps the best-scored of flights that share frames: one ball is struck at a time.
std::vector<SeenFlight> withoutRepeats(std::vector<SeenFlight> flights) {
    std::sort(flights.begin(), flights.end(),
              [](const SeenFlight& a, const SeenFlight& b) { return a.path.score > b.path.score; });
    std::vector<SeenFlight> kept;
    for (SeenFlight& flight : flights) {
        const auto clash = std::find_if(kept.begin(), kept.end(), [&](const SeenFlight& other) {
            return areOne(other, flight);
        });
        if (clash == kept.end()) {
            kept.push_back(std::move(flight));
        } else if (isSameBall(clash->path, flight.path)) {
            join(*clash, flight);
        }
    }
    std::sort(kept.begin(), kept.end(), [](const SeenFlight& a, const SeenFlight& b) {
        return a.range.first < b.range.first;
    });
    return kept;
}

/// Which of the flights before it the k-th one goes on from, k itself when none: of a flight of its
/// own rather than of a short one, of the last one rather than of earlier ones.
std::size_t originOf(const std::vector<SeenFlight>& flights, std::size_t k) {
    std::size_t origin = k;
    for (std::size_t j = k; j-- > 0;) {
        const bool isOwn = flights[j].path.score >= kMinScore;
        if (continuation(flights[j], flights[k]) != image::Continuation::None &&
            (origin == k || isOwn)) {
            origin = j;
            if (isOwn) {
                break;
            }
        }
    }
    return origin;
}

/// Without pitches, and the flights after a kink told as such. By time.
std::vector<SeenFlight> shotsAmong(std::vector<SeenFlight> flights) {
    std::vector<std::size_t> first(flights.size());  // of the flights that go on in each other
    std::vector<bool> isPitch(flights.size(), false);
    for (std::size_t k = 0; k < flights.size(); ++k) {
        const std::size_t origin = originOf(flights, k);
        first[k] = origin == k ? k : first[origin];
        const bool isStruck =
            origin != k && continuation(flights[origin], flights[k]) == image::Continuation::Strike;
        for (std::size_t j = first[k]; j < k; ++j) {
            isPitch[j] = isPitch[j] || (isStruck && first[j] == first[k]);
            flights[k].isAfterKink =
                flights[k].isAfterKink || (first[j] == first[k] && !isPitch[j]);
        }
    }
    std::vector<SeenFlight> kept;
    for (std::size_t k = 0; k < flights.size(); ++k) {
        if (!isPitch[k]) {
            kept.push_back(std::move(flights[k]));
        }
    }
    return kept;
}

}  // namespace

Result<std::vector<SeenFlight>> searchFlights(image::FrameSource& source,
                                              const timebase::ClipClock& clock,
                                              const std::vector<image::FrameRange>& ranges,
                                              const std::stop_token& stop) {
    std::vector<SeenFlight> flights;
    // The window before is looked at while the next one is decoded.
    using Looking = jobs::Aside<std::vector<SeenFlight>>;
    std::unique_ptr<Looking> before;
    const auto bringHome = [&] {
        if (before) {
            std::ranges::move(before->get(), std::back_inserter(flights));
            before.reset();
        }
    };
    for (const image::FrameRange& window : windowsOf(ranges)) {
        BOOST_OUTCOME_TRY(pictures, image::readSmallFrames(source, window, stop));
        bringHome();
        before = std::make_unique<Looking>(
            [pictures = std::move(pictures), &clock] { return flightsIn(pictures, clock); });
    }
    bringHome();
    return shotsAmong(withoutRepeats(std::move(flights)));
}

}  // namespace core::shots
