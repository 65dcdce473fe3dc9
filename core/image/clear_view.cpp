#include "core/image/clear_view.h"

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>

#include "core/image/order_over_time.h"

namespace core::image {

namespace {

constexpr std::size_t kMostFramesOfView = 7;

// Map of pixel positions of frame `to` into frame `from` (both relative to the reference).
cv::Matx23d mapBetween(const PlacedFrame& to, const PlacedFrame& from) {
    const FrameMotion& m = to.motion;
    const FrameMotion& n = from.motion;
    const double size2 = m.a * m.a + m.b * m.b;
    const double ia = m.a / size2;
    const double ib = -m.b / size2;
    const double a = n.a * ia - n.b * ib;
    const double b = n.b * ia + n.a * ib;
    const double cx = 0.5 * to.frame->width();
    const double cy = 0.5 * to.frame->height();
    const double tx = cx + n.shift.x - a * (cx + m.shift.x) + b * (cy + m.shift.y);
    const double ty = cy + n.shift.y - b * (cx + m.shift.x) - a * (cy + m.shift.y);
    return {a, -b, tx, b, a, ty};
}

// The box of frame `to` as frame `from` shows the same place.
cv::Mat samePlace(const PlacedFrame& to, const PlacedFrame& from, const cv::Rect& box) {
    if (to.motion == from.motion) {
        return region(*from.frame, box);
    }
    const cv::Matx23d map = mapBetween(to, from);
    const cv::Point2d middle(box.x + 0.5 * box.width, box.y + 0.5 * box.height);
    const cv::Point2d there(map(0, 0) * middle.x + map(0, 1) * middle.y + map(0, 2),
                            map(1, 0) * middle.x + map(1, 1) * middle.y + map(1, 2));
    constexpr int kSlack = 3;
    const cv::Rect wide(static_cast<int>(std::floor(there.x - 0.5 * box.width)) - kSlack,
                        static_cast<int>(std::floor(there.y - 0.5 * box.height)) - kSlack,
                        box.width + 2 * kSlack, box.height + 2 * kSlack);
    // Sample positions: pixel i of the box lies at box.x + i + 0.5.
    const double dx = box.x + 0.5;
    const double dy = box.y + 0.5;
    const cv::Matx23d local(map(0, 0), map(0, 1),
                            map(0, 0) * dx + map(0, 1) * dy + map(0, 2) - wide.x - 0.5, map(1, 0),
                            map(1, 1), map(1, 0) * dx + map(1, 1) * dy + map(1, 2) - wide.y - 0.5);
    cv::Mat moved;
    cv::warpAffine(region(*from.frame, wide), moved, local, box.size(),
                   cv::INTER_CUBIC | cv::WARP_INVERSE_MAP, cv::BORDER_REPLICATE);
    return moved;
}

bool isClear(const cv::Rect& box, const SweptDisc& ball) {
    constexpr double kSafetyPx = 3.0;
    const double reachX = ball.radiusPx + 0.5 * std::abs(ball.smear.x) + kSafetyPx;
    const double reachY = ball.radiusPx + 0.5 * std::abs(ball.smear.y) + kSafetyPx;
    return ball.centre.x + reachX < box.x || ball.centre.x - reachX > box.x + box.width ||
           ball.centre.y + reachY < box.y || ball.centre.y - reachY > box.y + box.height;
}

}  // namespace

cv::Mat region(const media::Frame& frame, const cv::Rect& box) {
    const PixelBuffer buffer = frame.rgbRegion(box.x, box.y, box.width, box.height);
    const cv::Mat view(box.height, box.width, CV_8UC3, const_cast<std::uint8_t*>(buffer.row(0)),
                       static_cast<std::size_t>(buffer.strideBytes()));
    return view.clone();
}

std::vector<std::size_t> clearFrames(const std::vector<SweptDisc>& balls, std::size_t at,
                                     const cv::Rect& box) {
    std::vector<std::size_t> clear;
    const auto distance = [at](std::size_t i) { return i > at ? i - at : at - i; };
    for (std::size_t i = 0; i < balls.size(); ++i) {
        if (i != at && isClear(box, balls[i])) {
            clear.push_back(i);
        }
    }
    std::sort(clear.begin(), clear.end(),
              [&](std::size_t a, std::size_t b) { return distance(a) < distance(b); });
    clear.resize(std::min(clear.size(), kMostFramesOfView));
    if (clear.size() % 2 == 0 && clear.size() > 2) {
        clear.pop_back();
    }
    return clear;
}

cv::Mat medianOf(const std::vector<PlacedFrame>& frames, const std::vector<std::size_t>& which,
                 std::size_t at, const cv::Rect& box) {
    std::vector<cv::Mat> pictures;
    for (const std::size_t i : which) {
        pictures.push_back(samePlace(frames[at], frames[i], box));
    }
    sortOverTime(pictures);
    return pictures[pictures.size() / 2];
}

}  // namespace core::image
