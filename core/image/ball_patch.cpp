#include "core/image/ball_patch.h"

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>

#include "core/image/order_over_time.h"

namespace core::image {

namespace {

constexpr std::size_t kClearFrames = 7;
constexpr double kMarginRadii = 0.3;
constexpr double kMarginPx = 6.0;
constexpr float kLeastChange = 9.0F;  // levels of 255
constexpr float kMostChange = 60.0F;
constexpr float kChangeOverMedian = 2.5F;  // about three sigma for the largest of three channels
constexpr double kPixelsWanted = 2500.0;   // more are thinned out

/// Light and slope of the sRGB transfer function (IEC 61966-2-1), by 8-bit level.
struct Transfer {
    std::array<float, 256> light{};
    std::array<float, 256> weight{};
    Transfer() {
        constexpr int kDarkest = 10;  // below this the slope says more about the coder than noise
        for (int level = 0; level < 256; ++level) {
            light[static_cast<std::size_t>(level)] = static_cast<float>(toLight(level));
            const int safe = std::max(level, kDarkest);
            const double slope = 0.5 * (toLight(safe + 1) - toLight(safe - 1));
            weight[static_cast<std::size_t>(level)] = static_cast<float>(1.0 / (slope * slope));
        }
    }
    static double toLight(int level) {
        const double v = level / 255.0;
        return v <= 0.04045 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4);
    }
};

const Transfer& transfer() {
    static const Transfer table;
    return table;
}

cv::Mat region(const media::Frame& frame, const cv::Rect& box) {
    const PixelBuffer buffer = frame.rgbRegion(box.x, box.y, box.width, box.height);
    const cv::Mat view(box.height, box.width, CV_8UC3, const_cast<std::uint8_t*>(buffer.row(0)),
                       static_cast<std::size_t>(buffer.strideBytes()));
    return view.clone();
}

cv::Rect wantedBox(const SweptDisc& ball) {
    const double reach = ball.radiusPx * (1.0 + kMarginRadii) + kMarginPx;
    const double rx = reach + 0.5 * std::abs(ball.smear.x);
    const double ry = reach + 0.5 * std::abs(ball.smear.y);
    const int x0 = static_cast<int>(std::floor(ball.centre.x - rx));
    const int y0 = static_cast<int>(std::floor(ball.centre.y - ry));
    return {x0, y0, static_cast<int>(std::ceil(ball.centre.x + rx)) - x0,
            static_cast<int>(std::ceil(ball.centre.y + ry)) - y0};
}

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

// The frames nearest in time in which the ball is elsewhere; failing that the farthest ones.
std::vector<std::size_t> backgroundFrames(const std::vector<SweptDisc>& balls, std::size_t at,
                                          const cv::Rect& box) {
    std::vector<std::size_t> clear;
    const auto distance = [at](std::size_t i) { return i > at ? i - at : at - i; };
    for (std::size_t i = 0; i < balls.size(); ++i) {
        if (i != at && isClear(box, balls[i])) {
            clear.push_back(i);
        }
    }
    if (clear.empty()) {
        for (const std::size_t i : {std::size_t{0}, balls.size() - 1}) {
            if (i != at) {
                clear.push_back(i);
            }
        }
        return clear;
    }
    std::sort(clear.begin(), clear.end(),
              [&](std::size_t a, std::size_t b) { return distance(a) < distance(b); });
    clear.resize(std::min(clear.size(), kClearFrames));
    if (clear.size() % 2 == 0 && clear.size() > 2) {
        clear.pop_back();
    }
    return clear;
}

cv::Mat medianOver(std::vector<cv::Mat>& pictures) {
    sortOverTime(pictures);
    return pictures[pictures.size() / 2];
}

// From the rim of the box, which the ball does not reach.
float noiseThreshold(const std::vector<PatchPixel>& pixels, const cv::Rect& box) {
    constexpr float kRimPx = 3.0F;
    std::vector<float> changes;
    for (const PatchPixel& pixel : pixels) {
        const float x = pixel.x - static_cast<float>(box.x);
        const float y = pixel.y - static_cast<float>(box.y);
        if (std::min({x, y, static_cast<float>(box.width) - x,
                      static_cast<float>(box.height) - y}) < kRimPx) {
            changes.push_back(pixel.change);
        }
    }
    if (changes.empty()) {
        return kLeastChange;
    }
    const auto middle = changes.begin() + static_cast<std::ptrdiff_t>(changes.size() / 2);
    std::nth_element(changes.begin(), middle, changes.end());
    return std::clamp(kChangeOverMedian * *middle, kLeastChange, kMostChange);
}

}  // namespace

BallPatch cutBallPatch(const std::vector<PlacedFrame>& frames, const std::vector<SweptDisc>& balls,
                       std::size_t at) {
    const cv::Rect wanted = wantedBox(balls[at]);
    const cv::Rect picture(0, 0, frames[at].frame->width(), frames[at].frame->height());
    const cv::Rect box = wanted & picture;
    BallPatch patch;
    patch.about = balls[at];
    if (box.empty() || frames.size() < 2) {
        return patch;
    }
    const cv::Mat seen = region(*frames[at].frame, box);
    std::vector<cv::Mat> others;
    for (const std::size_t i : backgroundFrames(balls, at, box)) {
        others.push_back(samePlace(frames[at], frames[i], box));
    }
    const cv::Mat background = medianOver(others);
    const int step = std::max(1, static_cast<int>(std::lround(box.area() / kPixelsWanted)));
    const Transfer& table = transfer();
    unsigned count = 0;
    for (int y = 0; y < box.height; ++y) {
        for (int x = 0; x < box.width; ++x) {
            // Steps of a golden-ratio sequence leave no pattern in the thinned-out grid.
            if (step > 1 &&
                ((count++ * 40503U) & 0xFFFFU) * static_cast<unsigned>(step) >= 0x10000U) {
                continue;
            }
            PatchPixel pixel;
            pixel.x = static_cast<float>(box.x + x) + 0.5F;
            pixel.y = static_cast<float>(box.y + y) + 0.5F;
            const cv::Vec3b s = seen.at<cv::Vec3b>(y, x);
            const cv::Vec3b b = background.at<cv::Vec3b>(y, x);
            for (int c = 0; c < 3; ++c) {
                const auto k = static_cast<std::size_t>(c);
                pixel.seen[k] = table.light[s[c]];
                pixel.background[k] = table.light[b[c]];
                pixel.weight += table.weight[s[c]] / 3.0F;
                pixel.change = std::max(pixel.change, static_cast<float>(std::abs(s[c] - b[c])));
            }
            patch.pixels.push_back(pixel);
        }
    }
    patch.changedLevels = noiseThreshold(patch.pixels, box);
    return patch;
}

double ShowThrough::correlation() const {
    const double scale = std::sqrt(seenSeen * behindBehind);
    return scale > 0.0 ? seenBehind / scale : 0.0;
}

void addShowThrough(const BallPatch& patch, const Ellipse& outline, double share,
                    ShowThrough& sums) {
    constexpr float kNeighbourPx = 3.5F;
    const double cosine = std::cos(outline.angle.radians);
    const double sine = std::sin(outline.angle.radians);
    const PatchPixel* last = nullptr;
    for (const PatchPixel& pixel : patch.pixels) {
        const double dx = static_cast<double>(pixel.x) - outline.centre.x;
        const double dy = static_cast<double>(pixel.y) - outline.centre.y;
        if (std::hypot((cosine * dx + sine * dy) / outline.semiMajorPx,
                       (cosine * dy - sine * dx) / outline.semiMinorPx) > share) {
            continue;
        }
        sums.darker += pixel.seen[1] < pixel.background[1] ? 1.0 : -1.0;
        if (last != nullptr && last->y == pixel.y && pixel.x - last->x < kNeighbourPx) {
            const double seen = static_cast<double>(pixel.seen[1] - last->seen[1]);
            const double behind = static_cast<double>(pixel.background[1] - last->background[1]);
            sums.seenSeen += seen * seen;
            sums.seenBehind += seen * behind;
            sums.behindBehind += behind * behind;
        }
        last = &pixel;
    }
}

}  // namespace core::image
