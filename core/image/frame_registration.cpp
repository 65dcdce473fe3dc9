#include "core/image/frame_registration.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <opencv2/imgproc.hpp>

namespace core::image {

namespace {

constexpr int kWorkingWidth = 320;
constexpr int kCell = 5;              // one sample from each cell of so many pixels squared
constexpr float kMinGradient = 1.5F;  // grey levels per pixel; flat places say nothing
constexpr int kMaxSteps = 12;
constexpr double kConvergedPx = 0.002;  // at working size
constexpr double kHuberSigmas = 2.0;
constexpr double kTukeySigmas = 4.7;
constexpr int kHuberSteps = 4;  // to get near; from then on what differs much is left out

float bilinear(const cv::Mat& picture, float x, float y) {
    const int x0 = static_cast<int>(x);
    const int y0 = static_cast<int>(y);
    const float fx = x - static_cast<float>(x0);
    const float fy = y - static_cast<float>(y0);
    const float* upper = picture.ptr<float>(y0) + x0;
    const float* lower = picture.ptr<float>(y0 + 1) + x0;
    return (1.0F - fy) * ((1.0F - fx) * upper[0] + fx * upper[1]) +
           fy * ((1.0F - fx) * lower[0] + fx * lower[1]);
}

// Of a difference of so many sigmas: Huber at first, then Tukey's biweight.
double weightOf(double sigmas, bool isNear) {
    if (!isNear) {
        return sigmas <= kHuberSigmas ? 1.0 : kHuberSigmas / sigmas;
    }
    const double share = 1.0 - sigmas * sigmas / (kTukeySigmas * kTukeySigmas);
    return share > 0.0 ? share * share : 0.0;
}

}  // namespace

cv::Mat FrameRegistration::prepare(const cv::Mat& picture) {
    cv::Mat grey;
    if (picture.channels() == 3) {
        cv::cvtColor(picture, grey, cv::COLOR_RGB2GRAY);
    } else {
        grey = picture;
    }
    const double scale = std::max(1.0, static_cast<double>(grey.cols) / kWorkingWidth);
    cv::Mat small;
    cv::resize(grey, small, {}, 1.0 / scale, 1.0 / scale, cv::INTER_AREA);
    cv::Mat smooth;
    small.convertTo(smooth, CV_32F);
    cv::GaussianBlur(smooth, smooth, {}, 1.0);
    return smooth;
}

FrameRegistration::FrameRegistration(const cv::Mat& reference) {
    const cv::Mat smooth = prepare(reference);
    m_scale = static_cast<double>(reference.cols) / smooth.cols;
    m_size = smooth.size();
    m_centre = {0.5 * smooth.cols - 0.5, 0.5 * smooth.rows - 0.5};  // in sample positions
    for (int cellY = 1; cellY + kCell < smooth.rows; cellY += kCell) {
        for (int cellX = 1; cellX + kCell < smooth.cols; cellX += kCell) {
            Sample best;
            float bestGradient = kMinGradient;
            for (int y = cellY; y < cellY + kCell; ++y) {
                for (int x = cellX; x < cellX + kCell; ++x) {
                    const float gx =
                        0.5F * (smooth.at<float>(y, x + 1) - smooth.at<float>(y, x - 1));
                    const float gy =
                        0.5F * (smooth.at<float>(y + 1, x) - smooth.at<float>(y - 1, x));
                    const float gradient = std::hypot(gx, gy);
                    if (gradient > bestGradient) {
                        bestGradient = gradient;
                        const float dx = static_cast<float>(x - m_centre.x);
                        const float dy = static_cast<float>(y - m_centre.y);
                        best = {static_cast<float>(x),
                                static_cast<float>(y),
                                smooth.at<float>(y, x),
                                {gx * dx + gy * dy, gy * dx - gx * dy, gx, gy}};
                    }
                }
            }
            if (bestGradient > kMinGradient) {
                m_samples.push_back(best);
            }
        }
    }
}

double FrameRegistration::texturedShare() const {
    constexpr int kColumns = 6;
    constexpr int kRows = 4;
    constexpr int kFewest = 3;  // samples in a part; one or two are noise
    std::array<int, kColumns * kRows> counts{};
    for (const Sample& sample : m_samples) {
        const int column = static_cast<int>(sample.x) * kColumns / m_size.width;
        const int row = static_cast<int>(sample.y) * kRows / m_size.height;
        ++counts[static_cast<std::size_t>(row * kColumns + column)];
    }
    const auto textured =
        std::count_if(counts.begin(), counts.end(), [](int count) { return count >= kFewest; });
    return static_cast<double>(textured) / (kColumns * kRows);
}

FrameRegistration::Step FrameRegistration::step(const cv::Mat& smooth, bool isNear,
                                                FrameMotion& motion) const {
    std::vector<std::pair<const Sample*, float>> differences;
    std::vector<float> sizes;
    for (const Sample& sample : m_samples) {
        const double dx = static_cast<double>(sample.x) - m_centre.x;
        const double dy = static_cast<double>(sample.y) - m_centre.y;
        const double x = m_centre.x + motion.a * dx - motion.b * dy + motion.shift.x;
        const double y = m_centre.y + motion.b * dx + motion.a * dy + motion.shift.y;
        if (x >= 0.0 && y >= 0.0 && x < smooth.cols - 1 && y < smooth.rows - 1) {
            const float difference =
                bilinear(smooth, static_cast<float>(x), static_cast<float>(y)) - sample.value;
            differences.emplace_back(&sample, difference);
            sizes.push_back(std::abs(difference));
        }
    }
    constexpr std::size_t kFewest = 40;
    if (sizes.size() < kFewest) {
        return {};
    }
    const auto middle = sizes.begin() + static_cast<std::ptrdiff_t>(sizes.size() / 2);
    std::nth_element(sizes.begin(), middle, sizes.end());
    const double noise = std::max(0.1, 1.4826 * static_cast<double>(*middle));
    cv::Matx44d normal = cv::Matx44d::zeros();
    cv::Vec4d right;
    for (const auto& [sample, difference] : differences) {
        const double size = std::abs(static_cast<double>(difference));
        const double weight = weightOf(size / noise, isNear);
        const cv::Vec4d descent = sample->descent;
        normal += weight * (descent * descent.t());
        right += weight * static_cast<double>(difference) * descent;
    }
    const cv::Matx44d inverse = normal.inv(cv::DECOMP_CHOLESKY);
    const cv::Vec4d delta = inverse * right;
    // The step moves the reference; undo it on the picture's side: motion o (1 + delta)^-1.
    const double da = 1.0 + delta[0];
    const double db = delta[1];
    const double size2 = da * da + db * db;
    const double ia = da / size2;
    const double ib = -db / size2;
    const double sx = -(ia * delta[2] - ib * delta[3]);
    const double sy = -(ib * delta[2] + ia * delta[3]);
    motion.shift.x += motion.a * sx - motion.b * sy;
    motion.shift.y += motion.b * sx + motion.a * sy;
    const double a = motion.a * ia - motion.b * ib;
    motion.b = motion.b * ia + motion.a * ib;
    motion.a = a;
    return {std::hypot(delta[2], delta[3]) + std::hypot(delta[0], delta[1]) * m_centre.x,
            noise * std::sqrt(inverse(2, 2) + inverse(3, 3) +
                              (inverse(0, 0) + inverse(1, 1)) * m_centre.x * m_centre.x)};
}

FrameRegistration::Alignment FrameRegistration::align(const cv::Mat& picture,
                                                      const FrameMotion& guess) const {
    const cv::Mat smooth = prepare(picture);
    Alignment out{guess, 0.0};
    out.motion.shift = {guess.shift.x / m_scale, guess.shift.y / m_scale};
    for (int i = 0; i < kMaxSteps; ++i) {
        const Step done = step(smooth, i >= kHuberSteps, out.motion);
        out.sigmaPx = done.sigmaPx * m_scale;
        if (i > kHuberSteps && done.movedPx < kConvergedPx) {
            break;
        }
    }
    out.motion.shift = {out.motion.shift.x * m_scale, out.motion.shift.y * m_scale};
    return out;
}

}  // namespace core::image
