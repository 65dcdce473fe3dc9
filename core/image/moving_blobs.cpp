#include "core/image/moving_blobs.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <opencv2/imgproc.hpp>

#include "core/base/expects.h"
#include "core/base/words.h"
#include "core/image/frame_registration.h"
#include "core/image/order_over_time.h"

namespace core::image {

namespace {

constexpr std::size_t kBackgroundFrames = 9;
constexpr int kThresholdLevels = 7;        // of 255, above which a smoothed difference counts
constexpr double kThresholdScatter = 1.2;  // times the interquartile range over time, added
constexpr std::size_t kMotionProbes = 8;   // frames that tell whether the camera stands still
constexpr int kMinBlobArea = 10;           // reduced pixels
constexpr double kFixedCameraPx = 0.12;    // motion below this moves no edge to speak of, full size
constexpr double kFixedCameraSigmas = 5.0;  // and below so many uncertainties it may be noise
// An alignment less sure than this does more harm than a fixed camera taken for granted: with
// texture it is sure to a tenth of a pixel, on a plain wall to several, following noise.
constexpr double kUsefulSigmaPx = 0.7;
constexpr double kLeastTexture = 0.25;  // share of the picture; on less no motion can be seen

/// The small pictures as they are, which nobody may write to.
struct Reduced {
    double scale{1.0};
    std::vector<cv::Mat> pictures;  ///< RGB
};

double largestShift(const FrameMotion& motion, int width, int height) {
    const PointPx centre{0.5 * width, 0.5 * height};
    const PointPx corner = motion.apply({0.0, 0.0}, centre);
    const PointPx other = motion.apply({1.0 * width, 0.0}, centre);
    return std::max(std::hypot(corner.x, corner.y), std::hypot(other.x - width, other.y));
}

Reduced reducedOf(const std::vector<SmallFramePtr>& frames) {
    Reduced reduced;
    for (const SmallFramePtr& frame : frames) {
        const PixelView view = frame->picture.view();
        reduced.pictures.emplace_back(view.height, view.width, CV_8UC3,
                                      const_cast<std::uint8_t*>(view.data),
                                      static_cast<std::size_t>(view.strideBytes));
    }
    reduced.scale = static_cast<double>(frames.front()->fullWidth) / reduced.pictures.front().cols;
    return reduced;
}

double upperQuartile(std::vector<double> values) {
    const std::size_t at = values.size() * 3 / 4;
    std::nth_element(values.begin(), values.begin() + static_cast<std::ptrdiff_t>(at),
                     values.end());
    return values[at];
}

/// Of at most so many pictures, evenly spread over all.
std::vector<std::size_t> spreadOver(std::size_t count, std::size_t most) {
    const std::size_t used = std::min(count, most);
    std::vector<std::size_t> chosen;
    for (std::size_t i = 0; i < used; ++i) {
        chosen.push_back(used == 1 ? 0 : i * (count - 1) / (used - 1));
    }
    return chosen;
}

/// The scene without what passes through it: nothing that flies must lead the alignment.
cv::Mat emptyScene(const std::vector<cv::Mat>& pictures) {
    std::vector<cv::Mat> chosen;
    for (const std::size_t i : spreadOver(pictures.size(), kBackgroundFrames)) {
        chosen.push_back(pictures[i].clone());
    }
    sortOverTime(chosen);
    return chosen[chosen.size() / 2];
}

/// The camera's motion at full size, frame after frame outwards from the middle one, against a
/// reference picture.
class MotionMeter {
public:
    MotionMeter(const Reduced& reduced, const cv::Mat& reference, MovingPictures& out)
        : m_reduced{reduced},
          m_out{out},
          m_middle{reduced.pictures.size() / 2},
          m_registration{reference} {}

    /// Whether every step-th frame says that the camera moves.
    bool measure(std::size_t step) {
        if (m_registration.texturedShare() < kLeastTexture) {
            return false;
        }
        const std::size_t count = m_reduced.pictures.size();
        m_out.motion.assign(count, {});
        m_shifts.clear();
        m_sigmas.clear();
        follow(m_middle, {});
        for (std::size_t i = m_middle + step; i < count; i += step) {
            follow(i, m_out.motion[i - step]);
        }
        for (std::size_t i = m_middle; i >= step; i -= step) {
            follow(i - step, m_out.motion[i]);
        }
        const double sigma = upperQuartile(m_sigmas);
        return sigma < kUsefulSigmaPx &&
               upperQuartile(m_shifts) > std::max(kFixedCameraPx, kFixedCameraSigmas * sigma);
    }

private:
    void follow(std::size_t i, const FrameMotion& near) {
        const double scale = m_reduced.scale;
        FrameMotion guess = near;
        guess.shift = {near.shift.x / scale, near.shift.y / scale};
        const auto found = m_registration.align(m_reduced.pictures[i], guess);
        FrameMotion& motion = m_out.motion[i];
        motion = found.motion;
        motion.shift = {motion.shift.x * scale, motion.shift.y * scale};
        m_shifts.push_back(largestShift(motion, m_out.fullWidth, m_out.fullHeight));
        m_sigmas.push_back(found.sigmaPx * scale);
    }

    const Reduced& m_reduced;
    MovingPictures& m_out;
    std::size_t m_middle;
    FrameRegistration m_registration;
    std::vector<double> m_shifts;
    std::vector<double> m_sigmas;
};

// Most cameras stand still: a few frames against the empty scene tell, and only a moving one is
// followed in every frame. Against a single frame with the ball in it, on a plain wall, the
// alignment would follow the ball.
void measureMotion(const Reduced& reduced, MovingPictures& out) {
    const std::size_t count = reduced.pictures.size();
    const std::size_t step = std::max<std::size_t>(1, count / kMotionProbes);
    out.cameraMoves = MotionMeter(reduced, emptyScene(reduced.pictures), out).measure(step) &&
                      MotionMeter(reduced, reduced.pictures[count / 2], out).measure(1);
    if (!out.cameraMoves) {
        out.motion.assign(count, {});
    }
}

/// A picture laid over the reference frame: itself, or made in the space that is given.
cv::Mat laidOverReference(const Reduced& reduced, const MovingPictures& moving, std::size_t i,
                          cv::Mat& space) {
    const cv::Mat& picture = reduced.pictures[i];
    if (!moving.cameraMoves) {
        return picture;
    }
    const FrameMotion& m = moving.motion[i];
    const double cx = 0.5 * picture.cols - 0.5;
    const double cy = 0.5 * picture.rows - 0.5;
    const cv::Matx23d map(m.a, -m.b, cx - m.a * cx + m.b * cy + m.shift.x / reduced.scale, m.b, m.a,
                          cy - m.b * cx - m.a * cy + m.shift.y / reduced.scale);
    cv::warpAffine(picture, space, map, picture.size(), cv::INTER_LINEAR | cv::WARP_INVERSE_MAP,
                   cv::BORDER_REPLICATE);
    return space;
}

struct Background {
    cv::Mat median;
    cv::Mat threshold;  ///< the same for all channels
};

// Median and interquartile range over time (largest channel), pixel by pixel.
Background backgroundOf(const Reduced& reduced, const MovingPictures& moving) {
    std::vector<cv::Mat> sorted;
    for (const std::size_t i : spreadOver(reduced.pictures.size(), kBackgroundFrames)) {
        cv::Mat space;
        sorted.push_back(laidOverReference(reduced, moving, i, space).clone());
    }
    sortOverTime(sorted);
    const std::size_t quarter = sorted.size() / 4;
    cv::Mat spread = sorted[sorted.size() - 1 - quarter] - sorted[quarter];
    std::array<cv::Mat, 3> channels;
    cv::split(spread, channels.data());
    cv::Mat largest = cv::max(cv::max(channels[0], channels[1]), channels[2]);
    largest.convertTo(largest, CV_8U, kThresholdScatter, kThresholdLevels);
    Background background;
    background.median = sorted[sorted.size() / 2];
    channels.fill(largest);
    cv::merge(channels.data(), channels.size(), background.threshold);
    return background;
}

/// Pictures that are filled for one frame after the other: memory that is touched for the first
/// time costs more than what is done with it.
struct Scratch {
    cv::Mat laid, difference, exceeds, mask, closed, labels, stats, centroids;
};

void markChanged(const cv::Mat& picture, const Background& background, Scratch& scratch) {
    cv::absdiff(picture, background.median, scratch.difference);
    cv::compare(scratch.difference, background.threshold, scratch.exceeds, cv::CMP_GT);
    scratch.mask.create(picture.size(), CV_8U);
    for (int y = 0; y < picture.rows; ++y) {
        const auto* e = scratch.exceeds.ptr<std::uint8_t>(y);
        auto* m = scratch.mask.ptr<std::uint8_t>(y);
        for (int x = 0; x < picture.cols; ++x, e += 3) {
            m[x] = e[0] | e[1] | e[2];
        }
    }
    static const cv::Mat kNeighbours = cv::Mat::ones(3, 3, CV_8U);
    cv::morphologyEx(scratch.mask, scratch.closed, cv::MORPH_CLOSE, kNeighbours);
}

Blob describe(const cv::Mat& labels, int label, const cv::Rect& box, double scale) {
    double n = 0.0;
    double sx = 0.0;
    double sy = 0.0;
    double sxx = 0.0;
    double sxy = 0.0;
    double syy = 0.0;
    for (int y = box.y; y < box.y + box.height; ++y) {
        const int* row = labels.ptr<int>(y);
        for (int x = box.x; x < box.x + box.width; ++x) {
            if (row[x] == label) {
                n += 1.0;
                sx += x;
                sy += y;
                sxx += static_cast<double>(x) * x;
                sxy += static_cast<double>(x) * y;
                syy += static_cast<double>(y) * y;
            }
        }
    }
    Blob blob;
    const double mx = sx / n;
    const double my = sy / n;
    const double scale2 = scale * scale;
    blob.centre = {(mx + 0.5) * scale, (my + 0.5) * scale};
    blob.areaPx2 = n * scale2;
    blob.varianceX = (sxx / n - mx * mx) * scale2;
    blob.varianceXY = (sxy / n - mx * my) * scale2;
    blob.varianceY = (syy / n - my * my) * scale2;
    blob.touchesBorder = box.x == 0 || box.y == 0 || box.x + box.width == labels.cols ||
                         box.y + box.height == labels.rows;
    return blob;
}

std::vector<Blob> blobsOf(Scratch& scratch, double scale) {
    const int count = cv::connectedComponentsWithStats(scratch.closed, scratch.labels,
                                                       scratch.stats, scratch.centroids, 8, CV_32S);
    std::vector<Blob> blobs;
    for (int label = 1; label < count; ++label) {
        const int* s = scratch.stats.ptr<int>(label);
        if (s[cv::CC_STAT_AREA] >= kMinBlobArea) {
            const cv::Rect box(s[cv::CC_STAT_LEFT], s[cv::CC_STAT_TOP], s[cv::CC_STAT_WIDTH],
                               s[cv::CC_STAT_HEIGHT]);
            blobs.push_back(describe(scratch.labels, label, box, scale));
        }
    }
    return blobs;
}

}  // namespace

Result<std::vector<SmallFramePtr>> readSmallFrames(FrameSource& source, FrameRange range,
                                                   const std::stop_token& stop) {
    std::vector<SmallFramePtr> frames;
    for (std::int64_t i = range.first.value; i <= range.last.value; ++i) {
        if (stop.stop_requested()) {
            return fail(ErrorCode::Cancelled, said("Looking for the ball was stopped."));
        }
        BOOST_OUTCOME_TRY(frame, source.small({i}));
        frames.push_back(std::move(frame));
    }
    return frames;
}

MovingPictures findMovingBlobs(const std::vector<SmallFramePtr>& pictures,
                               const timebase::ClipClock& clock) {
    CORE_EXPECTS(!pictures.empty());
    const Reduced reduced = reducedOf(pictures);
    MovingPictures moving;
    moving.fullWidth = pictures.front()->fullWidth;
    moving.fullHeight = pictures.front()->fullHeight;
    measureMotion(reduced, moving);
    const Background background = backgroundOf(reduced, moving);
    Scratch scratch;
    for (std::size_t i = 0; i < pictures.size(); ++i) {
        moving.frames.push_back(pictures[i]->index);
        moving.times.push_back(clock.captureSeconds(pictures[i]->index));
        markChanged(laidOverReference(reduced, moving, i, scratch.laid), background, scratch);
        moving.blobs.push_back(blobsOf(scratch, reduced.scale));
    }
    return moving;
}

}  // namespace core::image
