#include "core/image/track_ball.h"

#include <algorithm>
#include <cmath>

#include "core/base/words.h"
#include "core/image/click_interpolation.h"
#include "core/image/flight_continuation.h"
#include "core/image/flight_fit.h"
#include "core/image/kink.h"

namespace core::image {

namespace {

constexpr std::int64_t kFewestFrames = 5;
constexpr double kCredibleScore = 0.3;     // of the best linked flight
constexpr double kLikeBallShare = 0.4;     // of a flight's blobs, for a part of a broken path
constexpr std::size_t kMostTried = 3;      // linked flights, when the first is no ball
constexpr std::int64_t kMostFrames = 600;  // small pictures of a range are held together

Result<void> checkRange(const timebase::ClipClock& clock, FrameRange range) {
    if (!clock.contains(range.first) || !clock.contains(range.last) || range.count() < 1) {
        return fail(ErrorCode::OutOfRange,
                    said("Frames {} to {} are not a stretch of this clip of {} frames.",
                         range.first.value, range.last.value, clock.frameCount()));
    }
    if (range.count() < kFewestFrames || range.count() > kMostFrames) {
        return fail(ErrorCode::OutOfRange,
                    said("A ball is followed through {} to {} frames, not through {}. "
                         "Choose the stretch around one shot.",
                         kFewestFrames, kMostFrames, range.count()));
    }
    return ok();
}

Result<std::vector<BallHint>> checkClicks(std::span<const BallHint> clicks, FrameRange range) {
    std::vector<BallHint> sorted(clicks.begin(), clicks.end());
    std::sort(sorted.begin(), sorted.end(),
              [](const BallHint& a, const BallHint& b) { return a.frame < b.frame; });
    if (sorted.empty()) {
        return fail(ErrorCode::InvalidInput,
                    said("There is no click to lead the search for the ball."));
    }
    for (std::size_t i = 0; i < sorted.size(); ++i) {
        const std::int64_t frame = sorted[i].frame.value;
        if (sorted[i].frame < range.first || sorted[i].frame > range.last) {
            return fail(ErrorCode::InvalidInput,
                        said("The click in frame {} lies outside frames {} to {}.", frame,
                             range.first.value, range.last.value));
        }
        if (i > 0 && sorted[i].frame == sorted[i - 1].frame) {
            return fail(ErrorCode::InvalidInput,
                        said("Frame {} has two clicks. Remove one of them.", frame));
        }
    }
    return sorted;
}

// What the reviewer drew, else what moves under the clicks, else a middling ball.
double clickedRadius(const MovingPictures& moving, std::span<const BallHint> clicks) {
    constexpr double kMiddlingPx = 20.0;
    std::vector<double> radii;
    for (const BallHint& click : clicks) {
        const LinkedFlight::Member at = memberFor(moving, click);
        for (const Blob& blob : moving.blobs[at.ordinal]) {
            const double radius = std::sqrt(blob.areaPx2 / kPi);
            if (std::hypot(blob.centre.x - at.centre.x, blob.centre.y - at.centre.y) < radius) {
                radii.push_back(click.radiusPx.value_or(radius));
            }
        }
        if (click.radiusPx) {
            return *click.radiusPx;
        }
    }
    std::sort(radii.begin(), radii.end());
    return radii.empty() ? kMiddlingPx : radii[radii.size() / 2];
}

std::optional<LinkedFlight> flightUnder(const MovingPictures& moving, const BallHint& click) {
    const LinkedFlight::Member at = memberFor(moving, click);
    constexpr double kNearRadii = 1.5;
    for (LinkedFlight& flight : linkFlights(moving)) {
        const PointPx there = flight.centreAt(moving.times[at.ordinal]);
        if (std::hypot(there.x - at.centre.x, there.y - at.centre.y) <
            kNearRadii * flight.radiusPx) {
            return flight;
        }
    }
    return std::nullopt;
}

// Clicks beyond the kink at which the track ends are of another flight.
bool keepsToClicks(const BallTrack& track, std::span<const BallHint> clicks) {
    constexpr double kWithinRadii = 0.6;
    return std::all_of(clicks.begin(), clicks.end(), [&](const BallHint& click) {
        if (track.kink && click.frame >= *track.kink) {
            return true;
        }
        const BallInFrame* ball = track.find(click.frame);
        return ball != nullptr &&
               std::hypot(ball->centre.x - click.centre.x, ball->centre.y - click.centre.y) <
                   kWithinRadii * ball->radiusPx;
    });
}

Result<BallTrack> fromOneClick(FrameSource& source, const MovingPictures& moving,
                               const BallHint& click, const TrackOptions& options,
                               const std::stop_token& stop) {
    const std::span<const BallHint> clicks(&click, 1);
    if (const std::optional<LinkedFlight> flight = flightUnder(moving, click)) {
        BOOST_OUTCOME_TRY(track, fitFlight(source, moving, *flight, clicks, options, stop));
        if (keepsToClicks(track, clicks)) {
            return track;
        }
    }
    return fail(ErrorCode::NotFound, said("Nothing that flies passes the click in frame {}. "
                                          "Click the ball in a second frame.",
                                          click.frame.value));
}

using Flights = std::vector<LinkedFlight>;

bool isOfTheShot(const MovingPictures& moving, const LinkedFlight& flight,
                 const std::optional<FrameRange>& shot) {
    constexpr std::ptrdiff_t kFewestShared = 3;
    return !shot || std::count_if(flight.members.begin(), flight.members.end(),
                                  [&](const LinkedFlight::Member& member) {
                                      const auto frame = moving.frames[member.ordinal];
                                      return shot->first <= frame && frame <= shot->last;
                                  }) >= kFewestShared;
}

// A ball that rolls by is seen longer than the struck one, which is faster.
Flights struckFirst(Flights flights) {
    const double best = flights.front().score;
    std::erase_if(flights,
                  [best](const LinkedFlight& f) { return f.score < kCredibleScore * best; });
    const auto rank = [](const LinkedFlight& f) {
        const auto& first = f.members.front();
        const auto& last = f.members.back();
        const double way =
            std::hypot(last.centre.x - first.centre.x, last.centre.y - first.centre.y);
        return f.score * way / (last.time.seconds - first.time.seconds);
    };
    std::stable_sort(
        flights.begin(), flights.end(),
        [&](const LinkedFlight& a, const LinkedFlight& b) { return rank(a) > rank(b); });
    return flights;
}

/// The flight that goes on in this one, or the one that it goes on in.
const LinkedFlight* neighbour(const Flights& all, const LinkedFlight& flight, bool isBefore) {
    const auto found = std::find_if(all.begin(), all.end(), [&](const LinkedFlight& other) {
        if (other.discShare < kLikeBallShare) {
            return false;
        }
        const auto how = isBefore ? continuation(other, flight) : continuation(flight, other);
        return how != Continuation::None;
    });
    return found == all.end() ? nullptr : &*found;
}

/// The flights that go on in each other through this one, in time order.
std::vector<const LinkedFlight*> sequenceOf(const Flights& all, const LinkedFlight& flight) {
    std::vector<const LinkedFlight*> sequence{&flight};
    while (const auto* before = neighbour(all, *sequence.front(), true)) {
        sequence.insert(sequence.begin(), before);
    }
    while (const auto* after = neighbour(all, *sequence.back(), false)) {
        sequence.push_back(after);
    }
    return sequence;
}

/// In the place of each flight that of its sequence which is the shot, each once.
Flights shotsOf(const Flights& all, const Flights& ranked) {
    Flights shots;
    for (const LinkedFlight& flight : ranked) {
        const auto sequence = sequenceOf(all, flight);
        const LinkedFlight* shot = sequence.front();
        for (std::size_t k = 1; k < sequence.size(); ++k) {
            if (continuation(*sequence[k - 1], *sequence[k]) == Continuation::Strike) {
                shot = sequence[k];
            }
        }
        const bool isNew = std::none_of(shots.begin(), shots.end(), [shot](const auto& other) {
            return other.members.front().time == shot->members.front().time &&
                   other.members.front().centre.x == shot->members.front().centre.x;
        });
        if (isNew) {
            shots.push_back(*shot);
        }
    }
    return shots;
}

/// What fit() makes of the first flight, or of the next ones while there is no ball.
template <typename Fit>
auto firstThatFits(const std::vector<LinkedFlight>& flights, const Fit& fit) {
    auto first = fit(flights.front());
    const std::size_t count = std::min(flights.size(), kMostTried);
    for (std::size_t k = 1; k < count && !first && first.error().code == ErrorCode::NotFound; ++k) {
        auto other = fit(flights[k]);
        if (other || other.error().code == ErrorCode::Cancelled) {
            return other;
        }
    }
    return first;
}

/// The flights that may be the shot, the likeliest first. Errors: NotFound.
Result<Flights> flightsOfShot(const MovingPictures& moving, const TrackOptions& options) {
    Flights flights = linkFlights(moving);
    std::erase_if(flights, [&](const LinkedFlight& flight) {
        return !isOfTheShot(moving, flight, options.shot);
    });
    if (flights.empty()) {
        const FrameRange looked =
            options.shot.value_or(FrameRange{moving.frames.front(), moving.frames.back()});
        return fail(ErrorCode::NotFound, said("No ball in flight was found in frames {} to {}. "
                                              "Click the ball in two frames to lead the search.",
                                              looked.first.value, looked.last.value));
    }
    return shotsOf(flights, struckFirst(flights));
}

}  // namespace

Result<BallTrack> trackBall(FrameSource& source, const timebase::ClipClock& clock, FrameRange range,
                            const TrackOptions& options, std::stop_token stop) {
    BOOST_OUTCOME_TRY(checkRange(clock, range));
    BOOST_OUTCOME_TRY(pictures, readSmallFrames(source, range, stop));
    const MovingPictures moving = findMovingBlobs(pictures, clock);
    BOOST_OUTCOME_TRY(shots, flightsOfShot(moving, options));
    return firstThatFits(shots, [&](const LinkedFlight& flight) {
        return fitFlight(source, moving, flight, {}, options, stop);
    });
}

Result<FrameRange> framesWithBall(FrameSource& source, const MovingPictures& moving,
                                  const TrackOptions& options, std::stop_token stop) {
    BOOST_OUTCOME_TRY(shots, flightsOfShot(moving, options));
    return firstThatFits(shots, [&](const LinkedFlight& flight) {
        return seenInFlight(source, moving, flight, options, stop);
    });
}

Result<BallTrack> trackFromClicks(FrameSource& source, const timebase::ClipClock& clock,
                                  FrameRange range, std::span<const BallHint> clicks,
                                  const TrackOptions& options, std::stop_token stop) {
    BOOST_OUTCOME_TRY(checkRange(clock, range));
    BOOST_OUTCOME_TRY(sorted, checkClicks(clicks, range));
    BOOST_OUTCOME_TRY(pictures, readSmallFrames(source, range, stop));
    const MovingPictures moving = findMovingBlobs(pictures, clock);
    if (sorted.size() == 1) {
        return fromOneClick(source, moving, sorted.front(), options, stop);
    }
    std::vector<LinkedFlight::Member> seed;
    for (const BallHint& click : sorted) {
        seed.push_back(memberFor(moving, click));
    }
    const double radius = clickedRadius(moving, sorted);
    const LinkedFlight flight = growFlight(moving, seed, radius);
    if (flight.radiusPx > 0.0) {
        auto fitted = fitFlight(source, moving, flight, sorted, options, stop);
        const bool isFinal = !fitted && fitted.error().code != ErrorCode::NotFound;
        if (isFinal || (fitted && keepsToClicks(fitted.value(), sorted))) {
            return fitted;
        }
    }
    return interpolateClicks(moving, sorted, radius, options);
}

}  // namespace core::image
