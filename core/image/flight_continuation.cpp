#include "core/image/flight_continuation.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <span>

#include "core/image/kink.h"

namespace core::image {
namespace {

constexpr double kMostGapFrames = 6.5;     // between two flights that meet
constexpr double kMostGapSeconds = 0.055;  // or so long, while a racket or a hitter hides the ball
constexpr double kMeetRadii = 1.0;         // how near their paths must come
constexpr double kMeetStep = 0.2;          // and of the way between them
constexpr double kLikeSize = 1.6;          // ratio of their radii
constexpr std::size_t kMembersAtEnd = 6;

double intervalOf(const LinkedFlight& flight) {
    const auto& first = flight.members.front();
    const auto& last = flight.members.back();
    return (last.time.seconds - first.time.seconds) /
           static_cast<double>(last.ordinal - first.ordinal);
}

/// A flight near one of its ends: a long flight bends otherwise than its one parabola says, which
/// is off by more than the ball there.
class PathAtEnd {
public:
    PathAtEnd(const LinkedFlight& flight, bool isLast) {
        const auto count = std::min(flight.members.size(), kMembersAtEnd);
        const auto members = std::span{flight.members};
        const auto near = isLast ? members.last(count) : members.first(count);
        for (const auto& member : near) {
            m_from.seconds += member.time.seconds / static_cast<double>(count);
        }
        m_bend = {flight.x[2], flight.y[2]};
        double squares = 0.0;
        PointPx products{0.0, 0.0};
        for (const auto& member : near) {
            const double t = member.time.seconds - m_from.seconds;
            const PointPx straight{member.centre.x - m_bend.x * t * t,
                                   member.centre.y - m_bend.y * t * t};
            m_place.x += straight.x / static_cast<double>(count);
            m_place.y += straight.y / static_cast<double>(count);
            products.x += straight.x * t;
            products.y += straight.y * t;
            squares += t * t;
        }
        m_velocity = {products.x / squares, products.y / squares};
    }

    [[nodiscard]] PointPx centreAt(Seconds time) const {
        const double t = time.seconds - m_from.seconds;
        return {m_place.x + t * (m_velocity.x + t * m_bend.x),
                m_place.y + t * (m_velocity.y + t * m_bend.y)};
    }
    [[nodiscard]] PointPx velocityAt(Seconds time) const {
        const double t = time.seconds - m_from.seconds;
        return {m_velocity.x + 2.0 * t * m_bend.x, m_velocity.y + 2.0 * t * m_bend.y};
    }

private:
    Seconds m_from;
    PointPx m_place{0.0, 0.0}, m_velocity{0.0, 0.0}, m_bend{0.0, 0.0};
};

/// When the paths of two flights come nearest about the frames between them, and how near.
struct Meeting {
    Seconds time;
    double distancePx{};
    PointPx before, after;  ///< velocities
};

Meeting meetingOf(const LinkedFlight& earlier, const LinkedFlight& later) {
    const PathAtEnd ending{earlier, true};
    const PathAtEnd beginning{later, false};
    const double interval = intervalOf(earlier);
    const double end = earlier.members.back().time.seconds;
    const double begin = later.members.front().time.seconds;
    Meeting nearest{{begin}, std::numeric_limits<double>::infinity(), {}, {}};
    for (double t = std::min(end, begin) - interval; t <= std::max(end, begin) + interval;
         t += 0.05 * interval) {
        const PointPx a = ending.centreAt({t});
        const PointPx b = beginning.centreAt({t});
        const double distance = std::hypot(a.x - b.x, a.y - b.y);
        if (distance < nearest.distancePx) {
            nearest = {{t}, distance, ending.velocityAt({t}), beginning.velocityAt({t})};
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
    if (gap > std::max(kMostGapFrames, kMostGapSeconds / interval) || gap < -kMostOverlap ||
        later.members.back().time.seconds - later.members.front().time.seconds <=
            kMostOverlap * interval ||
        earlier.members.front().time.seconds >= later.members.front().time.seconds ||
        size > kLikeSize || size < 1.0 / kLikeSize) {
        return Continuation::None;
    }
    const Meeting meeting = meetingOf(earlier, later);
    const double step = std::max(std::hypot(meeting.before.x, meeting.before.y),
                                 std::hypot(meeting.after.x, meeting.after.y)) *
                        interval * std::max(gap, 1.0);
    if (meeting.distancePx > kMeetRadii * later.radiusPx + kMeetStep * step) {
        return Continuation::None;
    }
    return isStruck(meeting.before, meeting.after) ? Continuation::Strike : Continuation::Bounce;
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
