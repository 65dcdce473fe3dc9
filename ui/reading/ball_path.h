#pragma once

#include <QPointF>
#include <optional>
#include <vector>

#include "core/image/ball_track.h"
#include "core/project/ball_place.h"
#include "core/project/model.h"

namespace ui::reading {

/// Where the ball is in a frame, in picture coordinates.
struct BallPlace {
    QPointF centrePx;
    double radiusPx{};
};

/// The ball of a shot as the reviewer's clicks or a track say: at each of their frames exactly, in
/// between and beyond on straight lines in capture time. Immutable value.
class BallPath {
public:
    BallPath() = default;
    /// seconds holds the capture time of firstFrame and of every frame after it. Clicks on other
    /// frames are left out.
    BallPath(const std::vector<core::project::BallClick>& clicks,
             core::timebase::FrameIndex firstFrame, const std::vector<double>& seconds);

    /// The ball as it was tracked in the pictures; in clicked frames the click holds, so that a
    /// correction is seen at once.
    BallPath(const core::image::BallTrack& track,
             const std::vector<core::project::BallClick>& clicks,
             core::timebase::FrameIndex firstFrame, const std::vector<double>& seconds);

    /// The ball as it is known from elsewhere; clicks hold as above.
    BallPath(const std::vector<core::project::BallPlace>& known,
             const std::vector<core::project::BallClick>& clicks,
             core::timebase::FrameIndex firstFrame, const std::vector<double>& seconds);

    [[nodiscard]] bool isEmpty() const noexcept { return m_knots.empty(); }
    /// Absent when there is no click. One click holds for every frame.
    [[nodiscard]] std::optional<BallPlace> at(double seconds) const;
    /// Whether a point is more than three ball widths from the centre of the ball at that time.
    /// Never while a single click is all that is known, which says nothing of the flight.
    [[nodiscard]] bool isFarFrom(double seconds, QPointF picturePx) const;

private:
    struct Knot {
        double seconds{};
        BallPlace place;
    };
    std::vector<Knot> m_knots;  // ascending in time
};

}  // namespace ui::reading
