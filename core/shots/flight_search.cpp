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
std::vector<SeenFlight> flightsIn(std::vector<media::FramePtr> pictures,
                                  const timebase::ClipClock& clock) {
    const auto moving = image::findMovingBlobs(std::move(pictures), clock);
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
        flights.push_back({range, std::move(flight)});
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
        }
    }
    std::sort(kept.begin(), kept.end(), [](const SeenFlight& a, const SeenFlight& b) {
        return a.range.first < b.range.first;
    });
    return kept;
}

/// Without pitches, and the flights after a kink told as such. By time.
std::vector<SeenFlight> shotsAmong(std::vector<SeenFlight> flights) {
    std::vector<SeenFlight> kept;
    std::size_t begin = 0;  // of the flights that go on in each other
    for (std::size_t k = 0; k < flights.size(); ++k) {
        const auto how =
            k > 0 ? continuation(flights[k - 1], flights[k]) : image::Continuation::None;
        if (how == image::Continuation::None) {
            begin = kept.size();
        } else if (how == image::Continuation::Strike) {
            kept.resize(begin, flights[k]);
        }
        flights[k].isAfterKink = kept.size() > begin;
        kept.push_back(flights[k]);
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
        BOOST_OUTCOME_TRY(pictures, image::readFrames(source, window, stop));
        bringHome();
        before = std::make_unique<Looking>([pictures = std::move(pictures), &clock]() mutable {
            return flightsIn(std::move(pictures), clock);
        });
    }
    bringHome();
    return shotsAmong(withoutRepeats(std::move(flights)));
}

}  // namespace core::shots
