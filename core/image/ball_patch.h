#pragma once

#include <array>
#include <vector>

#include "core/base/result.h"
#include "core/image/ball_track.h"
#include "core/image/frame_source.h"

namespace core::image {

/// Of a picture.
struct PixelSize {
    int width{};
    int height{};
};

/// A pixel about the ball with what lies behind it. Internal to core/image.
struct PatchPixel {
    float x{};  ///< of its centre, full-size pixels of its own frame
    float y{};
    std::array<float, 3> seen{};        ///< linear light, 1 = full scale
    std::array<float, 3> background{};  ///< the same, from frames in which the ball is elsewhere
    float weight{};   ///< (levels of 255 per unit of light)^2 at the seen value, channels together
    float change{};   ///< largest channel of |seen - background|, levels of 255
    float robust{1};  ///< last robust weight
};

/// Where a ball is expected: disc of radiusPx swept by smear about centre.
struct SweptDisc {
    PointPx centre;
    double radiusPx{};
    PointPx smear;
};

/// The neighbourhood of the ball in one frame.
struct BallPatch {
    std::vector<PatchPixel> pixels;
    SweptDisc about;        ///< the ball for which it was cut
    float changedLevels{};  ///< a change above this is more than the noise about the ball
};

/// A frame and the camera's motion in it.
struct PlacedFrame {
    timebase::FrameIndex index;
    FrameMotion motion;
};

/// The frames of a flight, to be asked for pixels. Refers to what it is made of.
struct PlacedPictures {
    FrameSource& source;
    PixelSize size;
    const std::vector<PlacedFrame>& frames;
};

/// Cuts out the surroundings of the ball from frame `at` and, as background, the median of up to
/// seven other frames in which the ball (balls, one a frame) keeps clear of the place. Thins out
/// the pixels of large balls. Errors: those of the source.
Result<BallPatch> cutBallPatch(const PlacedPictures& pictures, const std::vector<SweptDisc>& balls,
                               std::size_t at);

/// How far the pattern of the background shows through what is inside the outline: sums over pixels
/// next to each other, so that shading does not count. Through a ball it shows while the ball is
/// not there yet or no more, through a shadow all the time, dimmed.
struct ShowThrough {
    double seenSeen{};
    double seenBehind{};
    double behindBehind{};
    double leftByBall{};  ///< of seenSeen, when what shows before and after a ball is taken off
    double darker{};      ///< pixels darker than the background less those that are lighter

    /// Whether it is dark, shows its background, and dimming explains that better than a ball that
    /// moves does.
    [[nodiscard]] bool isShadow() const;
};

/// Adds the pixels within share of the outline in the middle of the exposure that a ball would
/// cover for half of the exposure or longer. smear: its way during the exposure.
void addShowThrough(const BallPatch& patch, const Ellipse& outline, PointPx smear, double share,
                    ShowThrough& sums);

}  // namespace core::image
