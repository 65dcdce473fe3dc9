#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "core/image/ball_track.h"

/// Where the path of a ball turns abruptly: it bounced, met a net, a racket or a hand.
///
/// The rule: a shot is the flight that begins at the strike and ends at the first kink of the path,
/// and no reading spans a kink, because spin and axis change there. It is decided here for the
/// search, for readings from the pictures and for readings by marks.
///
/// Between two kinks a ball obeys gravity, drag and lift, so X(t) and Y(t) in ball radii (picture
/// place times depth, which the ball's size tells) are nearly parabolas. Drag that changes with the
/// speed, and lens distortion, bend them a little more, but smoothly: third and fourth powers of
/// time are allowed, with 3 % and 0.6 % of half the way as standard deviation. A kink adds
/// a change of velocity at one instant, anywhere between two frames or within frames that were
/// missed. It is believed when
///   - it takes away more of the misfit than noise and single wrong frames may: misfits are counted
///     in scatters of the frames about their path, each frame at most as five of them;
///   - a time that was lost (a dropped frame whose time stamp does not say so) would not do as
///   well:
///     such a loss puts the ball further along its path and leaves its velocity as it was;
///   - the velocity changes by 5 % or more. A bounce at 3 degrees to the ground with a coefficient
///     of friction of 0.5 changes it by 7 % (both components of the impulse, elementary mechanics);
///     the sway of a hand and what is left of it after alignment stays below 2 %.
/// A kink needs three frames before it and two after it. For the last two frames see strayEnd().
namespace core::image {

/// Fewest frames before a kink in which the ball must be seen whole for a reading.
inline constexpr std::size_t kFewestBeforeKink = 6;

/// The ball in one frame, seen on its own. Of a moving camera in the coordinates of one frame.
struct PathPoint {
    Seconds time;
    PointPx centre;
    double radiusPx{};
    double sigmaPx{};  ///< least scatter to be reckoned with, per coordinate
};

struct Kink {
    Seconds time;
    std::size_t after{};     ///< the first point after it
    PointPx velocityBefore;  ///< px/s, at the kink
    PointPx velocityAfter;

    /// The ball was struck there: it flies off faster, which no ground, net or wall gives it, or
    /// turns back without losing much speed. Else the flight ends there.
    [[nodiscard]] bool isStrike() const noexcept;
};

/// Whether a ball that comes and goes with these velocities at a kink was struck there.
[[nodiscard]] bool isStruck(PointPx before, PointPx after) noexcept;

/// The kinks of a path in time order. Points in time order, no two at one time.
[[nodiscard]] std::vector<Kink> findKinks(std::span<const PathPoint> points);

/// Which of the parts between kinks is the shot: the first after the last strike; the first of all
/// when none of the kinks is a strike. As positions of points, the end excluded.
struct PathPart {
    std::size_t begin{};
    std::size_t end{};
    bool operator==(const PathPart&) const = default;
};
[[nodiscard]] PathPart shotAmong(std::span<const Kink> kinks, std::size_t points);

/// Where the last two points or the last one leave the smooth path of the others, as a ball does
/// right after a bounce, too shortly for findKinks(): the first of them. Absent where none do, or
/// fewer than six are left.
[[nodiscard]] std::optional<std::size_t> strayEnd(std::span<const PathPoint> points);

/// Why there is no reading of a shot that is seen whole in so few frames before its path turns in
/// this frame, and what would help.
[[nodiscard]] std::string tooFewBeforeKink(std::size_t frames, timebase::FrameIndex kink);

/// Says that only the frames before this one were read, in which the path turns.
[[nodiscard]] std::string cutAtKink(timebase::FrameIndex kink);

}  // namespace core::image
