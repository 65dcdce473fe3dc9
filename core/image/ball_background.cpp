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
    std::vector<PlacedFrame> frames(track.frames.size());
    const auto fetch = [&](std::size_t i) -> Result<void> {
        BOOST_OUTCOME_TRY(picture, source.frame(track.frames[i].frame));
        frames[i] = {std::move(picture), track.motion[i]};
        return ok();
    };
    BOOST_OUTCOME_TRY(fetch(index));
    for (const std::size_t i : which) {
        BOOST_OUTCOME_TRY(fetch(i));
    }
    return std::optional{copyOf(medianOf(frames, which, index, place))};
}

}  // namespace core::image
