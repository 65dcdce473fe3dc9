#include "core/image/clear_view.h"

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>

#include "core/image/order_over_time.h"

namespace core::image {

namespace {

constexpr std::size_t kMostFramesOfView = 7;

// Map of pixel positions of frame `to` into frame `from` (both relative to the reference).
cv::Matx23d mapBetween(const FrameMotion& m, const FrameMotion& n, const PixelSize& size) {
    const double size2 = m.a * m.a + m.b * m.b;
    const double ia = m.a / size2;
    const double ib = -m.b / size2;
    const double a = n.a * ia - n.b * ib;
    const double b = n.b * ia + n.a * ib;
    const double cx = 0.5 * size.width;
    const double cy = 0.5 * size.height;
    const double tx = cx + n.shift.x - a * (cx + m.shift.x) + b * (cy + m.shift.y);
    const double ty = cy + n.shift.y - b * (cx + m.shift.x) - a * (cy + m.shift.y);
    return {a, -b, tx, b, a, ty};
}

// The box of frame `to` as frame `from` shows the same place.
Result<cv::Mat> samePlace(const PlacedPictures& pictures, std::size_t toFrame,
                          std::size_t fromFrame, const cv::Rect& box) {
    const PlacedFrame& to = pictures.frames[toFrame];
    const PlacedFrame& from = pictures.frames[fromFrame];
    if (to.motion == from.motion) {
        return region(pictures.source, from.index, box);
    }
    const cv::Matx23d map = mapBetween(to.motion, from.motion, pictures.size);
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
    BOOST_OUTCOME_TRY(picture, region(pictures.source, from.index, wide));
    cv::Mat moved;
    cv::warpAffine(picture, moved, local, box.size(), cv::INTER_CUBIC | cv::WARP_INVERSE_MAP,
                   cv::BORDER_REPLICATE);
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

Result<cv::Mat> region(FrameSource& source, timebase::FrameIndex index, const cv::Rect& box) {
    BOOST_OUTCOME_TRY(buffer, source.region(index, {box.x, box.y, box.width, box.height}));
    const cv::Mat view(box.height, box.width, CV_8UC3, buffer.row(0),
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

Result<cv::Mat> medianOf(const PlacedPictures& pictures, const std::vector<std::size_t>& which,
                         std::size_t at, const cv::Rect& box) {
    std::vector<cv::Mat> places;
    for (const std::size_t i : which) {
        BOOST_OUTCOME_TRY(place, samePlace(pictures, at, i, box));
        places.push_back(std::move(place));
    }
    sortOverTime(places);
    return places[places.size() / 2];
}

}  // namespace core::image
