#pragma once

#include <array>
#include <optional>
#include <vector>

#include "core/base/units.h"
#include "core/image/projected_sphere.h"
#include "core/image/readout_estimate.h"
#include "core/image/sensor_rows.h"
#include "core/timebase/frame_time.h"

namespace core::image {

/// Where the position of the ball in a frame comes from.
enum class BallSource {
    Measured,  ///< from this frame's own picture
    Bridged,   ///< from the path alone: the picture shows too little of the ball
    Clicked,   ///< from the reviewer's clicks, alone or interpolated
};

/// The ball in one frame. All lengths in pixels of this frame's own picture.
struct BallInFrame {
    timebase::FrameIndex frame;
    /// Capture time at the middle of the exposure on the clip's clock: that of the ball's row, with
    /// BallTrack::readout.
    Seconds time;
    PointPx centre;          ///< projection of the ball's centre at that time
    PointPx centreSigma;     ///< standard uncertainties of centre.x and centre.y
    double radiusPx{};       ///< geometric mean of the outline's semi-axes
    double radiusSigmaPx{};  ///< standard uncertainty of radiusPx
    PointPx smear;           ///< way of the centre while the shutter was open
    double smearSigmaPx{};   ///< standard uncertainty of its length
    PointPx drift;           ///< way of the centre during BallTrack::readout
    Ellipse outline;         ///< at the middle of the exposure
    BallSource source{BallSource::Measured};
    bool isPartial{};  ///< the outline, smear included, crosses the picture's border
};

/// A smooth flight before the camera. In units in which the sphere's radius is 1 and depth is
/// divided by the focal length, the position is a polynomial of time:
///   centre = principal point + (X(t), Y(t)) / D(t),   radius at the picture's centre = 1 / D(t),
/// X, Y of degree 3 (degree 2 for constant acceleration), D of degree 1, t in seconds after
/// referenceTime. X and Y are in ball radii, D is in 1/px: no focal length is needed.
/// With a moving camera the path is that in the frame `reference` (see BallTrack).
struct BallPath {
    Seconds referenceTime;
    PointPx principalPoint;
    std::array<double, 4> x{};
    std::array<double, 4> y{};
    std::array<double, 2> inverseRadius{};

    [[nodiscard]] PointPx centreAt(Seconds time) const;
    /// f R / Z: the radius of the outline if the ball were at the centre of the picture.
    [[nodiscard]] double axialRadiusPxAt(Seconds time) const;
    /// Pixels per second.
    [[nodiscard]] PointPx velocityAt(Seconds time) const;
};

/// Turn, zoom and shift that carry picture coordinates of a reference frame to those of this frame:
/// p' = c + [a -b; b a] (p - c) + shift about the picture's centre c. Identity for a fixed camera.
struct FrameMotion {
    double a{1.0};
    double b{0.0};
    PointPx shift;

    [[nodiscard]] PointPx apply(PointPx referencePoint, PointPx pictureCentre) const noexcept;
    /// The point of the reference frame that this frame shows at the given place.
    [[nodiscard]] PointPx undo(PointPx point, PointPx pictureCentre) const noexcept;
    bool operator==(const FrameMotion&) const = default;
};

/// A length in pixels.
struct Pixels {
    double px{};
    auto operator<=>(const Pixels&) const = default;
};

/// A ball followed through one flight. Immutable value.
///
/// Frames are consecutive in the clip, first to last in which a part of the ball is in the picture
/// and on this path. Uncertainties come from the scatter of the single frames about the path, so
/// they contain compression and background, with an allowance for what all frames share (gloss at
/// the rim, the shape of the edge); they do not contain lens distortion. Neighbouring frames of a
/// track err together.
struct BallTrack {
    int pictureWidth{};
    int pictureHeight{};
    std::vector<BallInFrame> frames;
    BallPath path;
    std::vector<FrameMotion> motion;  ///< one a frame of `frames`; all identity for a fixed camera
    /// Focal length used for the outline; when it was not given, fitted to the outlines with a
    /// broad prior for phones, and sigma says how well they knew it.
    Measured<Pixels> focal;
    /// Exposure time on the clip's clock, from the smear. Zero with a large sigma if the ball moves
    /// too slowly to tell.
    Measured<Seconds> exposure;
    /// Root mean square distance of the measured centres from the path, per coordinate.
    Pixels scatter;
    RowOrder rowOrder{RowOrder::Down};
    /// Readout time that the times of the frames contain; where it was not given, the mean of
    /// readoutKnowledge() of `readoutSeen`. Its uncertainty is in nothing else here.
    Seconds readout;
    /// Longest readout time that the frame rate allows.
    Seconds longestReadout;
    /// What the outlines say of it; absent where it was given or they do not tell.
    std::optional<ReadoutEstimate> readoutSeen;
    /// The first frame in which the ball flies otherwise, when the flight ends at a kink of its
    /// path (kink.h) that was seen. It lies after the frames of the track.
    std::optional<timebase::FrameIndex> kink;

    [[nodiscard]] SensorRows rows() const noexcept {
        return {pictureWidth, pictureHeight, rowOrder};
    }
    [[nodiscard]] std::size_t measuredCount() const noexcept;
    /// The entry of this frame, null when the track does not contain it.
    [[nodiscard]] const BallInFrame* find(timebase::FrameIndex frame) const noexcept;
};

}  // namespace core::image
