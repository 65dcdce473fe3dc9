#include "core/image/ball_background.h"

#include <algorithm>

#include "core/image/clear_view.h"

namespace core::image {
namespace {

std::vector<SweptDisc> ballsOf(const BallTrack& track) {
    std::vector<SweptDisc> balls;
    for (const BallInFrame& ball : track.frames) {
        balls.push_back({ball.outline.centre, ball.outline.semiMajorPx, ball.smear});
    }
    return balls;
}

PixelBuffer copyOf(const cv::Mat& picture) {
    PixelBuffer copy{picture.cols, picture.rows, PixelFormat::Rgb8};
    for (int y = 0; y < picture.rows; ++y) {
        std::copy_n(picture.ptr<std::uint8_t>(y), 3 * picture.cols, copy.row(y));
    }
    return copy;
}

}  // namespace

Result<std::optional<PixelBuffer>> backgroundBehind(const BallTrack& track, FrameSource& source,
                                                    std::size_t index, const PixelBox& box) {
    const cv::Rect place{box.left, box.top, box.width, box.height};
    const auto which = clearFrames(ballsOf(track), index, place);
    if (which.empty()) {
        return std::optional<PixelBuffer>{};
    }
    std::vector<PlacedFrame> frames;
    for (std::size_t i = 0; i < track.frames.size(); ++i) {
        frames.push_back({track.frames[i].frame, track.motion[i]});
    }
    const PlacedPictures pictures{source, {track.pictureWidth, track.pictureHeight}, frames};
    BOOST_OUTCOME_TRY(background, medianOf(pictures, which, index, place));
    return std::optional{copyOf(background)};
}

}  // namespace core::image
