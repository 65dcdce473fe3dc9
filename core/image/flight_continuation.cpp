#include "core/image/flight_continuation.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "core/image/kink.h"

namespace core::image {
namespace {

constexpr double kMostGapFrames = 6.5;  // between two flights that meet
constexpr double kMeetRadii = 1.0;      // how near their paths must come
constexpr double kMeetStep = 0.2;       // and of the way between them
constexpr double kLikeSize = 1.6;       // ratio of their radii

double intervalOf(const LinkedFlight& flight) {
    const auto& first = flight.members.front();
    const auto& last = flight.members.back();
    return (last.time.seconds - first.time.seconds) /
           static_cast<double>(last.ordinal - first.ordinal);
}

/// When the paths of two flights come nearest about the frames between them, and how near.
struct Meeting {
    Seconds time;
    double distancePx{};
};

Meeting meetingOf(const LinkedFlight& earlier, const LinkedFlight& later) {
    const double interval = intervalOf(earlier);
    const double end = earlier.members.back().time.seconds;
    const double begin = later.members.front().time.seconds;
    Meeting nearest{{begin}, std::numeric_limits<double>::infinity()};
    for (double t = std::min(end, begin) - interval; t <= std::max(end, begin) + interval;
         t += 0.05 * interval) {
        const PointPx a = earlier.centreAt({t});
        const PointPx b = later.centreAt({t});
        const double distance = std::hypot(a.x - b.x, a.y - b.y);
        if (distance < nearest.distancePx) {
            nearest = {{t}, distance};
        }
    }
    return nearest;
}

}  // namespace

Continuation continuation(const LinkedFlight& earlier, const LinkedFlight& later) {
    const double interval = intervalOf(earlier);
    const double gap =
        (later.members.front().time.seconds - earlier.members.back().time.seconds) / interval;
    constexpr double kMostOverlap = 2.5;  // frames that the one took from the other
    const double size = later.radiusPx / earlier.radiusPx;
    if (gap > kMostGapFrames || gap < -kMostOverlap ||
        later.members.back().time.seconds - later.members.front().time.seconds <=
            kMostOverlap * interval ||
        earlier.members.front().time.seconds >= later.members.front().time.seconds ||
        size > kLikeSize || size < 1.0 / kLikeSize) {
        return Continuation::None;
    }
    const Meeting meeting = meetingOf(earlier, later);
    const PointPx before = earlier.velocityAt(meeting.time);
    const PointPx after = later.velocityAt(meeting.time);
    const double step = std::max(std::hypot(before.x, before.y), std::hypot(after.x, after.y)) *
                        interval * std::max(gap, 1.0);
    if (meeting.distancePx > kMeetRadii * later.radiusPx + kMeetStep * step) {
        return Continuation::None;
    }
    return isStruck(before, after) ? Continuation::Strike : Continuation::Bounce;
}

void limitAtMeetings(std::vector<LinkedFlight>& flights, const MovingPictures& moving) {
    for (LinkedFlight& earlier : flights) {
        for (LinkedFlight& later : flights) {
            if (&earlier == &later || continuation(earlier, later) == Continuation::None) {
                continue;
            }
            const double at = meetingOf(earlier, later).time.seconds;
            const auto after =
                std::upper_bound(moving.times.begin(), moving.times.end(), at,
                                 [](double t, const Seconds& time) { return t < time.seconds; });
            const auto next = static_cast<std::size_t>(after - moving.times.begin());
            earlier.lastUsable = std::min(earlier.lastUsable, std::max(next, std::size_t{1}) - 1);
            later.firstUsable = std::max(later.firstUsable, next);
        }
    }
}

}  // namespace core::image
