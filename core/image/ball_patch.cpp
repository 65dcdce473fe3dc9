#include "core/image/ball_patch.h"

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>

#include "core/image/clear_view.h"

namespace core::image {

namespace {

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

cv::Rect wantedBox(const SweptDisc& ball) {
    const double reach = ball.radiusPx * (1.0 + kMarginRadii) + kMarginPx;
    const double rx = reach + 0.5 * std::abs(ball.smear.x);
    const double ry = reach + 0.5 * std::abs(ball.smear.y);
    const int x0 = static_cast<int>(std::floor(ball.centre.x - rx));
    const int y0 = static_cast<int>(std::floor(ball.centre.y - ry));
    return {x0, y0, static_cast<int>(std::ceil(ball.centre.x + rx)) - x0,
            static_cast<int>(std::ceil(ball.centre.y + ry)) - y0};
}

// Frames in which the ball is elsewhere; failing that the farthest ones.
std::vector<std::size_t> framesBehind(const std::vector<SweptDisc>& balls, std::size_t at,
                                      const cv::Rect& box) {
    std::vector<std::size_t> others = clearFrames(balls, at, box);
    if (others.empty()) {
        for (const std::size_t i : {std::size_t{0}, balls.size() - 1}) {
            if (i != at) {
                others.push_back(i);
            }
        }
    }
    return others;
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

Result<BallPatch> cutBallPatch(const PlacedPictures& pictures, const std::vector<SweptDisc>& balls,
                               std::size_t at) {
    const cv::Rect wanted = wantedBox(balls[at]);
    const cv::Rect picture(0, 0, pictures.size.width, pictures.size.height);
    const cv::Rect box = wanted & picture;
    BallPatch patch;
    patch.about = balls[at];
    if (box.empty() || pictures.frames.size() < 2) {
        return patch;
    }
    BOOST_OUTCOME_TRY(seen, region(pictures.source, pictures.frames[at].index, box));
    BOOST_OUTCOME_TRY(background, medianOf(pictures, framesBehind(balls, at, box), at, box));
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

bool ShowThrough::isShadow() const {
    constexpr double kLeastCorrelation = 0.4;  // a ball shows nothing through, a shadow nearly all
    const double scale = std::sqrt(seenSeen * behindBehind);
    const double correlation = scale > 0.0 ? seenBehind / scale : 0.0;
    const double leftByDimming = seenSeen * (1.0 - correlation * correlation);
    return darker > 0.0 && correlation > kLeastCorrelation && leftByDimming < leftByBall;
}

namespace {

/// Share of the exposure in which a point lies inside the unit circle that moves by way (middle of
/// the exposure: centre at the origin): |point - phase way| < 1 for phases from -1/2 to 1/2.
double shareCovered(PointPx point, PointPx way) {
    const double a = way.x * way.x + way.y * way.y;
    const double b = point.x * way.x + point.y * way.y;
    const double c = 1.0 - point.x * point.x - point.y * point.y;
    constexpr double kStill = 1e-9;
    if (a < kStill) {
        return c > 0.0 ? 1.0 : 0.0;
    }
    const double root = std::sqrt(std::max(0.0, b * b + a * c));
    return std::max(0.0, std::min(0.5, (b + root) / a) - std::max(-0.5, (b - root) / a));
}

}  // namespace

void addShowThrough(const BallPatch& patch, const Ellipse& outline, PointPx smear, double share,
                    ShowThrough& sums) {
    constexpr float kNeighbourPx = 3.5F;
    constexpr double kLeastCovered = 0.5;
    const double cosine = std::cos(outline.angle.radians);
    const double sine = std::sin(outline.angle.radians);
    const auto inRadii = [&](double x, double y) {
        return PointPx{(cosine * x + sine * y) / outline.semiMajorPx,
                       (cosine * y - sine * x) / outline.semiMinorPx};
    };
    const PointPx way = inRadii(smear.x, smear.y);
    const PatchPixel* last = nullptr;
    double lastBall = 0.0;
    for (const PatchPixel& pixel : patch.pixels) {
        const PointPx at = inRadii(static_cast<double>(pixel.x) - outline.centre.x,
                                   static_cast<double>(pixel.y) - outline.centre.y);
        const double covered = shareCovered(at, way);
        if (std::hypot(at.x, at.y) > share || covered < kLeastCovered) {
            continue;
        }
        const auto lightBehind = static_cast<double>(pixel.background[1]);
        const double ball =
            (static_cast<double>(pixel.seen[1]) - (1.0 - covered) * lightBehind) / covered;
        sums.darker += ball < lightBehind ? 1.0 : -1.0;
        if (last != nullptr && last->y == pixel.y && pixel.x - last->x < kNeighbourPx) {
            const double seen = static_cast<double>(pixel.seen[1] - last->seen[1]);
            const double behind = static_cast<double>(pixel.background[1] - last->background[1]);
            sums.seenSeen += seen * seen;
            sums.seenBehind += seen * behind;
            sums.behindBehind += behind * behind;
            sums.leftByBall += std::pow(covered * (ball - lastBall), 2);
        }
        last = &pixel;
        lastBall = ball;
    }
}

}  // namespace core::image
