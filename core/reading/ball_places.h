#pragma once

#include <optional>
#include <span>
#include <vector>

#include "core/image/ball_track.h"
#include "core/project/model.h"
#include "core/timebase/clip_clock.h"

namespace core::reading {

/// Where the ball is, picture coordinates as shown.
struct BallPlace {
    double xPx{};
    double yPx{};
    double radiusPx{};
};

/// A frame in which the place of the ball is known.
struct KnownPlace {
    timebase::FrameIndex frame;
    BallPlace place;
};

[[nodiscard]] std::vector<KnownPlace> placesOf(std::span<const project::BallClick> clicks);
[[nodiscard]] std::vector<KnownPlace> placesOf(std::span<const image::BallInFrame> track);

/// The ball in every frame of a clip: where it is known, else on the straight line in capture time
/// through the two known places about the frame or next to it. Immutable.
class BallPlaces {
public:
    BallPlaces() = default;
    /// Of two places in one frame the later one in the list holds: a click laid over a track is
    /// seen at once. Places in frames that the clip does not have are left out.
    BallPlaces(std::span<const KnownPlace> known, timebase::ClipClock clock);
    /// These and more of the same clip, the latter laid over the former. Not for one that was made
    /// without a clock.
    [[nodiscard]] BallPlaces with(std::span<const KnownPlace> more) const;

    /// Nobody has said where the ball is.
    [[nodiscard]] bool isEmpty() const noexcept { return m_knots.empty(); }
    /// Frames in which the place is known.
    [[nodiscard]] std::size_t count() const noexcept { return m_knots.size(); }
    /// The first and the last of them. There must be one.
    [[nodiscard]] timebase::FrameIndex first() const { return m_knots.front().known.frame; }
    [[nodiscard]] timebase::FrameIndex last() const { return m_knots.back().known.frame; }
    /// Whether the frame lies from first() to last().
    [[nodiscard]] bool covers(timebase::FrameIndex frame) const noexcept;
    /// The frame must be in the clip. Absent only when nothing is known; a single known place holds
    /// for every frame.
    [[nodiscard]] std::optional<BallPlace> at(timebase::FrameIndex frame) const;
    /// Whether a point is more than three ball widths from the centre of the ball in that frame.
    /// Never while fewer than two places are known, which says nothing of the flight.
    [[nodiscard]] bool isFarFrom(timebase::FrameIndex frame, double xPx, double yPx) const;

private:
    void lay(std::span<const KnownPlace> known);

    struct Knot {
        KnownPlace known;
        double seconds{};
    };
    std::vector<Knot> m_knots;  ///< by frame
    std::optional<timebase::ClipClock> m_clock;
};

/// The ball of a shot as the rotation fit of the reading tracked it, else as a person pointed at
/// it. reading: the one that counts; null when there is none. One that was made before a person
/// turned the clip does not say where the ball is now.
[[nodiscard]] BallPlaces ballPlacesOf(const project::Clip& clip, const project::Shot& shot,
                                      const project::Reading* reading,
                                      const timebase::ClipClock& clock);

}  // namespace core::reading
